// The one time axis below all lanes.

import { type Component, createMemo, For } from "solid-js";
import { toPixel } from "../../drawing/paths.ts";
import { niceTicks } from "../../drawing/scale.ts";
import type { Stretch } from "../../exhaust/terms/analysis.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import type { View } from "../stage/types.ts";
import { timeFlags } from "./time-flags.ts";

const tickRoom = 96;
/** Half the width of a tick's figure, and a little air. */
const figureHalf = 28;

export interface TimeAxisProps {
  readonly view: View;
  readonly stage: Stage;
  /** Their colours run along the axis. */
  readonly stretches: readonly Stretch[];
  /** Times whose own figures stand on the axis; ticks' figures give way to them. */
  readonly flags: readonly number[];
}

export const TimeAxis: Component<TimeAxisProps> = (props) => {
  const ticks = createMemo(() => {
    const width = props.stage.size().width - gutter - margin;
    const { step, values } = niceTicks(props.view.from, props.view.to, Math.max(2, Math.floor(width / tickRoom)));
    return values.map((time) => ({ x: toPixel(props.stage.x(), time), text: formatTime(time, step) }));
  });
  const flags = createMemo(() => timeFlags(props.flags, props.stage));
  const isFree = (x: number) => flags().every(({ left, right }) => x + figureHalf < left || x - figureHalf > right);
  const top = () => props.stage.size().height - axisHeight;
  return (
    <g class="time-axis">
      <For each={props.stretches.filter(({ from, to }) => from < props.view.to && to > props.view.from)}>
        {(stretch) => (
          <rect
            class={`stretch-${stretch.kind}`}
            x={toPixel(props.stage.x(), Math.max(stretch.from, props.view.from))}
            y={top() - 1}
            width={
              (Math.min(stretch.to, props.view.to) - Math.max(stretch.from, props.view.from)) * props.stage.x().factor
            }
            height="4"
          />
        )}
      </For>
      <For each={ticks()}>
        {(tick) => (
          <>
            <path class="time-tick" d={`M${tick.x.toFixed(1)} ${top()}v5`} />
            <text font-size={`${letterSize(13)}px`} x={tick.x} y={top() + 20} text-anchor="middle">
              {isFree(tick.x) ? tick.text : ""}
            </text>
          </>
        )}
      </For>
    </g>
  );
};
