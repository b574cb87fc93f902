// How active the rear is against the air that flows: a catalyst that fails only under load shows as a rise to the right.

import { type Component, createMemo, For, Show } from "solid-js";
import { toPixel } from "../../drawing/paths.ts";
import { fitRange } from "../../drawing/scale.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { readingAloud } from "../../signal/written/reading-text.ts";
import type { Range } from "../stage/types.ts";
import { Chart, type ChartSpace } from "./Chart.tsx";
import type { FlowPictureProps, FlowPoint } from "./picture-types.ts";

const touchRadius = 22;

/** Fills its parent. Each point is a control: its bounds are drawn as bars, and an open bound runs to the edge. */
export const FlowPicture: Component<FlowPictureProps> = (props) => {
  const shown = createMemo(() =>
    props.points.filter(({ flow, activity }) => flow.value !== null && activity.value !== null),
  );
  const left = () => props.points.length - shown().length;
  return (
    <Chart
      name={`${props.activityTitle} against ${props.flowTitle}`}
      x={scaleOf(shown().map((point) => point.flow))}
      y={scaleOf(
        shown().map((point) => point.activity),
        props.guides.map((guide) => guide.level),
      )}
      xTitle={props.flowTitle}
      yTitle={props.activityTitle + (left() > 0 ? ` (${left()} not resolvable)` : "")}
      guides={props.guides.map((guide) => guide.level)}
    >
      {(space) => (
        <>
          <For each={props.guides}>
            {({ level, label }) => (
              <text class="chart-figure" x={space().right - 6} y={toPixel(space().y, level) - 5} text-anchor="end">
                {label}
              </text>
            )}
          </For>
          <For each={shown()}>
            {(point) => (
              <PointMark
                point={point}
                space={space()}
                isSelected={props.selected === point.id}
                onSelect={() => props.onSelect(point.id)}
              />
            )}
          </For>
        </>
      )}
    </Chart>
  );
};

interface MarkProps {
  readonly point: FlowPoint;
  readonly space: ChartSpace;
  readonly isSelected: boolean;
  readonly onSelect: () => void;
}

const PointMark: Component<MarkProps> = (props) => {
  const x = () => toPixel(props.space.x, props.point.flow.value!);
  const y = () => toPixel(props.space.y, props.point.activity.value!);
  const { left, right, top, bottom } = props.space;
  const bars = () => {
    const [x0, x1] = ends(props.point.flow, (value) => toPixel(props.space.x, value), [left, right]);
    const [y0, y1] = ends(props.point.activity, (value) => toPixel(props.space.y, value), [bottom, top]);
    return `M${x0} ${y()}H${x1}M${x()} ${y0}V${y1}M${x() - 4} ${y0}h8M${x() - 4} ${y1}h8`;
  };
  const classes = () => {
    const { stretch, activity } = props.point;
    const bounded = activity.grade === "measured" ? "" : "flow-bounded";
    return `flow-point flow-${stretch} ${bounded} ${props.isSelected ? "flow-selected" : ""}`;
  };
  const name = () => `${props.point.label}: ${readingAloud(props.point.activity)} at ${readingAloud(props.point.flow)}`;
  return (
    <g class={classes()}>
      <path class="flow-bars" d={bars()} />
      <circle class="flow-dot" cx={x()} cy={y()} r="6" />
      <Show when={props.isSelected}>
        <text class="dimension-note" x={x() + 11} y={y() - 9} font-size="14px">
          {props.point.label}
        </text>
      </Show>
      <foreignObject x={x() - touchRadius} y={y() - touchRadius} width={2 * touchRadius} height={2 * touchRadius}>
        <button
          type="button"
          class="flow-button"
          aria-label={name()}
          aria-pressed={props.isSelected}
          title={name()}
          onClick={() => props.onSelect()}
        />
      </foreignObject>
    </g>
  );
};

/** Pixels of both bounds; an open one runs to the picture's edge. */
function ends({ low, high }: Reading, pixel: (value: number) => number, [first, last]: readonly [number, number]) {
  return [low === null ? first : pixel(low), high === null ? last : pixel(high)] as const;
}

/** From zero, since both quantities are shares of something, to a little above everything shown. */
function scaleOf(readings: readonly Reading[], more: readonly number[] = []): Range {
  const highest = Math.max(...readings.map(({ value, high }) => high ?? value ?? 0), ...more, 0);
  const [, top] = fitRange([0, highest || 1], "1", null);
  return [0, top];
}
