// Each channel's value under a vertical line: a dot on the trace, filled on a sample, hollow between two. Where an instant is
// held, the pointer's values are followed by how far they are from those there.

import { type Component, createMemo, For, Show } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { type LineLayer, linesOf } from "../../drawing/layer.ts";
import { toPixel } from "../../drawing/paths.ts";
import { formatAtInstant, formatSinceInstant } from "../../signal/written/instant-text.ts";
import { Ground } from "../stage/Ground.tsx";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import { traceStyles } from "../stage/trace-style.ts";
import type { CursorValue, LaneLook, LaneStackProps, Readout } from "../stage/types.ts";
import { type Place, placeReadouts, readoutSize, type Side } from "./readout-places.ts";
import { flagSize, type TimeFlag, timeFlags } from "./time-flags.ts";

interface Shown extends Place {
  readonly token: string;
  readonly at: number;
  readonly text: string;
  readonly between: boolean;
}

interface ReadoutsProps {
  readonly bench: LaneStackProps;
  readonly stage: Stage;
  /** Words and lines of a lane that stand already. */
  readonly taken: (laneId: string) => readonly Box[];
}

export const Readouts: Component<ReadoutsProps> = (props) => {
  const lines = createMemo(() => {
    const taken = new Map(props.bench.lanes.map(({ id }) => [id, [...props.taken(id), ...uprights(props)]]));
    return props.bench.readouts.map((readout, nth) => ({
      kind: readout.kind,
      x: toPixel(props.stage.x(), readout.time),
      values: valuesOf(readout, sideOf(readout, nth, props), taken, props),
    }));
  });
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
                  <circle classList={{ "readout-between": value.between }} cx={line.x} cy={value.at} r="4" />
                  <Show when={value.ground}>{(box) => <Ground box={box()} />}</Show>
                  <text font-size={`${readoutSize()}px`} x={value.x} y={value.y} text-anchor={value.side}>
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

/** The lines through all lanes, which no value of another one stands on. */
const uprights = ({ bench, stage }: ReadoutsProps): readonly Box[] =>
  bench.readouts.map(({ time }) => {
    const x = toPixel(stage.x(), time);
    return { left: x - 2, right: x + 2, top: 0, bottom: stage.size().height };
  });

/** Of a pair the earlier one's values stand on its left, so that the span between stays free. */
function sideOf({ time }: Readout, nth: number, { bench, stage }: ReadoutsProps): Side {
  const x = toPixel(stage.x(), time);
  if (x > stage.size().width - margin - 90) return "end";
  if (x < gutter + 90) return "start";
  const isEarlier = bench.readouts.some((other, k) => k !== nth && other.time > time);
  return isEarlier ? "end" : "start";
}

function valuesOf(readout: Readout, side: Side, taken: ReadonlyMap<string, Box[]>, props: ReadoutsProps) {
  const { bench, stage } = props;
  const x = toPixel(stage.x(), readout.time);
  return bench.lanes.flatMap((lane): readonly Shown[] => {
    const within = stage.plots().get(lane.id);
    if (!within) return [];
    const told = toldIn(lane, readout, props).filter(({ at }) => at >= within.top - 4 && at <= within.bottom + 4);
    const lines = linesOf(lane).flatMap(({ channelId, isUnseen }) =>
      isUnseen ? [] : (bench.windows.get(channelId) ?? []),
    );
    const places = placeReadouts(
      told.map(({ at, text, line }) => ({ x, y: at, width: textWidth(text, readoutSize(), 600), line })),
      { within, scales: [stage.x(), stage.y(lane.id)], lines, taken: taken.get(lane.id)!, side },
    );
    return told.map((one, i) => ({ ...one, ...places[i]! }));
  });
}

/** The lane's values at the line, in words. */
function toldIn(lane: LaneLook, readout: Readout, { bench, stage }: ReadoutsProps) {
  const y = stage.y(lane.id);
  return traceStyles(linesOf(lane)).flatMap(({ trace, token }) => {
    const found = readout.values.find((value) => value.channelId === trace.channelId);
    if (!found || found.value === null || trace.isUntold || trace.isUnseen) return [];
    const alone = `${formatAtInstant(found.value, trace.unit)}${isBeside(trace, lane) ? ` ${trace.tag}` : ""}`;
    const held = heldOf(readout, found, bench);
    const text = held === null ? alone : `${alone}  (${formatSinceInstant(found.value, held, trace.unit)})`;
    const [at, line] = [toPixel(y, found.value), bench.windows.get(trace.channelId)];
    return [{ token, at, text, line, between: found.between }];
  });
}

/** What the channel of a value under the pointer holds where an instant is held; null where there is none. */
function heldOf({ kind }: Readout, { channelId }: CursorValue, { readouts }: LaneStackProps): number | null {
  const held = kind === "pointer" ? readouts.find((one) => one.kind === "held") : undefined;
  return held?.values.find((one) => one.channelId === channelId)?.value ?? null;
}

/** Among lines that have no tag: in a lane of its own the title says what it is. */
const isBeside = ({ tag }: LineLayer, lane: LaneLook) => tag !== undefined && linesOf(lane).some((one) => !one.tag);
