// The mean of a signal over time, with bounds that allow for serial correlation.

import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { studentQuantile } from "../numbers/student.ts";
import { stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import { type AnySeries, type Samples, type Series, timeAt } from "../series/series.ts";
import { sumOf } from "../series/sums.ts";
import { quantisationOf } from "../statistics/quantisation.ts";
import type { LevelRule } from "./levels.ts";

/**
 * Mean over time (trapezoids within each gap-free run; the plain mean where no two samples hang together).
 *
 * @param series  any length, one unit; read only. NaN and gaps end a run.
 * @returns count = finite samples; `not-resolvable` without any.
 *
 * Bounds: the standard error from the means of up to 32 equal batches of samples (batch means, which allow for serial
 * correlation: Law & Kelton) times Student's quantile for so many batches, plus half a quantisation step. Where neighbouring batches
 * still go together (correlation r, less its usual bias of 1 / number) it is wider by sqrt((1 + r) / (1 - r)), as for a first-order
 * autoregression.
 */
export function meanOf(series: AnySeries, { unit = "V" }: LevelRule = {}): Reading {
  const runs = runsOf(series);
  let count = 0;
  for (let r = 0; r < runs.length; r += 2) count += runs[r + 1]! - runs[r]!;
  if (count === 0) return notResolvable(unit, "no sample in this span", { count });
  const sums = new BatchSums(count);
  let area = 0;
  let length = 0;
  let before = NaN;
  let last = NaN;
  for (const { series: part, from, to, isStart } of stretchesOf(series, runs)) {
    const sum = sums.take(part.samples, [from, to]);
    const first = timeAt(part.time, from);
    area += areaOf(part, [from, to], sum);
    if (!isStart) {
      area += ((first - before) * (last + part.samples[from]!)) / 2;
      length += first - before;
    }
    before = timeAt(part.time, to - 1);
    last = part.samples[to - 1]!;
    length += before - first;
  }
  const value = length > 0 ? area / length : sums.total / count;
  const half = sums.reachOfMean() + quantisationOf(series.samples) / 2;
  return measured(value, [value - half, value + half], unit, { count });
}

/** Integral over a run by trapezoids; for even steps it follows from the sum of the samples. */
function areaOf({ samples, time }: Series, [from, to]: readonly [number, number], sum: number): number {
  if (time.kind === "even") return time.step * (sum - (samples[from]! + samples[to - 1]!) / 2);
  const { stamps } = time;
  let twice = 0;
  for (let i = from + 1; i < to; i++) twice += (stamps[i]! - stamps[i - 1]!) * (samples[i]! + samples[i - 1]!);
  return twice / 2;
}

/** Sums of equal batches of samples, filled one after the other. */
class BatchSums {
  readonly #sums: Float64Array;
  readonly #count: number;
  #seen = 0;
  total = 0;

  /** @param count  samples that will be taken. */
  constructor(count: number) {
    this.#count = count;
    this.#sums = new Float64Array(Math.max(Math.min(2, count), Math.min(32, Math.floor(Math.sqrt(count)))));
  }

  /** Takes samples [from, to), all finite; returns their sum. */
  take(samples: Samples, [from, to]: readonly [number, number]): number {
    let sum = 0;
    for (let i = from; i < to; ) {
      const batch = this.#batchOf(this.#seen);
      const end = Math.min(to, i + this.#startOf(batch + 1) - this.#seen);
      const part = sumOf(samples, i, end);
      this.#sums[batch]! += part;
      sum += part;
      this.#seen += end - i;
      i = end;
    }
    this.total += sum;
    return sum;
  }

  /** Half-width of the 95 % interval of the mean of all; 0 for a single sample, which tells nothing of a spread. */
  reachOfMean(): number {
    const batches = this.#sums.length;
    if (batches < 2) return 0;
    const means = this.#sums.map((sum, k) => sum / (this.#startOf(k + 1) - this.#startOf(k)));
    const mean = means.reduce((sum, m) => sum + m, 0) / batches;
    const variance = means.reduce((sum, m) => sum + (m - mean) ** 2, 0) / (batches - 1);
    const products = means.reduce((sum, m, k) => sum + (k === 0 ? 0 : (m - mean) * (means[k - 1]! - mean)), 0);
    const r = variance > 0 ? Math.min(0.9, Math.max(0, products / (variance * (batches - 1)) + 1 / batches)) : 0;
    return studentQuantile(batches - 1) * Math.sqrt(((1 + r) / (1 - r)) * (variance / batches));
  }

  #startOf(batch: number): number {
    return Math.ceil((batch * this.#count) / this.#sums.length);
  }

  #batchOf(place: number): number {
    return Math.floor((place * this.#sums.length) / this.#count);
  }
}
