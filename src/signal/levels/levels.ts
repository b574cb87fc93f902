// Levels of a signal: its amplitude and its extremes, each with bounds.

import { atLeast, atMost, measured, notResolvable, type Reading, type Unit } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import { blockAt, blockBoundsOf, blockLength } from "../series/block-bounds.ts";
import { batchesOf, sampleAt } from "../series/reel.ts";
import type { AnySamples, AnySeries } from "../series/series.ts";
import { extremesOf, placeOf } from "../statistics/extremes.ts";
import { noiseOf } from "../statistics/noise.ts";
import { type Quantiles, quantilesOf } from "../statistics/quantiles.ts";
import { quantisationOf } from "../statistics/quantisation.ts";

export interface LevelRule {
  readonly unit?: Unit;
  /** Standard deviation of the noise; estimated from the samples where absent. */
  readonly noise?: number;
}

/** Two-sided 5 % tail of a normal distribution: where its 95th percentile lies. */
const tail = 1.645;

/**
 * Amplitude: from the 5th to the 95th percentile of the samples.
 *
 * @param series  any length, one unit; read only. NaN is skipped.
 * @returns count = finite samples. `not-resolvable` with fewer than 5, or where the bounds would be wider than the value.
 *
 * Bounds: each percentile is known to the ranks on either side of it that sampling leaves open. The share of time beyond
 * a level is off by up to half a sample at each passage of it (independent, deviation 1/sqrt 12 of a sample) where there
 * are ten samples a cycle, else by what independent samples would be; and by the part of a cycle that the span cuts off.
 * Noise spreads the tails by up to 1.645 sigma each (a state with noise), by nothing where the signal is steep, so that
 * much is left open downwards. Below ten samples a cycle the noise cannot be told from the swing; then two states with
 * noise, whose height is p75 - p25, are left open as well.
 */
export function amplitudeOf(series: AnySeries, { unit = "V", noise }: LevelRule = {}): Reading {
  const { count, at } = quantilesOf(series.samples);
  if (count < 5) return notResolvable(unit, "fewer than 5 samples in this span", { count });
  const sigma = noise ?? noiseOf(series.samples);
  const step = resolutionOf(series.samples);
  const cycles = Math.max(1, passagesOf(series.samples, (at(0.05) + at(0.95)) / 2, 3 * sigma + step) / 2);
  const rule = { step, cycles };
  const low = percentileBounds(series.samples, { count, at }, 0.05, rule);
  const high = percentileBounds(series.samples, { count, at }, 0.95, rule);
  const value = high.value - low.value;
  const states = at(0.75) - at(0.25);
  const spread = Math.max(2 * tail * sigma, low.isCoarse || high.isCoarse ? value - states : 0);
  const bounds = [Math.max(0, high.low - low.high - spread), high.high - low.low] as const;
  if (bounds[1] - bounds[0] > value) {
    const because =
      "noise and step are as large as the swing, or the span holds too few samples; a longer span would tell";
    return notResolvable(unit, because, { low: bounds[0], high: bounds[1], count });
  }
  return measured(value, bounds, unit, { count });
}

/**
 * Step of the values; where only two values occur, the largest that both can be multiples of, at most a twentieth of
 * their difference (a recorder with fewer steps in the swing is none).
 */
function resolutionOf(samples: AnySamples): number {
  const step = quantisationOf(samples);
  const [low, high] = extremesOf(samples);
  if (step > 0 || high === low) return step;
  for (const batch of batchesOf(samples)) {
    if (batch.some((value) => value > low && value < high)) return step;
  }
  let large = Math.abs(high);
  let small = Math.abs(low);
  while (small > 1e-6 * Math.abs(high - low))
    [large, small] = [small, Math.abs(large - small * Math.round(large / small))];
  return Math.min(large, (high - low) / 20);
}

interface ValueBounds {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Fewer than ten samples a cycle. */
  readonly isCoarse: boolean;
}

function percentileBounds(
  samples: AnySamples,
  { count: n, at }: ReturnType<typeof quantilesOf>,
  share: number,
  { step, cycles }: { readonly step: number; readonly cycles: number },
): ValueBounds {
  const value = at(share);
  const passages = Math.max(1, passagesOf(samples, value, 0));
  const independent = Math.sqrt((share * (1 - share)) / n);
  const isCoarse = n < 10 * cycles;
  const placed = isCoarse ? independent : Math.min(independent, Math.sqrt(passages / 6) / n);
  const doubt = coverage * placed + Math.min(share, 1 - share) / cycles + 0.5 / n;
  return {
    value,
    low: Math.min(value, beyondEnds(at, share - doubt) - step / 2),
    high: Math.max(value, beyondEnds(at, share + doubt) + step / 2),
    isCoarse,
  };
}

