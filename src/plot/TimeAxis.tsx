// The one time axis below all lanes.

import { type Component, createMemo, For } from "solid-js";
import { decimalsOfStep, formatNumber } from "../drawing/format.ts";
import { toPixel } from "../drawing/paths.ts";
import { niceTicks } from "../drawing/scale.ts";
import { axisHeight, gutter, margin } from "./layout.ts";
import type { Stage } from "./stage.ts";
import type { View } from "./types.ts";

const tickRoom = 96;
const flagRoom = 58;

/** @param flags times whose own figures stand on the axis; ticks' figures give way to them. */
export const TimeAxis: Component<{ view: View; stage: Stage; flags: readonly number[] }> = (props) => {
  const ticks = createMemo(() => {
    const width = props.stage.size().width - gutter - margin;
    const { step, values } = niceTicks(props.view.from, props.view.to, Math.max(2, Math.floor(width / tickRoom)));
    const decimals = decimalsOfStep(step);
    return values.map((time) => ({ x: toPixel(props.stage.x(), time), text: `${formatNumber(time, decimals)} s` }));
  });
  const isFree = (x: number) => props.flags.every((time) => Math.abs(toPixel(props.stage.x(), time) - x) > flagRoom);
  const top = () => props.stage.size().height - axisHeight;
  return (
    <g class="time-axis">
      <For each={ticks()}>
        {(tick) => (
          <>
            <path class="time-tick" d={`M${tick.x.toFixed(1)} ${top()}v5`} />
            <text font-size="13px" x={tick.x} y={top() + 20} text-anchor="middle">
              {isFree(tick.x) ? tick.text : ""}
            </text>
          </>
        )}
      </For>
    </g>
  );
};
