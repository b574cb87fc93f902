// By how much one channel follows another: the lag of best correlation, with bounds and its ambiguity.

import { correlate } from "./fourier.ts";
import { measured, notResolvable, type Reading } from "./reading.ts";
import { type Grid, onGrid } from "./resample.ts";
import { countOf, type Series, timeAt } from "./series.ts";
import { studentQuantile } from "./student.ts";
import type { Seconds } from "./units.ts";
import { usualStep } from "./usual-step.ts";

export interface Lag {
  /** Positive: the second series is later. */
  readonly lag: Reading;
  /** Height of the correlation there, -1 … 1. */
  readonly height: number;
  /** Distance to another lag that fits nearly as well (a repeating signal: its period); null where there is none. */
  readonly ambiguousBy: Seconds | null;
}

export interface LagRule {
  /** Largest lag looked at, either way, s; for a repeating signal less than half its period. */
  readonly most: Seconds;
}

/** Another peak this high, relative to the highest, is as good an answer. */
const rival = 0.8;

/** Longest grid; longer series are put on a coarser one. */
const mostPoints = 1 << 20;

/**
 * Lag at which `later` follows `earlier` best: the peak of their correlation, both freed of their means, normalised at
 * every lag by what overlaps there, refined by a parabola through three points.
 *
 * @param earlier, later  any two time bases; put on one even grid of the finer step by straight lines. Gaps and NaN are
 *                        left out of every sum.
 * @returns s; `not-resolvable` where the series hardly overlap, one of them does not move, or the bounds would exceed
 *          what was searched.
 *
 * Bounds: near the best lag, later(t) = g earlier(t - lag) + rest. The lag's error is the sum of rest * slope over
 * g * sum of slope²; the variance of that sum is taken from up to 24 batches, so serial correlation is allowed for.
 * A twentieth of the grid step is added for the parabola.
 */
export function lagBetween(earlier: Series, later: Series, { most }: LagRule): Lag {
  if (!(most > 0)) throw new RangeError(`most must be > 0 s, got ${most}`);
  const grid = commonGrid(earlier, later, most);
  if (grid === null) return none("the two channels hardly overlap in time");
  const a = centred(onGrid(earlier, grid));
  const b = centred(onGrid(later, grid));
  if (a === null || b === null) return none("one of the two channels does not move");
  const reach = Math.min(Math.ceil(most / grid.step), grid.count - 2);
  const far = Math.min(4 * reach, Math.floor(grid.count / 2));
  const height = normalised(a, b, Math.max(reach + 1, far));
  const peak = highest(height, reach);
  if (!(height[peak]! > 0)) return none("the two channels do not move alike at any lag within the search");
  const offset = peak - (height.length - 1) / 2;
  const lag = (offset + vertex(height, peak)) * grid.step;
  const half = errorOfLag(a, b, offset) * grid.step + 0.05 * grid.step;
  const ambiguousBy = nearestRival(height, peak, grid.step);
  return { lag: lagReading(lag, half, most), height: height[peak]!, ambiguousBy };
}

function none(because: string): Lag {
  return { lag: notResolvable("s", because), height: 0, ambiguousBy: null };
}

function lagReading(lag: Seconds, half: Seconds, most: Seconds): Reading {
  if (half <= most) return measured(lag, [lag - half, lag + half], "s");
  if (!(half < Infinity)) return notResolvable("s", "the two channels overlap too briefly to tell a lag");
  return notResolvable("s", "the two channels are not alike enough to tell a lag", {
    low: lag - half,
    high: lag + half,
  });
}

function commonGrid(a: Series, b: Series, most: Seconds): Grid | null {
  const [na, nb] = [countOf(a.time), countOf(b.time)];
  if (na < 4 || nb < 4) return null;
  const start = Math.max(timeAt(a.time, 0), timeAt(b.time, 0));
  const end = Math.min(timeAt(a.time, na - 1), timeAt(b.time, nb - 1));
  const finest = Math.min(usualStep(a.time), usualStep(b.time));
  if (!(end - start > Math.max(most, 4 * finest))) return null;
  const step = Math.max(finest, (end - start) / mostPoints);
  return { start, step, count: Math.floor((end - start) / step) + 1 };
}

/** Values less their mean; null where fewer than 4 are known or none differs. NaN stays. */
function centred(values: Float64Array): Float64Array | null {
  let count = 0;
  let sum = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    count++;
    sum += value;
  }
  const mean = sum / count;
  const isFlat = !values.some((value) => Math.abs(value - mean) > 1e-12 * Math.max(1, Math.abs(mean)));
  return count < 4 || isFlat ? null : values.map((value) => value - mean);
}

