// What lies under a finger, asked for sample by sample where a pixel holds more than one.

import { type Accessor, createMemo, createSignal } from "solid-js";
import { visibleLanes } from "../../job/edits/lanes.ts";
import { loupeSize } from "../../plot/lanes/Loupe.tsx";
import type { LoupeLook } from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import type { Instants } from "./instants.ts";

export interface LoupeState {
  readonly look: Accessor<LoupeLook | null>;
  /** The lane a finger reads in; null when it was lifted. */
  setLane(laneId: string | null): void;
  /** CSS pixels of the traces. */
  setPixels(width: number): void;
}

export const { Context: LoupeContext, use: useLoupe } = subject<LoupeState>("The loupe");

/** So many samples are drawn, where that is between these times larger than the lane draws them. */
const samplesShown = 40;
const [leastLarger, mostLarger] = [3, 60];

type Facts = Pick<Ground, "bench" | "summary" | "companions" | "view">;

export function createLoupe({ bench, summary, companions, view }: Facts, { at }: Instants): LoupeState {
  const [laneId, setLane] = createSignal<string | null>(null);
  const [pixels, setPixels] = createSignal(1000);
  const channels = createMemo(() => {
    const ids = visibleLanes(bench.state()).find(({ id }) => id === laneId())?.channelIds ?? [];
    const all = [...(summary()?.channels ?? []), ...companions.list().flatMap((one) => one.channels)];
    return all.filter(({ id }) => ids.includes(id));
  });
  const length = createMemo(() => {
    const asDrawn = ((view.view().to - view.view().from) / pixels()) * loupeSize.width;
    return loupeLength(
      asDrawn,
      channels().map(({ rate }) => rate.value ?? 0),
    );
  });
  const ask = createMemo(() => {
    const [capture, time, lane, long] = [summary(), at(), laneId(), length()];
    if (!capture || time === null || lane === null || long === null) return null;
    const span = { from: time - long / 2, to: time + long / 2 };
    const width = Math.round(loupeSize.width * devicePixelRatio);
    return { lane, request: { take: capture.take, channelIds: channels().map(({ id }) => id), span, width } };
  });
  const latest = createLatest(
    ask,
    async ({ lane, request }): Promise<LoupeLook> => {
      const windows = await companions.service.window(request);
      return { laneId: lane, span: request.span, windows: new Map(windows.map((one) => [one.channelId, one])) };
    },
    { about: ({ lane }) => lane },
  );
  return { look: latest.value, setLane, setPixels };
}

/**
 * Seconds across the loupe; null where the lane itself tells samples apart.
 *
 * @param asDrawn seconds that the lane draws in the loupe's width.
 * @param rates samples per second of the lane's channels; 0 where unknown.
 */
function loupeLength(asDrawn: number, rates: readonly number[]): number | null {
  const fastest = Math.max(0, ...rates);
  if (fastest * asDrawn < leastLarger * samplesShown) return null;
  return Math.max(samplesShown / fastest, asDrawn / mostLarger);
}
