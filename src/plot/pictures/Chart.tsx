// A small picture with two scales, for what is not drawn over the capture's time.

import { type Component, createMemo, For, type JSX } from "solid-js";
import { type Mapping, mapping, toPixel } from "../../drawing/paths.ts";
import { niceTicks } from "../../drawing/scale.ts";
import { decimalsOfStep, formatNumber } from "../../signal/written/digits.ts";
import { createSize } from "../stage/stage.ts";
import type { Range } from "../stage/types.ts";
import "../stage/plot.css";
import "./chart.css";

/** From units to pixels, and where the picture's sheet lies. */
export interface ChartSpace {
  readonly x: Mapping;
  readonly y: Mapping;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface ChartProps {
  /** What the picture shows, for those who cannot see it. */
  readonly name: string;
  readonly x: Range;
  readonly y: Range;
  readonly xTitle: string;
  readonly yTitle: string;
  readonly guides: readonly number[];
  readonly children: (space: () => ChartSpace) => JSX.Element;
}

const [left, right, top, bottom] = [48, 12, 26, 44];
const [xRoom, yRoom] = [64, 34];

/** Fills its parent. */
export const Chart: Component<ChartProps> = (props) => {
  let element!: HTMLDivElement;
  const size = createSize(() => element);
  const space = createMemo((): ChartSpace => {
    const box = {
      left,
      top,
      right: Math.max(left + 1, size().width - right),
      bottom: Math.max(top + 1, size().height - bottom),
    };
    return {
      ...box,
      x: mapping(props.x[0], props.x[1], box.left, box.right),
      y: mapping(props.y[0], props.y[1], box.bottom, box.top),
    };
  });
  return (
    <div class="chart" ref={element}>
      <svg width={size().width} height={size().height}>
        <title>{props.name}</title>
        <rect class="chart-sheet" x={left} y={top} width={space().right - left} height={space().bottom - top} />
        <For each={ticksOf(props.y, (space().bottom - top) / yRoom)}>
          {(tick) => (
            <>
              <path class="chart-grid" d={`M${left} ${toPixel(space().y, tick.value)}H${space().right}`} />
              <text class="chart-figure" x={left - 7} y={toPixel(space().y, tick.value) + 4} text-anchor="end">
                {tick.text}
              </text>
            </>
          )}
        </For>
        <For each={ticksOf(props.x, (space().right - left) / xRoom)}>
          {(tick) => (
            <>
              <path class="time-tick" d={`M${toPixel(space().x, tick.value)} ${space().bottom}v5`} />
              <text
                class="chart-figure"
                x={toPixel(space().x, tick.value)}
                y={space().bottom + 19}
                text-anchor="middle"
              >
                {tick.text}
              </text>
            </>
          )}
        </For>
        <For each={props.guides}>
          {(guide) => <path class="chart-guide" d={`M${left} ${toPixel(space().y, guide)}H${space().right}`} />}
        </For>
        <text class="chart-title" x={left} y="17">
          {props.yTitle}
        </text>
        <text class="chart-title" x={space().right} y={size().height - 7} text-anchor="end">
          {props.xTitle}
        </text>
        {props.children(space)}
      </svg>
    </div>
  );
};

function ticksOf([low, high]: Range, most: number) {
  const { step, values } = niceTicks(low, high, Math.max(2, Math.min(8, Math.floor(most))));
  const decimals = decimalsOfStep(step);
  return values.map((value) => ({ value, text: value === 0 ? "0" : formatNumber(value, decimals) }));
}
