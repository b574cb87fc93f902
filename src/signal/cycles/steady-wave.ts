// A wave that repeats itself: whether one periodic form explains a whole record, and how early or late each part of it is.

import { agreesWithNoise } from "../edges/smooth-course.ts";
import { factorise, solveLower, solveUpper, type Triangle, triangleOf } from "../numbers/cholesky.ts";
import type { Seconds } from "../numbers/units.ts";
import { partsOf } from "../series/reel.ts";
import { type AnySeries, countOf, timeAt } from "../series/series.ts";
import { valueLimitsOf } from "../statistics/value-limits.ts";
import type { Period } from "./mean-period.ts";

export interface WaveRule {
  /** Mean period as the crossings tell it, s: so close that it miscounts no cycle. */
  readonly period: Seconds;
  /** Standard deviation of the noise, unit of the samples. */
  readonly noise: number;
}

/** Parts of equal length of a steady wave. */
export interface SteadyParts {
  /** From each part to the next, with what noise leaves open at either end; s. */
  readonly periods: readonly Period[];
  /** Cycles in each. */
  readonly cycles: number;
  /** Factor within which the variances are right. */
  readonly within: number;
}

/** Overtones taken in, from few to many; the first that explains the record is taken. */
const overtones = [1, 3] as const;

/** So many samples tell enough; more are taken evenly spread, as long as a cycle keeps `fewestPerCycle`. */
const most = 1 << 15;
const fewestPerCycle = 4;

/** With fewer samples a cycle an equal neighbour is more often sent again than equal by chance. */
const plainPerCycle = 20;

/** Parts looked at, and the samples that each has at least. */
const mostParts = 64;
const fewestParts = 4;
const fewestInPart = 4;

/** A part that tells less than this share of the usual one leaves its phase open. */
const leastTelling = 0.1;

const mostRounds = 12;

/**
 * The parts of a wave that repeats itself.
 *
 * @param series  one run, without NaN or gaps.
 * @returns null where nothing shows that one does: then cycles may vary by themselves.
 *
 * A constant and a sine, with overtones where needed, of one frequency are fitted to all samples by least squares (the
 * four-parameter sine fit of IEEE Std 1057, by Gauss and Newton's steps from the frequency of the crossings). The wave is
 * steady where
 * - its residuals agree with the noise that was estimated apart (chi-square, 0.1 %): its form holds, from end to end;
 * - each part of it (at most 64) is early or late by no more than those residuals give it (the same test).
 * The phase of a part is known to residual deviation over the root of its squared slopes: about sqrt(2 / m) of what the
 * noise of one of its m samples would be over the slope, so far better than a crossing. Rounding counts as in `Limits`.
 * What so many phases could not tell of a slow change, `meanPeriodBounds` allows for.
 *
 * A sample equal to the one before it is left out where values are sent again before they are fresh, or where a cycle has
 * so few samples that it most likely was.
 */
export function steadyParts(series: AnySeries, rule: WaveRule): SteadyParts | null {
  const limits = valueLimitsOf(series, rule.noise);
  const picked = pick(series, rule.period, limits.isStale);
  if (picked === null) return null;
  const count = picked.values.length;
  for (const overtone of overtones) {
    if (count < Math.max(3 * (2 * overtone + 2), 2 * overtone * picked.cycles)) return null;
    const wave = fitWave(picked, overtone);
    if (wave === null || !agreesWithNoise(wave, limits.sigma)) continue;
    const slopePerSample = (Math.sqrt(wave.steepness / count) * picked.cycles) / count;
    const coherent = (limits.tread ** 2 / 12) * Math.max(0, limits.tread / slopePerSample - 1);
    return partsOfWave(picked, wave, wave.residual / wave.freedom + coherent);
  }
  return null;
}

/** Samples that count: their instants, about the middle of the span, and their values. */
interface Picked {
  /** In periods as the crossings tell them. */
  readonly phases: Float64Array;
  readonly values: Float64Array;
  readonly period: Seconds;
  /** Length of the span in such periods. */
  readonly cycles: number;
}

function pick(series: AnySeries, period: Seconds, isStale: boolean): Picked | null {
  const { time } = series;
  const n = countOf(time);
  const [from, to] = [timeAt(time, 0), timeAt(time, n - 1)];
  const [cycles, middle] = [(to - from) / period, (from + to) / 2];
  const stride = Math.ceil(n / most);
  if (n < fewestPerCycle * stride * cycles) return null;
  const isDoubtful = isStale || n < plainPerCycle * cycles;
  const [phases, values] = [new Float64Array(Math.ceil(n / stride)), new Float64Array(Math.ceil(n / stride))];
  let count = 0;
  let before = NaN;
  for (const { series: part, at } of partsOf(series)) {
    const first = Math.ceil(at / stride) * stride - at;
    for (let i = first; i < part.samples.length; i += stride) {
      const sample = part.samples[i]!;
      if (isDoubtful && sample === (i > 0 ? part.samples[i - 1]! : before)) continue;
      phases[count] = (timeAt(part.time, i) - middle) / period;
      values[count++] = sample;
    }
    before = part.samples[part.samples.length - 1]!;
  }
  return { phases: phases.subarray(0, count), values: values.subarray(0, count), period, cycles };
}

