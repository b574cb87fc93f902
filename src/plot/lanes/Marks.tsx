// Evidence behind a reading, shown on the traces: the span it was taken over, levels, and each crossing or extreme.
// Where rings would lie over each other, ticks along the lane's lower edge stand for them, and the count is told.

import { type Component, createMemo, For, Show } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { linesOf } from "../../drawing/layer.ts";
import { toPixel } from "../../drawing/paths.ts";
import { spread } from "../../drawing/spread.ts";
import type { Stage } from "../stage/stage.ts";
import { traceStyles } from "../stage/trace-style.ts";
import type { LaneLook, LaneStackProps } from "../stage/types.ts";

interface Drawn {
  readonly token: string;
  readonly rings: string;
  readonly ticks: string;
}

const radius = 5;
/** Rings keep a gap; ticks too. */
const apart = 2 * radius + 3;
const finest = 4;
const tickHeight = 7;
/** Ticks of the first trace stand on the bracket, those of the next above them. */
const tickFoot = 6;

export const Marks: Component<{ bench: LaneStackProps; stage: Stage; clip: string }> = (props) => {
  const marked = () => {
    const channels = new Set(props.bench.marks.evidence.map((mark) => mark.channelId));
    return props.bench.lanes.filter((lane) => linesOf(lane).some((trace) => channels.has(trace.channelId)));
  };
  const levels = createMemo(() => marked().flatMap((lane) => levelPaths(lane, props)));
  const drawn = createMemo(() => marked().flatMap((lane) => marksOf(lane, props)));
  const crowd = () => {
    const [lane] = marked();
    const box = lane && drawn().some(({ ticks }) => ticks !== "") ? props.stage.boxes().get(lane.id) : undefined;
    return box && { x: box.right - 8, y: box.bottom - tickFoot - 2 * (tickHeight + 2) - 4 };
  };
  const bracketed = () => (marked().length > 0 ? marked() : props.bench.lanes.slice(0, 1));
  return (
    <g class="evidence" clip-path={props.clip}>
      <For each={levels()}>{(d) => <path class="evidence-level" d={d} />}</For>
      <Show when={props.bench.marks.evidenceSpan}>
        {(span) => (
          <For each={bracketed()}>
            {(lane) => (
              <path class="evidence-span" d={bracket(span(), props.stage, props.stage.boxes().get(lane.id))} />
            )}
          </For>
        )}
      </Show>
      <For each={drawn()}>
        {({ token, rings, ticks }) => (
          <>
            <path class={`evidence-ring ink-${token}`} d={rings} />
            <path class={`evidence-tick ink-${token}`} d={ticks} />
          </>
        )}
      </For>
      <Show when={crowd()}>
        {(at) => (
          <text class="evidence-count" x={at().x} y={at().y} text-anchor="end">
            {`${props.bench.marks.evidenceCount} places; zoom in to see each`}
          </text>
        )}
      </Show>
    </g>
  );
};

interface Context {
  readonly bench: LaneStackProps;
  readonly stage: Stage;
}

function levelPaths(lane: LaneLook, { bench, stage }: Context): string[] {
  const box = stage.plots().get(lane.id);
  if (box === undefined) return [];
  return bench.marks.evidenceLevels
    .map((level) => toPixel(stage.y(lane.id), level))
    .filter((y) => y >= box.top && y <= box.bottom)
    .map((y) => `M${box.left} ${y.toFixed(1)}H${box.right}`);
}

/** Two paths per trace, however many marks it has. */
function marksOf(lane: LaneLook, { bench, stage }: Context): Drawn[] {
  const box = stage.boxes().get(lane.id);
  if (box === undefined) return [];
  const { from, to } = bench.view;
  const [x, y] = [stage.x(), stage.y(lane.id)];
  let foot = box.bottom - tickFoot;
  return traceStyles(linesOf(lane)).map(({ trace, token }): Drawn => {
    const mine = bench.marks.evidence.filter((m) => m.channelId === trace.channelId && m.time >= from && m.time <= to);
    let [rings, ticks] = ["", ""];
    for (const level of new Set(mine.map(({ value }) => value))) {
      const places = mine.filter(({ value }) => value === level).map(({ time }) => toPixel(x, time));
      const { alone, ticks: crowded } = spread(places, apart, finest);
      rings += alone.map((i) => ring(places[i]!, toPixel(y, level))).join("");
      ticks += crowded.map((at) => `M${at.toFixed(1)} ${foot.toFixed(1)}v${-tickHeight}`).join("");
    }
    if (ticks !== "") foot -= tickHeight + 2;
    return { token, rings, ticks };
  });
}

const ring = (x: number, y: number): string =>
  `M${(x - radius).toFixed(1)} ${y.toFixed(1)}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`;

/** A bracket along the lower edge of a lane. */
function bracket(span: { readonly from: number; readonly to: number }, stage: Stage, box: Box | undefined): string {
  if (box === undefined) return "";
  const [from, to] = [toPixel(stage.x(), span.from), toPixel(stage.x(), span.to)];
  return `M${from.toFixed(1)} ${box.bottom - 10}v7H${to.toFixed(1)}v-7`;
}
