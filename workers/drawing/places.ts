// Where instants fall among the samples of a channel.

import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf, type TimeBase, timeAt } from "../../src/signal/series/series.ts";

/** First sample at or after `time`; the count of samples where there is none. */
export function firstFrom(base: TimeBase, time: Seconds): number {
  return base.kind === "even" ? evenPlace(base, time) : stampedPlace(base.stamps, time, 0);
}

/** The same, for a `time` not before the one that gave `hint`: quick when it lies near. */
export function nextFrom(base: TimeBase, time: Seconds, hint: number): number {
  return base.kind === "even" ? evenPlace(base, time) : stampedPlace(base.stamps, time, hint);
}

/** The division may be off by one in the last digit: the sample times themselves decide. */
function evenPlace(base: TimeBase & { kind: "even" }, time: Seconds): number {
  const guess = Math.ceil((time - base.start) / base.step);
  let place = Math.min(base.count, Math.max(0, guess));
  while (place > 0 && timeAt(base, place - 1) >= time) place--;
  while (place < base.count && timeAt(base, place) < time) place++;
  return place;
}

/** Strides that double from `hint`, then halving. */
function stampedPlace(stamps: Float64Array, time: Seconds, hint: number): number {
  let below = hint - 1;
  let stride = 1;
  while (below + stride < stamps.length && stamps[below + stride]! < time) {
    below += stride;
    stride *= 2;
  }
  let above = Math.min(stamps.length, below + stride);
  while (above - below > 1) {
    const middle = (above + below) >>> 1;
    if (stamps[middle]! < time) below = middle;
    else above = middle;
  }
  return above;
}

/** Time of the first and just the last sample; [0, 0] without samples. */
export function extent(base: TimeBase): readonly [from: Seconds, to: Seconds] {
  const count = countOf(base);
  return count === 0 ? [0, 0] : [timeAt(base, 0), timeAt(base, count - 1)];
}
