// Evidence behind a reading, shown on the traces: the span it was taken over, levels, and each crossing or extreme.

import { type Component, createMemo, For, Show } from "solid-js";
import type { Box } from "../drawing/boxes.ts";
import { toPixel } from "../drawing/paths.ts";
import type { EvidenceMark } from "../exhaust/analysis.ts";
import type { Stage } from "./stage.ts";
import { traceStyles } from "./trace-style.ts";
import type { LaneLook, LaneStackProps } from "./types.ts";

interface Ring {
  readonly token: string;
  readonly d: string;
}

const radius = 5;

export const Marks: Component<{ bench: LaneStackProps; stage: Stage; clip: string }> = (props) => {
  const marked = () => {
    const channels = new Set(props.bench.marks.evidence.map((mark) => mark.channelId));
    return props.bench.lanes.filter((lane) => lane.traces.some((trace) => channels.has(trace.channelId)));
  };
  const levels = createMemo(() => marked().flatMap((lane) => levelPaths(lane, props)));
  const rings = createMemo(() => marked().flatMap((lane) => ringsOf(lane, props)));
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
      <For each={rings()}>{(ring) => <path class={`evidence-ring ink-${ring.token}`} d={ring.d} />}</For>
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

/** One path per trace, however many marks it has. */
function ringsOf(lane: LaneLook, { bench, stage }: Context): Ring[] {
  const { from, to } = bench.view;
  const [x, y] = [stage.x(), stage.y(lane.id)];
  return traceStyles(lane.traces).map(({ trace, token }) => ({
    token,
    d: bench.marks.evidence
      .filter((mark) => mark.channelId === trace.channelId && mark.time >= from && mark.time <= to)
      .map((mark: EvidenceMark) => ring(toPixel(x, mark.time), toPixel(y, mark.value)))
      .join(""),
  }));
}

const ring = (x: number, y: number): string =>
  `M${(x - radius).toFixed(1)} ${y.toFixed(1)}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`;

/** A bracket along the lower edge of a lane. */
function bracket(span: { readonly from: number; readonly to: number }, stage: Stage, box: Box | undefined): string {
  if (box === undefined) return "";
  const [from, to] = [toPixel(stage.x(), span.from), toPixel(stage.x(), span.to)];
  return `M${from.toFixed(1)} ${box.bottom - 10}v7H${to.toFixed(1)}v-7`;
}
