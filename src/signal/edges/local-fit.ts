// A polynomial through the samples around an edge: the smooth course of a noisy signal, and how well it is known.

import type { Seconds } from "../numbers/units.ts";
import { type Series, timeAt } from "../series/series.ts";

/** From a parabola to a quintic. */
export type Degree = 2 | 3 | 4 | 5;

/** Most coefficients of a fit. */
const most = 6;

/** Room used again by every fit: many are made for each edge. */
const room = { moments: new Float64Array(2 * most - 1), weights: new Float64Array(most) };

export interface LocalFit {
  readonly degree: Degree;
  /** Instant that counts as 0, and unit of the fit's own time x, s. */
  readonly near: Seconds;
  readonly half: Seconds;
  /** Mean step between its samples, s. */
  readonly step: Seconds;
  /** Coefficients of 1, x, x², …; those beyond the degree are 0. */
  readonly coefficients: Float64Array;
  /** Lower Cholesky factor of the matrix of moments, row after row up to the diagonal; its leading rows belong to the degree. */
  readonly factor: readonly number[];
  /** Sum of squared residuals, and the samples less the coefficients. */
  readonly residual: number;
  readonly freedom: number;
}

/** Where a fit meets a level. */
export interface Root {
  readonly time: Seconds;
  /** Slope there, units of the samples per s. */
  readonly slope: number;
}

/**
 * Least-squares polynomials of degree 2 to 5 over a window that only grows: each sample is visited once.
 *
 * Sums of powers of time are kept in a fixed unit and brought to half-widths of the window when it is solved, so that the
 * normal equations stay well conditioned: a factor per sum, which loses no precision. One Cholesky factor serves all
 * degrees, since the leading block of L is the factor of the leading block of L L'.
 */
export class GrowingFit {
  readonly #series: Series;
  readonly #near: Seconds;
  readonly #unit: Seconds;
  readonly #origin: number;
  readonly #moments = new Float64Array(2 * most - 1);
  readonly #products = new Float64Array(most);
  #square = 0;
  #from: number;
  #to: number;

  /**
   * @param near  instant around which the windows lie; `at` is a sample next to it.
   * @param unit  s, larger than 0: a length near that of the first window.
   */
  constructor(series: Series, { near, at, unit }: { near: Seconds; at: number; unit: Seconds }) {
    this.#series = series;
    this.#near = near;
    this.#unit = unit;
    this.#origin = series.samples[at]!;
    this.#from = at;
    this.#to = at;
  }

