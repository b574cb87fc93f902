// What an end under the hand would be set on: a ring around it, and its word.

import { type Component, For } from "solid-js";
import { toPixel } from "../../drawing/paths.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import type { LitSpot } from "../stage/types.ts";

const radius = 9;

export const Lit: Component<{ spots: readonly LitSpot[]; stage: Stage }> = (props) => (
  <For each={props.spots}>
    {(spot) => {
      const x = () => toPixel(props.stage.x(), spot.time);
      const y = () => toPixel(props.stage.y(spot.laneId), spot.level);
      return (
        <g class="lit">
          <circle cx={x()} cy={y()} r={radius} />
          <text font-size={`${letterSize(14)}px`} x={x() + radius + 5} y={y() + radius + 10}>
            {spot.word}
          </text>
        </g>
      );
    }}
  </For>
);
