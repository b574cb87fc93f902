// An end of a dimension, as a handle.

import type { Component } from "solid-js";
import { formatTime, formatValue } from "../../signal/written/reading-text.ts";
import { Grip } from "../hands/Grip.tsx";
import type { DimensionLook, Range } from "../stage/types.ts";
import { gripArea } from "./areas.ts";
import type { DimensionProps, PartProps } from "./dimension-props.ts";
import { type Moved, moveEnd, nextTime, partName } from "./moves.ts";

type End = "from" | "to";

export const DimensionEnd: Component<PartProps & { readonly end: End }> = (props) => {
  const along = () => (props.look.kind === "time" ? "x" : "y");
  /** Seconds or units that one pixel along the measure is worth. */
  const perPixel = () =>
    props.look.kind === "time" ? props.stage.secondsPerPixel() : 1 / props.stage.y(props.look.laneId).factor;
  let start: DimensionLook = props.look;
  return (
    <Grip
      areas={[gripArea(props.laid, props.end, along())]}
      name={`${props.name}, ${partName[props.end]}`}
      value={props.look.kind === "time" ? props.look[props.end].time : props.look[props.end].level}
      valueText={endText(props, props.end)}
      {...limits(props)}
      along={along()}
      onGrab={() => {
        start = props.look;
        props.select();
      }}
      onDrag={(dx, dy, final) =>
        props.tell(props.end, moveEnd(start, props.end, (along() === "x" ? dx : dy) * perPixel()), final, true)
      }
      onStep={(direction, isLarge) =>
        props.tell(props.end, stepped(props, props.end, direction, isLarge ? 10 : 1), false)
      }
      onSettled={() => props.tell(props.end, props.look, true)}
      onKey={(pressed) => props.onKey(pressed, props.end)}
    >
      <circle
        class="grip-dot"
        cx={props.laid[props.end].x}
        cy={props.laid[props.end].y}
        r="4.5"
        clip-path={props.clip}
      />
    </Grip>
  );
};

function stepped({ look, stage, windows }: DimensionProps, part: End, direction: -1 | 1, times: number): Moved {
  if (look.kind === "level") return moveEnd(look, part, (direction * times) / Math.abs(stage.y(look.laneId).factor));
  let time = look[part].time;
  for (let i = 0; i < times; i++) time = nextTime(time, direction, stage.secondsPerPixel(), windows);
  return moveEnd(look, part, time - look[part].time);
}

function endText({ look, stage, unit }: DimensionProps, part: End): string {
  const step = 1 / Math.abs(stage.y(look.laneId).factor);
  return `${formatTime(look[part].time, stage.secondsPerPixel())}, ${formatValue(look[part].level, unit, step)}`;
}

function limits({ look, stage, whole }: DimensionProps): { readonly min: number; readonly max: number } {
  if (look.kind === "time") return { min: whole.from, max: whole.to };
  const [min, max]: Range = stage.ranges().get(look.laneId) ?? [0, 1];
  return { min, max };
}
