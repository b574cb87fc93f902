// Which recordings a verdict may be wanted of: the same for every plant.

import type { Kind } from "./recording.ts";

/** What a car did, in equal steps: 1/min and km/h; 1 while fuel was cut, and while all was hot. */
export interface Driven {
  /** s */
  readonly step: number;
  readonly count: number;
  readonly tracks: { readonly speed: ArrayLike<number>; readonly road: ArrayLike<number> };
  readonly cut: Uint8Array;
  readonly hot: Uint8Array;
}

interface Recorded {
  readonly kind: Kind;
  readonly recorder: "scope" | "log";
  /** Samples/s, or times a second that a log asks each channel. */
  readonly rate: number;
  /** Cuts of a second in which the front fell: each plant knows its own. */
  readonly cuts: number;
}

/** Hot, and a held speed for 30 s or two cuts of a second in which the front fell; a log of 8 rounds/s or more. */
export function isFit(driven: Driven, { kind, recorder, rate, cuts }: Recorded): boolean {
  if (kind === "cold" || kind === "idle-only" || kind === "too-short") return false;
  if (recorder === "log" && rate < 8) return false;
  return longestHeld(driven) >= 30 || cuts >= 2;
}

/** s for which a moving car kept its engine speed within 10 %, hot and without a cut of more than a moment. */
function longestHeld({ tracks, cut, hot, step, count }: Driven): number {
  let [longest, from, cutFor] = [0, 0, 0];
  for (let i = 1; i < count; i++) {
    const [speed, began] = [tracks.speed[i]!, tracks.speed[from]!];
    cutFor = cut[i] ? cutFor + step : 0;
    const isHeld = hot[i] && tracks.road[i]! > 30 && cutFor < 0.5 && Math.abs(speed - began) < 0.1 * began;
    if (!isHeld) from = i;
    longest = Math.max(longest, (i - from) * step);
  }
  return longest;
}
