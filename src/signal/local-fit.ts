// A polynomial through the samples around an edge: the smooth course of a noisy signal, and how well it is known.

import { type Series, timeAt } from "./series.ts";
import type { Seconds } from "./units.ts";

/** From a parabola to a quintic. */
const degrees = [2, 3, 4, 5] as const;

/** Most coefficients of a fit. */
const most = 6;

export interface LocalFit {
  readonly degree: (typeof degrees)[number];
  /** Instant that counts as 0, and unit of the fit's own time x, s. */
  readonly near: Seconds;
  readonly half: Seconds;
  /** Mean step between its samples, s. */
  readonly step: Seconds;
  /** Coefficients of 1, x, x², …; those beyond the degree are 0. */
  readonly coefficients: Float64Array;
  /** Inverse of the matrix of moments, 6 x 6 by rows: times sigma² the covariance of the coefficients. */
  readonly inverse: Float64Array;
  /** Sum of squared residuals, and the samples less the coefficients. */
  readonly residual: number;
  readonly freedom: number;
}

/** Where a fit meets a level. */
export interface Root {
  readonly time: Seconds;
  /** In the fit's own time. */
  readonly x: number;
  /** Slope there, units of the samples per s. */
  readonly slope: number;
}

/**
 * Least-squares polynomials of degree 2 to 5 through samples [from, to), all finite, in one pass.
 *
 * @param near  any instant inside; the normal equations are in time measured from it in half-widths of the window, so
 *              they stay well conditioned.
 * @returns those the samples determine: each has more samples than coefficients.
 */
export function fitPolynomials(
  series: Series,
  [from, to]: readonly [number, number],
  near: Seconds,
): readonly LocalFit[] {
  const { samples, time } = series;
  const half = Math.max(timeAt(time, to - 1) - near, near - timeAt(time, from));
  const origin = samples[(from + to) >> 1]!;
  if (!(half > 0)) return [];
  const moments = new Float64Array(2 * most - 1);
  const products = new Float64Array(most);
  let square = 0;
  for (let i = from; i < to; i++) {
    const x = (timeAt(time, i) - near) / half;
    const y = samples[i]! - origin;
    square += y * y;
    let power = 1;
    for (let k = 0; k < most; k++) {
      moments[k]! += power;
      products[k]! += power * y;
      power *= x;
    }
    for (let k = most; k < moments.length; k++) {
      moments[k]! += power;
      power *= x;
    }
  }
  const fits: LocalFit[] = [];
  for (const degree of degrees) {
    const inverse = to - from > degree + 1 ? inverseOf(moments, degree + 1) : null;
    if (inverse === null) break;
    const coefficients = new Float64Array(most);
    let residual = square;
    for (let r = 0; r <= degree; r++) {
      for (let c = 0; c <= degree; c++) coefficients[r]! += inverse[most * r + c]! * products[c]!;
      residual -= coefficients[r]! * products[r]!;
    }
    coefficients[0]! += origin;
    fits.push({
      degree,
      near,
      half,
      step: (timeAt(time, to - 1) - timeAt(time, from)) / (to - from - 1),
      coefficients,
      inverse,
      residual: Math.max(0, residual),
      freedom: to - from - degree - 1,
    });
  }
  return fits;
}

/** Inverse of the matrix of moments s[r + c], by Gauss & Jordan (it is positive definite); null when it has none. */
function inverseOf(moments: Float64Array, size: number): Float64Array | null {
  const work = new Float64Array(most * most);
  const inverse = new Float64Array(most * most);
  for (let r = 0; r < size; r++) {
    for (let c = 0; c < size; c++) work[most * r + c] = moments[r + c]!;
    inverse[(most + 1) * r] = 1;
  }
  for (let p = 0; p < size; p++) {
    const pivot = work[(most + 1) * p]!;
    if (!(pivot > 1e-9 * moments[2 * p]!)) return null;
    for (let c = 0; c < size; c++) {
      work[most * p + c]! /= pivot;
      inverse[most * p + c]! /= pivot;
    }
    for (let r = 0; r < size; r++) {
      const factor = work[most * r + p]!;
      if (r === p || factor === 0) continue;
      for (let c = 0; c < size; c++) {
        work[most * r + c]! -= factor * work[most * p + c]!;
        inverse[most * r + c]! -= factor * inverse[most * p + c]!;
      }
    }
  }
  return inverse;
}

/**
 * Where the fit meets a level, next to the instant it was made around, by Newton's steps.
 *
 * @returns null where it does not do so inside the window, or turns back between there and that instant.
 */
export function rootOf(fit: LocalFit, level: number): Root | null {
  const { coefficients, degree } = fit;
  const slopeAt = (x: number) => {
    let slope = 0;
    for (let k = degree; k > 0; k--) slope = slope * x + k * coefficients[k]!;
    return slope;
  };
  let x = 0;
  const sense = slopeAt(x);
  for (let round = 0; round < 20; round++) {
    const slope = slopeAt(x);
    if (!(slope * sense > 0)) return null;
    const step = (valueAt(fit, x) - level) / slope;
    x -= step;
    if (!(Math.abs(x) <= 1.5)) return null;
    if (Math.abs(step) < 1e-12) break;
  }
  if (!(Math.abs(x) <= 1 && slopeAt(x) * sense > 0)) return null;
  return { time: fit.near + x * fit.half, x, slope: slopeAt(x) / fit.half };
}

/** Value of the fit, x in its own time. */
export function valueAt({ coefficients, degree }: LocalFit, x: number): number {
  let value = 0;
  for (let k = degree; k >= 0; k--) value = value * x + coefficients[k]!;
  return value;
}

/** Variance of that value for noise of deviation 1: v' N⁻¹ v, v = (1, x, x², …). */
export function varianceAt({ inverse, degree }: LocalFit, x: number): number {
  let sum = 0;
  let left = 1;
  for (let r = 0; r <= degree; r++) {
    let product = left;
    for (let c = 0; c <= degree; c++) {
      sum += product * inverse[most * r + c]!;
      product *= x;
    }
    left *= x;
  }
  return sum;
}
