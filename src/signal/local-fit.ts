// A parabola through the samples around a point: the smooth course of a noisy signal, and how well it is known.

import { type Series, timeAt } from "./series.ts";
import type { Seconds } from "./units.ts";

export interface LocalFit {
  /** Where the parabola meets the level, s. */
  readonly time: Seconds;
  /** Slope there, units of the samples per s. */
  readonly slope: number;
  /** Standard deviation of `time` when the samples carry noise of the given sigma, s. */
  readonly deviation: Seconds;
  /** Sum of squared residuals, and the samples less the three coefficients. */
  readonly residual: number;
  readonly freedom: number;
}

/**
 * Least-squares parabola through samples [from, to), solved for the level next to `near`.
 *
 * @param window  indices, at least 4 samples, all finite.
 * @param sigma   noise, unit of the samples.
 * @returns null when the parabola does not meet the level inside the window.
 *
 * The normal equations are in time measured from `near` in half-widths of the window, so they stay well conditioned.
 * Variance of the fitted value: sigma² v' N⁻¹ v, v = (1, x, x²); of the time: that over slope².
 */
export function fitCrossing(
  series: Series,
  window: readonly [from: number, to: number],
  near: Seconds,
  { level, sigma }: { readonly level: number; readonly sigma: number },
): LocalFit | null {
  const [from, to] = window;
  const { samples, time } = series;
  const half = Math.max(timeAt(time, to - 1) - near, near - timeAt(time, from));
  if (!(half > 0)) return null;
  const sums = new Float64Array(8);
  let square = 0;
  for (let i = from; i < to; i++) {
    const x = (timeAt(time, i) - near) / half;
    const y = samples[i]! - level;
    const xx = x * x;
    sums[1]! += x;
    sums[2]! += xx;
    sums[3]! += xx * x;
    sums[4]! += xx * xx;
    sums[5]! += y;
    sums[6]! += x * y;
    sums[7]! += xx * y;
    square += y * y;
  }
  sums[0] = to - from;
  const inverse = invertMoments(sums);
  if (inverse === null) return null;
  const [a, b, c] = coefficients(inverse, sums);
  const x = rootNear(a, b, c);
  if (x === null || Math.abs(x) > 1) return null;
  const slope = b + 2 * c * x;
  const variance = quadraticForm(inverse, x);
  return {
    time: near + x * half,
    slope: slope / half,
    deviation: (sigma * Math.sqrt(variance) * half) / Math.abs(slope),
    residual: Math.max(0, square - a * sums[5]! - b * sums[6]! - c * sums[7]!),
    freedom: to - from - 3,
  };
}

type Symmetric = readonly [aa: number, ab: number, ac: number, bb: number, bc: number, cc: number];

/** Inverse of the matrix of moments [[s0 s1 s2] [s1 s2 s3] [s2 s3 s4]]; null when it has none. */
function invertMoments(s: Float64Array): Symmetric | null {
  const [s0, s1, s2, s3, s4] = s as unknown as [number, number, number, number, number];
  const aa = s2 * s4 - s3 * s3;
  const ab = s2 * s3 - s1 * s4;
  const ac = s1 * s3 - s2 * s2;
  const determinant = s0 * aa + s1 * ab + s2 * ac;
  if (!(Math.abs(determinant) > 1e-12 * s0 * s0 * s0)) return null;
  const bb = s0 * s4 - s2 * s2;
  const bc = s1 * s2 - s0 * s3;
  const cc = s0 * s2 - s1 * s1;
  const scale = 1 / determinant;
  return [aa * scale, ab * scale, ac * scale, bb * scale, bc * scale, cc * scale];
}

function coefficients([aa, ab, ac, bb, bc, cc]: Symmetric, s: Float64Array): [a: number, b: number, c: number] {
  const [y, xy, xxy] = [s[5]!, s[6]!, s[7]!];
  return [aa * y + ab * xy + ac * xxy, ab * y + bb * xy + bc * xxy, ac * y + bc * xy + cc * xxy];
}

/** Root of a + b x + c x² on the branch that passes x = 0; null when the parabola turns back before the level. */
function rootNear(a: number, b: number, c: number): number | null {
  const discriminant = b * b - 4 * a * c;
  if (!(discriminant > 0) || b === 0) return null;
  return (-2 * a) / (b + Math.sign(b) * Math.sqrt(discriminant));
}

function quadraticForm([aa, ab, ac, bb, bc, cc]: Symmetric, x: number): number {
  const xx = x * x;
  return aa + 2 * ab * x + (2 * ac + bb) * xx + 2 * bc * x * xx + cc * xx * xx;
}