  /**
   * Fits over samples [from, to), all finite, which hold those of every earlier call; null where those span no time.
   */
  over(from: number, to: number): Fits | null {
    this.#take(from, this.#from);
    this.#take(this.#to, to);
    this.#from = from;
    this.#to = to;
    const { time } = this.#series;
    const half = Math.max(timeAt(time, to - 1) - this.#near, this.#near - timeAt(time, from));
    return half > 0 ? this.#solve(half, (timeAt(time, to - 1) - timeAt(time, from)) / (to - from - 1)) : null;
  }

  #take(from: number, to: number): void {
    const { time, samples } = this.#series;
    const [moments, products] = [this.#moments, this.#products];
    for (let i = from; i < to; i++) {
      const x = (timeAt(time, i) - this.#near) / this.#unit;
      const y = samples[i]! - this.#origin;
      this.#square += y * y;
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
  }

  #solve(half: Seconds, step: Seconds): Fits {
    const count = this.#to - this.#from;
    const z = new Float64Array(most);
    const scaled = room.moments;
    let scale = 1;
    for (let k = 0; k < scaled.length; k++) {
      scaled[k] = this.#moments[k]! * scale;
      if (k < most) z[k] = this.#products[k]! * scale;
      scale *= this.#unit / half;
    }
    const { factor, size } = factorise(scaled, Math.min(most, count - 1));
    // L z = products: what a power takes off the squares is its own z².
    for (let r = 0; r < size; r++) {
      let sum = z[r]!;
      for (let c = 0; c < r; c++) sum -= factor[row(r) + c]! * z[c]!;
      z[r] = sum / factor[row(r) + r]!;
    }
    const window = { near: this.#near, half, step, count };
    return new Fits(window, { factor, size, z }, { square: this.#square, origin: this.#origin });
  }
}

interface Window {
  readonly near: Seconds;
  readonly half: Seconds;
  readonly step: Seconds;
  /** Samples in it. */
  readonly count: number;
}

interface Solved {
  readonly factor: readonly number[];
  /** Coefficients that the samples determine. */
  readonly size: number;
  readonly z: Float64Array;
}

/** The polynomials over one window; each is worked out when it is asked for, as most are not. */
export class Fits {
  readonly #window: Window;
  readonly #solved: Solved;
  readonly #of: { readonly square: number; readonly origin: number };

  constructor(window: Window, solved: Solved, of: { readonly square: number; readonly origin: number }) {
    this.#window = window;
    this.#solved = solved;
    this.#of = of;
  }

  /** Samples beyond the coefficients; below 1 where the samples do not determine the fit. */
  freedom(degree: Degree): number {
    return degree < this.#solved.size ? this.#window.count - degree - 1 : 0;
  }

  /** @returns null where the samples do not determine it: it needs more of them than coefficients. */
  fit(degree: Degree): LocalFit | null {
    const { factor, size, z } = this.#solved;
    if (degree >= size) return null;
    const { near, half, step, count } = this.#window;
    const coefficients = new Float64Array(most);
    let residual = this.#of.square;
    // L' c = z.
    for (let r: number = degree; r >= 0; r--) {
      let sum = z[r]!;
      for (let c = r + 1; c <= degree; c++) sum -= factor[row(c) + r]! * coefficients[c]!;
      coefficients[r] = sum / factor[row(r) + r]!;
      residual -= z[r]! ** 2;
    }
    coefficients[0]! += this.#of.origin;
    residual = Math.max(0, residual);
    return { degree, near, half, step, coefficients, factor, residual, freedom: count - degree - 1 };
  }
}

/** Where a row of a lower triangle begins. */
const row = (r: number): number => (r * (r + 1)) / 2;

/** Cholesky factor of the matrix of moments s[r + c], of as many rows up to `most` as the moments determine. */
function factorise(moments: Float64Array, most: number): { readonly factor: number[]; readonly size: number } {
  const factor: number[] = [];
  for (let r = 0; r < most; r++) {
    for (let c = 0; c <= r; c++) {
      let sum = moments[r + c]!;
      for (let k = 0; k < c; k++) sum -= factor[row(r) + k]! * factor[row(c) + k]!;
      if (c < r) factor.push(sum / factor[row(c) + c]!);
      else if (!(sum > 1e-9 * moments[2 * r]!)) return { factor, size: r };
      else factor.push(Math.sqrt(sum));
    }
  }
  return { factor, size: most };
}

/**
 * Where the fit meets a level, next to the instant it was made around, by Newton's steps.
 *
 * @param fit  any degree. @param level  unit of the samples.
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
  return { time: fit.near + x * fit.half, slope: slopeAt(x) / fit.half };
}

/** Value of the fit, x in its own time. */
function valueAt({ coefficients, degree }: LocalFit, x: number): number {
  let value = 0;
  for (let k = degree; k >= 0; k--) value = value * x + coefficients[k]!;
  return value;
}

/** Weight that a place of the fit has in a quantity: one value, or a difference of several. */
export interface Place {
  readonly time: Seconds;
  readonly weight: number;
}

/**
 * Weighted sum of the fit's values at some places.
 *
 * @param places  instants in s; weights in any unit per that of the samples.
 * @returns the unit of the weights times that of the samples.
 */
export function sumAt(fit: LocalFit, places: readonly Place[]): number {
  let sum = 0;
  for (let k = 0; k < places.length; k++) {
    const { time, weight } = places[k]!;
    sum += weight * valueAt(fit, (time - fit.near) / fit.half);
  }
  return sum;
}

/**
 * Variance of that sum for noise of deviation 1: v' (L L')⁻¹ v = |L⁻¹ v|², v the weighted sum of (1, x, x², …). What the
 * values at several places have in common is in it.
 *
 * @returns >= 0, the square of the weights' unit.
 */
export function varianceAt({ factor, degree, near, half }: LocalFit, places: readonly Place[]): number {
  const w = room.weights;
  for (let k = 0; k < places.length; k++) {
    const { time, weight } = places[k]!;
    let power = weight;
    for (let r = 0; r <= degree; r++) {
      w[r] = k === 0 ? power : w[r]! + power;
      power *= (time - near) / half;
    }
  }
  let sum = 0;
  for (let r = 0; r <= degree; r++) {
    let value = w[r]!;
    for (let c = 0; c < r; c++) value -= factor[row(r) + c]! * w[c]!;
    w[r] = value / factor[row(r) + r]!;
    sum += w[r]! ** 2;
  }
  return sum;
}
