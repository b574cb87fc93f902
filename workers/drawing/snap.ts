// The place a cursor means: a crossing, an extreme or a sample near where it was dropped, with the bounds of its time.

import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";
import type { Snap, SnapRequest } from "../protocol.ts";
import type { FilteredTrace } from "./filtered.ts";
import { firstFrom } from "./places.ts";
import { isBroken, type Trace } from "./window.ts";

type Place = Omit<Snap, "channelId">;
export type SnapWish = Pick<SnapRequest, "near" | "within" | "to" | "level">;

/** The nearest such place within `within` s of `near`; null where there is none. */
function snapOn(trace: Trace, wish: SnapWish): Place | null {
  const { time } = trace.series;
  const from = firstFrom(time, wish.near - wish.within);
  const to = Math.min(countOf(time), firstFrom(time, wish.near + wish.within) + 1);
  if (wish.to === "crossing") return crossing(trace, from, to, wish);
  return wish.to === "extreme" ? extreme(trace, from, to, wish) : sample(trace, from, to, wish);
}

/** The instant on the line between two samples on either side of the level; it lies between them, that is all we know. */
function crossing(trace: Trace, from: number, to: number, { near, within, level }: SnapWish): Place | null {
  let best: Place | null = null;
  for (let i = Math.max(1, from); i < to; i++) {
    const before = shown(trace, i - 1) - level;
    const after = shown(trace, i) - level;
    if (before < 0 === after < 0 || isBroken(trace, i)) continue;
    const low = timeAt(trace.series.time, i - 1);
    const high = timeAt(trace.series.time, i);
    const time = low + ((high - low) * before) / (before - after);
    if (Math.abs(time - near) > within) continue;
    if (!best || Math.abs(time - near) < Math.abs(best.time - near)) best = { time, value: level, low, high };
  }
  return best;
}

/** Samples no neighbour goes beyond; of those in reach the nearest that is the highest or the lowest of all in reach. */
function extreme(trace: Trace, from: number, to: number, wish: SnapWish): Place | null {
  let lowest: Place | null = null;
  let highest: Place | null = null;
  for (let i = from; i < to; i++) {
    const place = sampleAt(trace, i);
    if (Number.isNaN(place.value) || Math.abs(place.time - wish.near) > wish.within) continue;
    if (!lowest || place.value < lowest.value) lowest = place;
    if (!highest || place.value > highest.value) highest = place;
  }
  if (!lowest || !highest) return null;
  return Math.abs(lowest.time - wish.near) < Math.abs(highest.time - wish.near) ? lowest : highest;
}

function sample(trace: Trace, from: number, to: number, { near, within }: SnapWish): Place | null {
  let best: Place | null = null;
  for (let i = from; i < to; i++) {
    const place = sampleAt(trace, i);
    if (Number.isNaN(place.value) || Math.abs(place.time - near) > within) continue;
    if (!best || Math.abs(place.time - near) < Math.abs(best.time - near)) best = place;
  }
  return best;
}

/** The true instant of an extreme or a reading lies within a step of the sample's. */
function sampleAt(trace: Trace, i: number): Place {
  const { time } = trace.series;
  const at = timeAt(time, i);
  const low = i > 0 && !isBroken(trace, i) ? timeAt(time, i - 1) : at;
  const high = i + 1 < countOf(time) && !isBroken(trace, i + 1) ? timeAt(time, i + 1) : at;
  return { time: at, value: shown(trace, i), low, high };
}

function shown({ series, gain, offset }: Trace, i: number): number {
  return series.samples[i]! * gain + offset;
}

/** A channel, and what is drawn of it. */
export type Sought = readonly [channelId: string, trace: Trace | FilteredTrace];

/** Where a filter may have moved an edge, its place in the recording is known the less. */
function widened(place: Place | null, trace: Trace | FilteredTrace, to: SnapWish["to"]): Place | null {
  if (!place || !("shift" in trace) || to === "sample") return place;
  return { ...place, low: place.low - trace.shift, high: place.high + trace.shift };
}

/** The nearest place over several channels. */
export function nearest(wish: SnapWish, traces: readonly Sought[]): Snap | null {
  let best: Snap | null = null;
  for (const [channelId, trace] of traces) {
    const place = widened(snapOn(trace, wish), trace, wish.to);
    if (place && (!best || distance(place, wish.near) < distance(best, wish.near))) best = { channelId, ...place };
  }
  return best;
}

const distance = (place: Place, near: Seconds) => Math.abs(place.time - near);
