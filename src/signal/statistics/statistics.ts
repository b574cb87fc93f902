// Robust statistics: percentiles and medians.

import { studentQuantile } from "../numbers/student.ts";
import type { AnySamples, Samples } from "../series/series.ts";
import { quantilesOf } from "./quantiles.ts";

/**
 * Values below which the given shares of the samples lie.
 *
 * @param samples  any length; NaN is skipped.
 * @param shares   each 0 … 1.
 * @returns one value per share, interpolated between neighbours as numpy's default ("linear", type 7 of Hyndman & Fan,
 *          Am. Stat. 50 (1996) 361); all NaN where no sample is finite.
 */
export function percentiles(samples: AnySamples, shares: readonly number[]): number[] {
  const { at } = quantilesOf(samples);
  return shares.map(at);
}

/**
 * One percentile; see `percentiles`.
 *
 * @param samples  NaN and infinite ones are skipped. @param share  0 … 1.
 * @returns unit of the samples; NaN where none is finite.
 */
export function percentile(samples: Samples, share: number): number {
  return percentiles(samples, [share])[0]!;
}

/**
 * Median of some numbers, infinite ones included; NaN of none or where one is NaN.
 *
 * @param values  any order; read only.
 */
export function medianOfNumbers(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : ((sorted[middle - 1] ?? NaN) + sorted[middle]!) / 2;
}

/**
 * Half-width of the 95 % interval that the spread of independent values leaves for their median.
 *
 * @param values  finite, one unit, independent of each other.
 * @returns 0 for fewer than two values: then nothing is known of a spread.
 *
 * Standard error of the mean, times sqrt(pi / 2) for the median beyond two values, times Student's quantile. The spread
 * is the standard deviation, or 1.4826 median absolute deviations where outliers make that smaller (9 values or more).
 */
export function spreadOfMedian(values: Float64Array): number {
  const n = values.length;
  if (n < 2) return 0;
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  const deviation = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (n - 1));
  const median = medianOfNumbers(values);
  const robust = n < 9 ? deviation : 1.4826 * medianOfNumbers(values.map((v) => Math.abs(v - median)));
  const factor = n < 3 ? 1 : Math.sqrt(Math.PI / 2);
  return (factor * studentQuantile(n - 1) * Math.min(deviation, Math.max(robust, 0.5 * deviation))) / Math.sqrt(n);
}
