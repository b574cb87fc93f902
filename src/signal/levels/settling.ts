// How a transition ends: overshoot and settling time; and levels given as percent of the way.

import { atLeast, measured, notResolvable, type Reading } from "../numbers/reading.ts";
import type { Seconds } from "../numbers/units.ts";
import { runsOf } from "../series/runs.ts";
import { type Series, timeAt } from "../series/series.ts";
import { extremesOf } from "../statistics/extremes.ts";
import { noiseOf, quantisationOf } from "../statistics/noise.ts";
import type { Levels } from "./levels.ts";

/**
 * Reference levels between two states, as IEEE Std 181 and IEC 60469 define them: 10 and 90 % of the way, or 20 and 80 %.
 *
 * @param shares  of the way from the low to the high state, 0 … 1.
 * @returns `from` and `to` of a rising transition; exchange them for a falling one.
 */
export function percentLevels({ low, high }: Levels, shares: readonly [number, number]): { from: number; to: number } {
  return { from: low + shares[0] * (high - low), to: low + shares[1] * (high - low) };
}

/** A step from one state to another, and the span after it that is looked at (the series ends where it ends). */
export interface StepEnd {
  readonly from: number;
  readonly to: number;
}

/**
 * How far a step goes beyond the state it settles at, % of its height.
 *
 * @param series  begins at the transition.
 * @returns `not-resolvable` without samples. Bounds: the largest of n noisy samples lies up to sigma sqrt(2 ln n) too
 *          high; a peak between samples rises by up to an eighth of its second difference.
 */
export function overshootOf(series: Series, { from, to }: StepEnd): Reading {
  const { samples } = series;
  const sign = Math.sign(to - from);
  const [lowest, highest] = extremesOf(samples);
  const at = samples.indexOf(sign > 0 ? highest : lowest);
  const height = Math.abs(to - from);
  const beyond = (sign * ((samples[at] ?? NaN) - to) * 100) / height;
  if (!Number.isFinite(beyond)) return notResolvable("%", "no sample after the transition");
  const inner = noiseOf(samples) * Math.sqrt(2 * Math.log(Math.max(2, samples.length))) + quantisationOf(samples) / 2;
  const bend = 2 * samples[at]! - (samples[at - 1] ?? samples[at]!) - (samples[at + 1] ?? samples[at]!);
  const value = Math.max(0, beyond);
  const low = Math.max(0, beyond - (100 * inner) / height);
  const outer = Math.abs(Number.isFinite(bend) ? bend : 0) / 8 + quantisationOf(samples) / 2;
  return measured(value, [Math.min(low, value), value + (100 * outer) / height], "%");
}

export interface SettlingRule extends StepEnd {
  /** Instant the time is counted from, s. */
  readonly start: Seconds;
  /** Half-width of the band about `to`, as a share of the step's height; 0.02 unless given. */
  readonly band?: number;
  /** The signal must stay inside for this long, s. */
  readonly hold: Seconds;
}

/**
 * Time from `start` until the signal enters the band about its end state for good.
 *
 * @param series  begins at the transition; NaN and gaps end what is looked at.
 * @returns s, interpolated at the last entry; bounds by the two samples around it. `at-least` where it does not stay
 *          inside for `hold` before the series (or a gap) ends.
 */
export function settlingTime(series: Series, { start, from, to, band = 0.02, hold }: SettlingRule): Reading {
  const { samples, time } = series;
  const end = runsOf(series)[1] ?? 0;
  if (end < 2) return notResolvable("s", "no two samples after the transition hang together");
  const width = band * Math.abs(to - from);
  let outside = end - 1;
  while (outside >= 0 && Math.abs(samples[outside]! - to) <= width) outside--;
  const last = timeAt(time, end - 1);
  if (outside === end - 1 || last - timeAt(time, Math.max(0, outside)) < hold) {
    const because = "the signal does not stay within the band for long enough before the span ends";
    return atLeast(Math.max(0, last - start), "s", { because });
  }
  const begin = timeAt(time, 0);
  if (outside < 0) return measured(Math.max(0, begin - start), [0, Math.max(0, begin - start)], "s");
  const [t0, t1] = [timeAt(time, outside), timeAt(time, outside + 1)];
  const edge = to + Math.sign(samples[outside]! - to) * width;
  const share = (edge - samples[outside]!) / (samples[outside + 1]! - samples[outside]!);
  const value = t0 + Math.min(1, Math.max(0, share)) * (t1 - t0) - start;
  return measured(value, [t0 - start, t1 - start], "s");
}