interface Wave {
  /** Constant, then cosine and sine of each overtone. */
  readonly coefficients: Float64Array;
  /** Frequency of the fit over that of the crossings. */
  readonly pace: number;
  readonly residual: number;
  readonly freedom: number;
  /** Sum of squared slopes, per cycle. */
  readonly steepness: number;
}

function fitWave({ phases, values, cycles }: Picked, overtone: number): Wave | null {
  const size = 2 * overtone + 2;
  const last = size - 1;
  const row = new Float64Array(size);
  let coefficients = new Float64Array(size);
  let pace = 1;
  for (let round = 0; round < mostRounds; round++) {
    // In the first round the slope is not known yet, and the frequency stays.
    const used = round === 0 ? last : size;
    const normal = new Normal(used);
    let residual = 0;
    let steepness = 0;
    for (let i = 0; i < values.length; i++) {
      const slope = layOut(row, coefficients, pace * phases[i]!);
      row[last] = slope * phases[i]!;
      normal.add(row, values[i]!);
      let rest = values[i]!;
      for (let k = 0; k < last; k++) rest -= coefficients[k]! * row[k]!;
      residual += rest * rest;
      steepness += slope * slope;
    }
    const solved = normal.solve();
    if (solved === null) return null;
    const change = used === size ? solved[last]! : Infinity;
    if (Math.abs(change) * cycles < 1e-7) {
      return { coefficients, pace, residual, freedom: values.length - size, steepness };
    }
    // More than half a cycle over the record: the crossings have miscounted, or there is no such wave.
    if (used === size && !(Math.abs(change) * cycles < 0.5)) return null;
    coefficients = new Float64Array(size);
    coefficients.set(solved.subarray(0, last));
    if (used === size) pace += change;
  }
  return null;
}

/** Fills in 1, cos, sin, cos 2, sin 2, … at a phase in cycles; the wave's slope there, per cycle. */
function layOut(row: Float64Array, coefficients: Float64Array, phase: number): number {
  const angle = 2 * Math.PI * phase;
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  row[0] = 1;
  let c = 1;
  let s = 0;
  let slope = 0;
  for (let k = 1; 2 * k < row.length - 1; k++) {
    [c, s] = [c * cosine - s * sine, s * cosine + c * sine];
    row[2 * k - 1] = c;
    row[2 * k] = s;
    slope += k * (coefficients[2 * k]! * c - coefficients[2 * k - 1]! * s);
  }
  return 2 * Math.PI * slope;
}

/** @param variance  of the residuals, as it counts for a phase. */
function partsOfWave(picked: Picked, { coefficients, pace, freedom }: Wave, variance: number): SteadyParts | null {
  const { phases, values, period, cycles } = picked;
  const count = Math.min(mostParts, Math.floor(2 * cycles), Math.floor(values.length / fewestInPart));
  if (count < fewestParts) return null;
  const [moments, powers] = [new Float64Array(count), new Float64Array(count)];
  const row = new Float64Array(coefficients.length);
  for (let i = 0; i < values.length; i++) {
    const slope = layOut(row, coefficients, pace * phases[i]!);
    let rest = values[i]!;
    for (let k = 0; k < row.length - 1; k++) rest -= coefficients[k]! * row[k]!;
    const part = Math.min(count - 1, Math.max(0, Math.floor((phases[i]! / cycles + 0.5) * count)));
    moments[part]! -= rest * slope;
    powers[part]! += slope * slope;
  }
  const usual = powers.reduce((sum, power) => sum + power, 0) / count;
  if (powers.some((power) => !(power > leastTelling * usual))) return null;
  const residual = moments.reduce((sum, moment, k) => sum + moment ** 2 / powers[k]!, 0);
  if (!agreesWithNoise({ residual, freedom: count - 2 }, Math.sqrt(variance))) return null;
  const late = moments.map((moment, k) => ((moment / powers[k]!) * period) / pace);
  const edge = (k: number) => ({ noise: (variance / powers[k]!) * (period / pace) ** 2, open: 0 });
  const length = (cycles * period) / count;
  const periods = Array.from({ length: count - 1 }, (_, k) => ({
    length: length + late[k + 1]! - late[k]!,
    start: edge(k),
    end: edge(k + 1),
    isLinked: k > 0,
  }));
  return { periods, cycles: (pace * cycles) / count, within: 1 + 2 * Math.sqrt(2 / freedom) };
}

/** Normal equations of a least-squares fit, summed up sample by sample. */
class Normal {
  readonly #size: number;
  readonly #matrix: Triangle;
  readonly #right: Float64Array;

  constructor(size: number) {
    this.#size = size;
    this.#matrix = triangleOf(size);
    this.#right = new Float64Array(size);
  }

  add(row: Float64Array, value: number): void {
    const { rows } = this.#matrix;
    for (let r = 0, at = 0; r < this.#size; r++) {
      this.#right[r]! += row[r]! * value;
      for (let c = 0; c <= r; c++) rows[at++]! += row[r]! * row[c]!;
    }
  }

  /** @returns the coefficients; null where the samples do not determine them. */
  solve(): Float64Array | null {
    const [size, factor, x] = [this.#size, this.#matrix, this.#right];
    if (factorise(factor, size) < size) return null;
    solveLower(factor, x, size);
    solveUpper(factor, x, size);
    return x;
  }
}
