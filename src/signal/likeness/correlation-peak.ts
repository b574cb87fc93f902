// The correlation of two signals by lag, and where it peaks.

import { correlate } from "../numbers/fourier.ts";
import type { Seconds } from "../numbers/units.ts";

/**
 * Correlation at lags -most … most, each over the samples that both have there; 0 where fewer than a quarter overlap.
 *
 * @param a, b  same length n, same grid, mean 0; NaN is missing and counts nowhere. @param most  whole steps, 0 … n - 1.
 * @returns length 2 * most + 1, -1 … 1: entry most + k holds a[i] with b[i + k].
 */
export function normalised(a: Float64Array, b: Float64Array, most: number): Float64Array {
  const whole = isWhole(a) && isWhole(b);
  const { powerA, powerB, overlap } = whole ? overlapsOfWhole(a, b, most) : overlapsOfBroken(a, b, most);
  const heights = whole ? correlate(a, b, most) : correlate(filled(a), filled(b), most);
  const least = a.length / 4;
  for (let k = 0; k < heights.length; k++) {
    const power = Math.sqrt(Math.max(powerA[k]! * powerB[k]!, 1e-300));
    heights[k] = overlap[k]! < least ? 0 : heights[k]! / power;
  }
  return heights;
}

/** Whether none is missing. */
export const isWhole = (values: Float64Array): boolean => !values.includes(NaN);

/** What two signals hold where they overlap, at lags -most … most: their sums of squares, and how many samples. */
interface Overlaps {
  readonly powerA: Float64Array;
  readonly powerB: Float64Array;
  readonly overlap: Float64Array;
}

const filled = (v: Float64Array) => v.map((x) => (Number.isNaN(x) ? 0 : x));

function overlapsOfBroken(a: Float64Array, b: Float64Array, most: number): Overlaps {
  const known = (v: Float64Array) => v.map((x) => (Number.isNaN(x) ? 0 : 1));
  const squared = (v: Float64Array) => v.map((x) => (Number.isNaN(x) ? 0 : x * x));
  const [ka, kb] = [known(a), known(b)];
  return {
    powerA: correlate(squared(a), kb, most),
    powerB: correlate(ka, squared(b), most),
    overlap: correlate(ka, kb, most),
  };
}

/** Without holes each overlap is one stretch, cut off at one end: the whole less what lies beyond. */
function overlapsOfWhole(a: Float64Array, b: Float64Array, most: number): Overlaps {
  const overlap = new Float64Array(2 * most + 1);
  for (let i = 0; i < overlap.length; i++) overlap[i] = a.length - Math.abs(i - most);
  // At lag k >= 0 the last k samples of a and the first k of b have no partner.
  return { powerA: powersWithout(a, most, 1), powerB: powersWithout(b, most, -1), overlap };
}

/**
 * Sum of squares without as many samples as the lag is long, at lags -most … most.
 *
 * @param side  1: at positive lags the last ones are left out, at negative ones the first; -1: the other way round.
 */
function powersWithout(values: Float64Array, most: number, side: 1 | -1): Float64Array {
  const powers = new Float64Array(2 * most + 1);
  const n = values.length;
  let total = 0;
  for (let i = 0; i < n; i++) total += values[i]! * values[i]!;
  powers[most] = total;
  let heads = 0;
  let tails = 0;
  for (let k = 1; k <= most; k++) {
    heads += values[k - 1]! * values[k - 1]!;
    tails += values[n - k]! * values[n - k]!;
    powers[most - side * k] = total - heads;
    powers[most + side * k] = total - tails;
  }
  return powers;
}

/**
 * Index of the highest value within `reach` of the middle.
 *
 * @param values  odd length. @param reach  entries on either side of the middle, at most half the length.
 * @returns the middle where all are equal or NaN.
 */
export function highest(values: Float64Array, reach: number): number {
  const middle = (values.length - 1) / 2;
  let best = middle;
  for (let k = middle - reach; k <= middle + reach; k++) if (values[k]! > values[best]!) best = k;
  return best;
}

/**
 * Where the parabola through a point and its neighbours peaks, in steps from the point, within ± 1/2; 0 at the ends.
 *
 * @param values  any unit. @param at  index of the point.
 * @returns steps; 0 as well where the three do not bend downwards.
 */
export function vertex(values: ArrayLike<number>, at: number): number {
  const [left, here, right] = [values[at - 1], values[at]!, values[at + 1]];
  if (left === undefined || right === undefined) return 0;
  const curvature = left - 2 * here + right;
  return curvature < 0 ? Math.min(0.5, Math.max(-0.5, (0.5 * (left - right)) / curvature)) : 0;
}

/** Another peak this high, relative to the highest, is as good an answer. */
const rival = 0.8;

/**
 * Distance from the peak to the nearest other local peak that is nearly as high, s; null where there is none.
 *
 * @param values  a correlation by lag. @param peak  index of its highest. @param step  s between lags.
 */
export function nearestRival(values: Float64Array, peak: number, step: Seconds): Seconds | null {
  const least = rival * values[peak]!;
  for (let d = 2; d < values.length; d++) {
    for (const k of [peak - d, peak + d]) {
      const value = values[k];
      if (value === undefined || value < least) continue;
      const isLocal = value > (values[k - 1] ?? Infinity) && value >= (values[k + 1] ?? Infinity);
      if (isLocal && isDipBetween(values, [Math.min(k, peak), Math.max(k, peak)], least)) return d * step;
    }
  }
  return null;
}

function isDipBetween(values: Float64Array, [from, to]: readonly [number, number], least: number): boolean {
  for (let k = from + 1; k < to; k++) if (values[k]! < 0.5 * least) return true;
  return false;
}
