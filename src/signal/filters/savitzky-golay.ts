// Smoothing and slope by a polynomial fitted to each sample and its neighbours.

import type { Seconds } from "../numbers/units.ts";
import type { Samples } from "../series/series.ts";
import { stepRise } from "./filter-rise.ts";

export interface PolynomialRule {
  /** Samples in the window: odd, more than `degree`. */
  readonly width: number;
  readonly degree: number;
  /** 0 smooths, 1 gives the slope per step, and so on; 0 unless given. */
  readonly derivative?: number;
}

/**
 * Weights of the window, first to last sample, to be multiplied sample by sample and added up.
 *
 * @returns length width, symmetric for an even derivative; sum 1 for derivative 0.
 * @throws RangeError unless width is odd and 0 <= derivative <= degree < width (a caller's bug).
 *
 * By Gram's polynomials, which are orthogonal on equally spaced points, so that no matrix is inverted.
 * Source: Savitzky & Golay, Anal. Chem. 36 (1964) 1627; Gorry, Anal. Chem. 62 (1990) 570.
 */
export function savitzkyGolayWeights({ width, degree, derivative = 0 }: PolynomialRule): Float64Array {
  if (!(width % 2 === 1 && degree < width && derivative >= 0 && derivative <= degree)) {
    throw new RangeError(`want odd width > degree >= derivative >= 0, got ${width}, ${degree}, ${derivative}`);
  }
  const m = (width - 1) / 2;
  const weights = new Float64Array(width);
  for (let k = 0; k <= degree; k++) {
    const scale = (2 * k + 1) * ratioOfFactorials(2 * m, k);
    const atCentre = gram(0, m, k, derivative) * scale;
    for (let i = -m; i <= m; i++) weights[i + m]! += atCentre * gram(i, m, k, 0);
  }
  return weights;
}

/** (2m)! / (2m - k)! * (2m + 1)! / (2m + k + 1)!: the norm of Gram's polynomial k. */
function ratioOfFactorials(twoM: number, k: number): number {
  let ratio = 1;
  for (let j = 0; j < k; j++) ratio *= (twoM - j) / (twoM + 2 + j);
  return ratio / (twoM + 1);
}

/** Gram's polynomial of order k on -m … m, or its s-th derivative, at i (Gorry's recursion). */
function gram(i: number, m: number, k: number, s: number): number {
  if (k <= 0) return k === 0 && s === 0 ? 1 : 0;
  const first = (4 * k - 2) / (k * (2 * m - k + 1));
  const second = ((k - 1) * (2 * m + k)) / (k * (2 * m - k + 1));
  const slope = s > 0 ? s * gram(i, m, k - 1, s - 1) : 0;
  return first * (i * gram(i, m, k - 1, s) + slope) - second * gram(i, m, k - 2, s);
}

/**
 * The fitted polynomial's value (or derivative, per step to that power) at each sample.
 *
 * @param samples  evenly spaced, length n, one unit; read only. NaN marks a missing sample.
 * @returns new array, length n; NaN where the window leaves the signal or meets a NaN, never a guessed edge value.
 *          Exact for polynomials of the degree.
 * @throws RangeError as `savitzkyGolayWeights` (a caller's bug).
 */
export function savitzkyGolay(samples: Samples, rule: PolynomialRule): Float64Array<ArrayBuffer> {
  const weights = savitzkyGolayWeights(rule);
  const reach = (rule.width - 1) / 2;
  const found = new Float64Array(samples.length);
  const end = Math.max(reach, samples.length - reach);
  found.fill(NaN, 0, reach);
  let i = reach;
  // Four windows at once: their sums need not wait for each other.
  for (; i + 3 < end; i += 4) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let k = 0; k < weights.length; k++) {
      const weight = weights[k]!;
      const at = i - reach + k;
      a += weight * samples[at]!;
      b += weight * samples[at + 1]!;
      c += weight * samples[at + 2]!;
      d += weight * samples[at + 3]!;
    }
    found[i] = a;
    found[i + 1] = b;
    found[i + 2] = c;
    found[i + 3] = d;
  }
  for (; i < end; i++) {
    for (let k = 0; k < weights.length; k++) found[i]! += weights[k]! * samples[i - reach + k]!;
  }
  return found.fill(NaN, end);
}

/**
 * 10-90 % time of the filter's own answer to a step, s.
 *
 * @param rule  with derivative 0. @param step  s between samples, > 0.
 * @returns s.
 * @throws RangeError as `savitzkyGolayWeights` (a caller's bug).
 *
 * A transition of 10-90 % time T comes out at sqrt(T² + rise²) or less: variances add for degree 0 and 1; a higher degree
 * keeps the second moment, so that an edge which the window resolves passes nearly unchanged.
 */
export function savitzkyGolayRise(rule: PolynomialRule, step: Seconds): Seconds {
  return stepRise(savitzkyGolayWeights(rule)) * step;
}
