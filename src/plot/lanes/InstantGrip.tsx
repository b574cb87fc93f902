// The instant that a finger or a key reads, to be taken hold of at its foot: a slider whose text tells every value there.

import { type Component, createMemo } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import { toPixel } from "../../drawing/paths.ts";
import { formatAtInstant } from "../../signal/written/instant-text.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { nextTime } from "../dimensions/moves.ts";
import { Grip } from "../hands/Grip.tsx";
import { axisHeight } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";
import type { LaneStackProps } from "../stage/types.ts";

const half = 22;

export const InstantGrip: Component<{ bench: LaneStackProps; instant: number; stage: Stage }> = (props) => {
  let start = 0;
  const x = () => toPixel(props.stage.x(), props.instant);
  const bottom = () => props.stage.size().height - axisHeight;
  const to = (time: number) => {
    const { from, to } = props.bench.whole;
    props.bench.onCursor(Math.min(Math.max(time, from), to), true);
  };
  const windows = createMemo(() => [...props.bench.windows.values()]);
  const step = (direction: -1 | 1, isLarge: boolean) => {
    let time = props.instant;
    for (let i = 0; i < (isLarge ? 10 : 1); i++) {
      time = nextTime(time, direction, props.stage.secondsPerPixel(), windows());
    }
    to(time);
  };
  const key = (pressed: string): boolean => {
    if (pressed === "Enter" || pressed === "m") props.bench.onHoldInstant?.(props.instant);
    else if (pressed === "Delete" || pressed === "Backspace") props.bench.onCursor(null, false);
    else return false;
    return true;
  };
  return (
    <Grip
      class="instant-grip"
      areas={[{ left: x() - half, right: x() + half, top: bottom() - 16, bottom: bottom() + axisHeight }]}
      name="Read here"
      value={props.instant}
      valueText={`${formatTime(props.instant, props.stage.secondsPerPixel())}: ${valuesInWords(props.bench)}`}
      min={props.bench.whole.from}
      max={props.bench.whole.to}
      along="x"
      onGrab={() => {
        start = props.instant;
      }}
      onDrag={(dx) => to(start + dx * props.stage.secondsPerPixel())}
      onStep={step}
      onKey={key}
    />
  );
};

/** "Front O2 sensor 0.45 V, Rear O2 sensor 0.71 V". */
function valuesInWords({ readouts, lanes }: LaneStackProps): string {
  const values = readouts.find(({ kind }) => kind === "pointer")?.values ?? [];
  const traces = lanes.flatMap(linesOf);
  return traces
    .flatMap(({ channelId, label, unit }) => {
      const found = values.find((one) => one.channelId === channelId);
      return found ? [`${label} ${formatAtInstant(found.value, unit)}`] : [];
    })
    .join(", ");
}