/** Correlation at lags -most … most, each over the samples that both have there; 0 where fewer than a quarter overlap. */
function normalised(a: Float64Array, b: Float64Array, most: number): Float64Array {
  const whole = !a.some(Number.isNaN) && !b.some(Number.isNaN);
  const { powerA, powerB, overlap } = whole ? overlapsOfWhole(a, b, most) : overlapsOfBroken(a, b, most);
  const products = correlate(filled(a), filled(b), most);
  const least = a.length / 4;
  return products.map((p, k) => (overlap[k]! < least ? 0 : p / Math.sqrt(Math.max(powerA[k]! * powerB[k]!, 1e-300))));
}

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
  const without = (v: Float64Array) => {
    const heads = new Float64Array(most + 1);
    const tails = new Float64Array(most + 1);
    const total = v.reduce((sum, x) => sum + x * x, 0);
    for (let k = 1; k <= most; k++) {
      heads[k] = heads[k - 1]! + v[k - 1]! ** 2;
      tails[k] = tails[k - 1]! + v[v.length - k]! ** 2;
    }
    return { head: (k: number) => total - heads[k]!, tail: (k: number) => total - tails[k]! };
  };
  const [ofA, ofB] = [without(a), without(b)];
  const at = (value: (k: number) => number) => Float64Array.from({ length: 2 * most + 1 }, (_, i) => value(i - most));
  // At lag k >= 0 the last k samples of a and the first k of b have no partner.
  return {
    powerA: at((k) => (k < 0 ? ofA.head(-k) : ofA.tail(k))),
    powerB: at((k) => (k < 0 ? ofB.tail(-k) : ofB.head(k))),
    overlap: at((k) => a.length - Math.abs(k)),
  };
}

/** Index of the highest value within `reach` of the middle. */
function highest(values: Float64Array, reach: number): number {
  const middle = (values.length - 1) / 2;
  let best = middle;
  for (let k = middle - reach; k <= middle + reach; k++) if (values[k]! > values[best]!) best = k;
  return best;
}

/**
 * Where the parabola through a point and its neighbours peaks, in steps from the point, within ± 1/2; 0 at the ends.
 */
export function vertex(values: ArrayLike<number>, at: number): number {
  const [left, here, right] = [values[at - 1], values[at]!, values[at + 1]];
  if (left === undefined || right === undefined) return 0;
  const curvature = left - 2 * here + right;
  return curvature < 0 ? Math.min(0.5, Math.max(-0.5, (0.5 * (left - right)) / curvature)) : 0;
}

/** Half-width of the 95 % interval of the lag, in grid steps. */
function errorOfLag(a: Float64Array, b: Float64Array, offset: number): number {
  const from = Math.max(1, -offset);
  const to = Math.min(a.length - 1, b.length - offset);
  const batches = Math.min(24, Math.floor((to - from) / 8));
  if (batches < 2) return Infinity;
  const gain = gainAt(a, b, offset);
  const sums = new Float64Array(batches);
  let slopes = 0;
  for (let i = from; i < to; i++) {
    const slope = (a[i + 1]! - a[i - 1]!) / 2;
    const rest = b[i + offset]! - gain * a[i]!;
    if (Number.isNaN(slope * rest)) continue;
    slopes += slope * slope;
    sums[Math.floor(((i - from) * batches) / (to - from))]! += rest * slope;
  }
  const mean = sums.reduce((sum, s) => sum + s, 0) / batches;
  const variance = (sums.reduce((sum, s) => sum + (s - mean) ** 2, 0) * batches) / (batches - 1);
  const error = (studentQuantile(batches - 1) * Math.sqrt(variance)) / (Math.abs(gain) * slopes);
  return Number.isFinite(error) ? error : Infinity;
}

function gainAt(a: Float64Array, b: Float64Array, offset: number): number {
  let [products, squares] = [0, 0];
  for (let i = Math.max(0, -offset); i < a.length && i + offset < b.length; i++) {
    const product = a[i]! * b[i + offset]!;
    if (Number.isNaN(product)) continue;
    products += product;
    squares += a[i]! ** 2;
  }
  return products / squares;
}

/** Distance from the peak to the nearest other local peak that is nearly as high, s; null where there is none. */
function nearestRival(values: Float64Array, peak: number, step: Seconds): Seconds | null {
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
