// By how much one channel follows another: the lag of best correlation, with bounds and its ambiguity.

import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { inRoom, type Room } from "../numbers/room.ts";
import type { Seconds } from "../numbers/units.ts";
import { type Grid, onGrid } from "../series/resample.ts";
import { type AnySeries, countOf, timeAt } from "../series/series.ts";
import { usualStep } from "../series/usual-step.ts";
import { formatValue } from "../written/reading-text.ts";
import { highest, isWhole, nearestRival, normalised, vertex } from "./correlation-peak.ts";
import { errorOfLag, slopeLikeness, slopesAt } from "./lag-error.ts";

export interface Lag {
  /** Positive: the second series is later. Of a repeating signal: the one within the search; see `claimed`. */
  readonly lag: Reading;
  /** Height of the correlation there, -1 … 1. */
  readonly height: number;
  /** Distance to another lag that fits nearly as well (a repeating signal: its period); null where there is none. */
  readonly ambiguousBy: Seconds | null;
  /** What can be said of the lag where the search is no proof: `lag` itself, unless whole periods more or less fit as well. */
  readonly claimed: Reading;
}

export interface LagRule {
  /** Largest lag looked at, either way, s; for a repeating signal less than half its period. */
  readonly most: Seconds;
}

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
 * Where noise makes the slopes of the two unlike, so that its ripples would decide where the correlation peaks, both are
 * smoothed by the same running mean first, which moves no lag; the height stays that of the channels as recorded.
 *
 * Bounds: `errorOfLag`, and a twentieth of the grid step for the parabola.
 */
export function lagBetween(earlier: AnySeries, later: AnySeries, { most }: LagRule): Lag {
  if (!(most > 0)) throw new RangeError(`most must be > 0 s, got ${most}`);
  const grid = commonGrid(earlier, later, most);
  if (grid === null) return none("the two channels hardly overlap in time");
  return inRoom((room) => lagOn(grid, { earlier, later, most, room }));
}

interface Pair extends LagRule {
  readonly earlier: AnySeries;
  readonly later: AnySeries;
  readonly room: Room;
}

function lagOn(grid: Grid, { earlier, later, most, room }: Pair): Lag {
  const a = centred(onGrid(earlier, grid, room(grid.count)));
  const b = centred(onGrid(later, grid, room(grid.count)));
  if (a === null || b === null) return none("one of the two channels does not move");
  const reach = Math.min(Math.ceil(most / grid.step), grid.count - 2);
  const found = peakOf(a, b, reach);
  if (!(found.height > 0)) return none("the two channels do not move alike at any lag within the search");
  const { heights, peak, ...laid } = smoothEnough(a, b, { reach, room }, found);
  const lag = (laid.offset + vertex(heights, peak)) * grid.step;
  const half = (errorOfLag(slopesAt(laid.a, laid.b, { ...laid, room })) + 0.05) * grid.step;
  const ambiguousBy = nearestRival(heights, peak, grid.step);
  const reading = lagReading(lag, half, most);
  const far = ((heights.length - 1) / 2) * grid.step;
  const repeats = ambiguousBy === null ? null : { lag, half, period: ambiguousBy, far, step: grid.step };
  const claimed = repeats === null ? reading : repeating(repeats);
  return { lag: reading, height: found.height, ambiguousBy, claimed };
}

function none(because: string): Lag {
  const lag = notResolvable("s", because);
  return { lag, height: 0, ambiguousBy: null, claimed: lag };
}

interface Repeating {
  readonly lag: Seconds;
  readonly half: Seconds;
  readonly period: Seconds;
  /** Furthest lag looked at, either way. */
  readonly far: Seconds;
  /** The period is known to one of these. */
  readonly step: Seconds;
}

/** Bounds over all whole periods more and less that were looked at. */
function repeating({ lag, half, period, far, step }: Repeating): Reading {
  const [less, more] = [Math.floor((far + lag) / period), Math.floor((far - lag) / period)];
  const because = `the signal repeats: ${formatValue(lag, "s")} fits, and as well every ${formatValue(period, "s")} more or less; one single event, a lift-off, would tell`;
  if (!(half <= far)) return notResolvable("s", because);
  const [low, high] = [lag - half - less * (period + step), lag + half + more * (period + step)];
  return measured(lag, [low, high], "s", { because });
}

function lagReading(lag: Seconds, half: Seconds, most: Seconds): Reading {
  if (half <= most) return measured(lag, [lag - half, lag + half], "s");
  if (!(half < Infinity)) return notResolvable("s", "the two channels overlap too briefly to tell a lag");
  return notResolvable("s", "the two channels are not alike enough to tell a lag", {
    low: lag - half,
    high: lag + half,
  });
}