/** A percentile; outside 0 … 1 the values are continued by their point reflection at the end. */
function beyondEnds(at: Quantiles, share: number): number {
  if (share >= 0 && share <= 1) return at(share);
  const end = share < 0 ? 0 : 1;
  return 2 * at(end) - at(2 * end - share);
}

function passagesOf(samples: AnySamples, level: number, hysteresis: number): number {
  const { low, high } = blockBoundsOf(samples);
  let side = 0;
  let passages = 0;
  let at = 0;
  for (const batch of batchesOf(samples)) {
    for (let i = 0; i < batch.length; i++) {
      const block = blockAt(at + i, at + batch.length);
      // A block that stays on one side is as good as its first sample.
      const isOneSided = block >= 0 && (low[block]! - level > hysteresis || high[block]! - level < -hysteresis);
      const off = batch[i]! - level;
      const now = off > hysteresis ? 1 : off < -hysteresis ? -1 : 0;
      if (isOneSided) i += blockLength - 1;
      if (now === 0) continue;
      if (side + now === 0) passages++;
      side = now;
    }
    at += batch.length;
  }
  return passages;
}

/**
 * Lowest value. The true minimum lies no higher than noise allows; how much lower it may dip between samples is told from
 * the curvature there. Where the dip is not resolved by the samples: `at-most`.
 *
 * @param series  any length, one unit; NaN is skipped.
 * @returns count = finite samples; `not-resolvable` without any.
 */
export function minimumOf(series: AnySeries, rule: LevelRule = {}): Reading {
  return extremeOf(series, -1, rule);
}

/**
 * Highest value; mirror image of `minimumOf`, `at-least` where the peak is not resolved.
 *
 * @param series  any length, one unit; NaN is skipped.
 * @returns count = finite samples; `not-resolvable` without any.
 */
export function maximumOf(series: AnySeries, rule: LevelRule = {}): Reading {
  return extremeOf(series, 1, rule);
}

/**
 * How much further than the parabola a sine reaches at worst, half-way between two samples: 2 / (c (1 + c)) with c = cos(pi
 * / n), from 1 - c over (c - cos(3 pi / n)) / 8. For n = 5 samples a cycle, the fewest that still count as resolved.
 */
const sharper = 1.37;

/**
 * An extreme is resolved when the parabola through it and its neighbours rises above the sample by less than a tenth of
 * the range. That rise (at most an eighth of the second difference) is then the doubt on the outer side, times `sharper`.
 * On the inner side, the largest of n noisy samples exceeds its true value by up to sigma sqrt(2 ln n). Voltage steps hide
 * noise of up to a sixth of a step, as three deviations then stay within half of one: so much is taken to be there.
 */
function extremeOf(series: AnySeries, sign: 1 | -1, { unit = "V", noise }: LevelRule): Reading {
  const { samples } = series;
  const [lowest, highest] = extremesOf(samples);
  if (!(highest >= lowest)) return notResolvable(unit, "no sample in this span", { count: 0 });
  const value = sign > 0 ? highest : lowest;
  const at = placeOf(samples, value);
  const step = quantisationOf(samples);
  const sigma = Math.max(noise ?? noiseOf(samples), step / 6);
  const count = finiteCount(samples);
  const inner = sigma * (Math.sqrt(2 * Math.log(Math.max(2, count))) + 1) + step / 2;
  const rise = sharpness(samples, at, sign) / 8;
  const outer = sharper * rise + step / 2 + sigma;
  if (highest > lowest && rise > 0.1 * (highest - lowest) + sigma) {
    const because = "a peak between samples may reach further; more samples per second would tell";
    if (sign > 0) return { ...atLeast(value - inner, unit, { because, count }) };
    return atMost(value + inner, unit, { because, count, low: null });
  }
  const bounds = sign > 0 ? ([value - inner, value + outer] as const) : ([value - outer, value + inner] as const);
  return measured(value, bounds, unit, { count });
}

/** Second difference at an extreme, the larger side doubled where a neighbour is missing; never negative. */
function sharpness(samples: AnySamples, at: number, sign: 1 | -1): number {
  const peak = sampleAt(samples, at)!;
  const drops = [at - 1, at + 1].map((i) => sign * (peak - (sampleAt(samples, i) ?? NaN)));
  const known = drops.filter((drop) => Math.abs(drop) < Infinity);
  if (known.length === 0) return 0;
  return known.length === 2 ? known[0]! + known[1]! : 2 * known[0]!;
}

function finiteCount(samples: AnySamples): number {
  const { low, high } = blockBoundsOf(samples);
  let count = 0;
  let at = 0;
  for (const batch of batchesOf(samples)) {
    for (let i = 0; i < batch.length; i++) {
      const block = blockAt(at + i, at + batch.length);
      if (block >= 0 && low[block]! > -Infinity && high[block]! < Infinity) {
        count += blockLength;
        i += blockLength - 1;
      } else if (Math.abs(batch[i]!) < Infinity) count++;
    }
    at += batch.length;
  }
  return count;
}
