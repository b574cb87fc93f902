// Each channel's value under a vertical line: a dot on the trace, filled on a sample, hollow between two. Where an instant is
// held, the pointer's values are followed by how far they are from those there.

import { type Component, createMemo, For } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { type LineLayer, linesOf } from "../../drawing/layer.ts";
import { extentWithin, fromPixel, type Mapping, toPixel } from "../../drawing/paths.ts";
import { formatDifference, formatValue } from "../../signal/written/reading-text.ts";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import { traceStyles } from "../stage/trace-style.ts";
import type { CursorValue, LaneLook, LaneStackProps, Readout, TraceWindow } from "../stage/types.ts";
import { flagSize, type TimeFlag, timeFlags } from "./time-flags.ts";

interface Shown {
  readonly token: string;
  readonly x: number;
  readonly y: number;
  readonly textY: number;
  readonly side: "start" | "end";
  readonly text: string;
  readonly between: boolean;
}

const size = () => letterSize(14);
const lineRoom = () => size() + 3;
const beside = 9;
/** Above the line, which would strike through it. */
const rise = 6;

export const Readouts: Component<{ bench: LaneStackProps; stage: Stage }> = (props) => {
  const lines = createMemo(() =>
    props.bench.readouts.map((readout, nth) => ({
      kind: readout.kind,
      x: toPixel(props.stage.x(), readout.time),
      values: valuesOf(readout, sideOf(readout, nth, props), props),
    })),
  );
  const inView = () => lines().filter(({ x }) => x >= gutter - 1 && x <= props.stage.size().width - margin + 1);
  const flags = createMemo(() =>
    timeFlags(
      props.bench.readouts.map(({ time }) => time),
      props.stage,
    ),
  );
  const bottom = () => props.stage.size().height - axisHeight;
  return (
    <g class="readouts">
      <For each={inView()}>
        {(line) => (
          <>
            <path
              class="readout-line"
              classList={{ "readout-held": line.kind === "held" }}
              d={`M${line.x} 0V${bottom() + 4}`}
            />
            <For each={line.values}>
              {(value) => (
                <g class={`readout ink-${value.token}`}>
                  <circle classList={{ "readout-between": value.between }} cx={value.x} cy={value.y} r="4" />
                  <text
                    font-size={`${size()}px`}
                    x={value.x + (value.side === "start" ? beside : -beside)}
                    y={value.textY}
                    text-anchor={value.side}
                  >
                    {value.text}
                  </text>
                </g>
              )}
            </For>
          </>
        )}
      </For>
      <For each={flags()}>{(flag) => <Flag flag={flag} y={bottom()} />}</For>
    </g>
  );
};

const Flag: Component<{ flag: TimeFlag; y: number }> = (props) => (
  <g class="time-flag">
    <rect x={props.flag.left} y={props.y + 4} width={props.flag.right - props.flag.left} height="22" rx="2" />
    <text
      font-size={`${flagSize()}px`}
      x={(props.flag.left + props.flag.right) / 2}
      y={props.y + 20}
      text-anchor="middle"
    >
      {props.flag.text}
    </text>
  </g>
);

interface Context {
  readonly bench: LaneStackProps;
  readonly stage: Stage;
}

/** Of a pair the earlier one's values stand on its left, so that the span between stays free. */
function sideOf({ time }: Readout, nth: number, { bench, stage }: Context): "start" | "end" {
  const x = toPixel(stage.x(), time);
  if (x > stage.size().width - margin - 90) return "end";
  if (x < gutter + 90) return "start";
  const isEarlier = bench.readouts.some((other, k) => k !== nth && other.time > time);
  return isEarlier ? "end" : "start";
}

function valuesOf(readout: Readout, side: "start" | "end", { bench, stage }: Context): readonly Shown[] {
  const x = toPixel(stage.x(), readout.time);
  return bench.lanes.flatMap((lane) => {
    const y = stage.y(lane.id);
    const box = stage.plots().get(lane.id);
    const step = 1.5 / Math.abs(y.factor);
    const shown = traceStyles(linesOf(lane)).flatMap(({ trace, token }) => {
      const found = readout.values.find((value) => value.channelId === trace.channelId);
      if (!found || found.value === null || box === undefined || trace.isUntold || trace.isUnseen) return [];
      const at = toPixel(y, found.value);
      if (at < box.top - 4 || at > box.bottom + 4) return [];
      const text = `${formatValue(found.value, trace.unit, step)}${isBeside(trace, lane) ? ` ${trace.tag}` : ""}`;
      const since = sinceHeld(readout, found, bench);
      const told = since === null ? text : `${text}  (${formatDifference(since, trace.unit, step)})`;
      const window = bench.windows.get(trace.channelId);
      const line = window && besideExtent({ x, side, width: textWidth(told, size(), 600) }, window, stage, y);
      const textY = line ? offLine(at, line, box) : at - rise;
      return [{ token, x, y: at, textY, side, text: told, between: found.between }];
    });
    return spread(shown, box?.top ?? 0, box?.bottom ?? 0);
  });
}

/** The pixels that a trace takes where its value's text would stand; null where it has none there. */
function besideExtent(
  { x, side, width }: { readonly x: number; readonly side: "start" | "end"; readonly width: number },
  window: TraceWindow,
  stage: Stage,
  y: Mapping,
): readonly [top: number, bottom: number] | null {
  const [left, right] = side === "start" ? [x, x + beside + width] : [x - beside - width, x];
  const extent = extentWithin(window, fromPixel(stage.x(), left), fromPixel(stage.x(), right));
  return extent && [toPixel(y, extent[1]), toPixel(y, extent[0])];
}

/** Where a text's foot stands so that its own trace does not run through it: above, else below; where neither has room, above. */
function offLine(at: number, [top, bottom]: readonly [number, number], box: Box): number {
  const isClear = top >= at - rise || bottom <= at - rise - size();
  if (isClear) return at - rise;
  if (top - rise - size() >= box.top) return top - rise;
  return bottom + rise + size() <= box.bottom ? bottom + rise + size() - 3 : at - rise;
}

/** How far a value under the pointer is from the same channel's where an instant is held; null where there is none. */
function sinceHeld({ kind }: Readout, { channelId, value }: CursorValue, { readouts }: LaneStackProps): number | null {
  const held = kind === "pointer" ? readouts.find((one) => one.kind === "held") : undefined;
  const there = held?.values.find((one) => one.channelId === channelId)?.value ?? null;
  return there === null || value === null ? null : value - there;
}

/** Among lines that have no tag: in a lane of its own the title says what it is. */
const isBeside = ({ tag }: LineLayer, lane: LaneLook) => tag !== undefined && linesOf(lane).some((one) => !one.tag);

/**
 * Inside the lane and below its title. Of several values the lowest stands below its line, the others above; then apart
 * until each has its line.
 */
function spread(values: readonly Shown[], top: number, bottom: number): readonly Shown[] {
  const sorted = [...values]
    .sort((a, b) => a.y - b.y)
    .map((value, i) => (i > 0 && i === values.length - 1 ? { ...value, textY: value.y + size() + rise } : value));
  let least = top + size();
  const down = sorted.map((value) => {
    const textY = Math.max(value.textY, least);
    least = textY + lineRoom();
    return { ...value, textY };
  });
  let most = bottom - 3;
  return down.reverse().map((value) => {
    const textY = Math.min(value.textY, most);
    most = textY - lineRoom();
    return { ...value, textY };
  });
}