function commonGrid(a: AnySeries, b: AnySeries, most: Seconds): Grid | null {
  const [na, nb] = [countOf(a.time), countOf(b.time)];
  if (na < 4 || nb < 4) return null;
  const start = Math.max(timeAt(a.time, 0), timeAt(b.time, 0));
  const end = Math.min(timeAt(a.time, na - 1), timeAt(b.time, nb - 1));
  const finest = Math.min(usualStep(a.time), usualStep(b.time));
  if (!(end - start > Math.max(most, 4 * finest))) return null;
  const step = Math.max(finest, (end - start) / mostPoints);
  return { start, step, count: Math.floor((end - start) / step) + 1 };
}

/** The values, made less by their mean; null where fewer than 4 are known or none differs. NaN stays. */
function centred(values: Float64Array): Float64Array | null {
  let count = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    count++;
    sum += value;
  }
  const mean = sum / count;
  if (count < 4 || isFlatAt(mean, values)) return null;
  for (let i = 0; i < values.length; i++) values[i]! -= mean;
  return values;
}

function isFlatAt(mean: number, values: Float64Array): boolean {
  const least = 1e-12 * Math.max(1, Math.abs(mean));
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i]! - mean) > least) return false;
  return true;
}

interface Peak {
  /** The two as they were laid on each other. */
  readonly a: Float64Array;
  readonly b: Float64Array;
  /** Correlation by lag, the middle one at lag 0, and the index of its peak within the search. */
  readonly heights: Float64Array;
  readonly peak: number;
  readonly height: number;
  /** Steps by which `b` is later at the peak, and how alike the slopes are there. */
  readonly offset: number;
  readonly likeness: number;
}

function peakOf(a: Float64Array, b: Float64Array, reach: number): Peak {
  const far = Math.min(4 * reach, Math.floor(a.length / 2));
  const heights = normalised(a, b, Math.max(reach + 1, far));
  const peak = highest(heights, reach);
  const offset = peak - (heights.length - 1) / 2;
  return { a, b, heights, peak, height: heights[peak]!, offset, likeness: slopeLikeness(a, b, offset) };
}

/** With slopes less alike than this, ripples of noise decide where the correlation peaks. */
const alike = 0.7;

/** The peak of both, smoothed as far as it takes until their slopes are alike: by a running mean, twice. */
function smoothEnough(
  a: Float64Array,
  b: Float64Array,
  { reach, room }: { readonly reach: number; readonly room: Room },
  raw: Peak,
): Peak {
  let best = raw;
  const once = room(a.length);
  const smoothed = (values: Float64Array, width: number) =>
    runningMean(runningMean(values, width, once), width, room(values.length));
  for (let width = 4; best.likeness < alike && width <= reach / 4; width *= 4) {
    const peak = peakOf(smoothed(a, width), smoothed(b, width), reach);
    if (peak.likeness > best.likeness) best = peak;
  }
  return best;
}

/** Mean of the 2 width + 1 values around each, put into `means`; missing values are left out, and stay missing. */
function runningMean(values: Float64Array, width: number, means: Float64Array): Float64Array {
  if (isWhole(values)) return runningMeanOfWhole(values, width, means);
  let sum = 0;
  let count = 0;
  for (let i = -width; i < values.length; i++) {
    const coming = i + width < values.length ? values[i + width]! : NaN;
    if (!Number.isNaN(coming)) {
      sum += coming;
      count++;
    }
    if (i < 0) continue;
    means[i] = Number.isNaN(values[i]!) ? NaN : sum / count;
    const going = i >= width ? values[i - width]! : NaN;
    if (!Number.isNaN(going)) {
      sum -= going;
      count--;
    }
  }
  return means;
}

/** The same where none is missing: nothing to be asked of each value, only at the two ends. */
function runningMeanOfWhole(values: Float64Array, width: number, means: Float64Array): Float64Array {
  const n = values.length;
  const first = Math.min(width, n);
  const last = Math.max(first, n - width);
  let sum = 0;
  for (let i = 0; i < first; i++) sum += values[i]!;
  for (let i = 0; i < first; i++) {
    if (i + width < n) sum += values[i + width]!;
    means[i] = sum / (Math.min(i + width, n - 1) + 1);
  }
  for (let i = first; i < last; i++) {
    sum += values[i + width]!;
    means[i] = sum / (2 * width + 1);
    sum -= values[i - width]!;
  }
  for (let i = last; i < n; i++) {
    means[i] = sum / (n - Math.max(i - width, 0));
    if (i >= width) sum -= values[i - width]!;
  }
  return means;
}
