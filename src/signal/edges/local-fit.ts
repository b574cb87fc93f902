// A polynomial through the samples around an edge: the smooth course of a noisy signal, and how well it is known.

import { factorise, solveLower, solveUpper, type Triangle, triangleOf } from "../numbers/cholesky.ts";
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
  /** Coefficients of 1, x, x², …; those beyond the degree are not set. */
  readonly coefficients: Float64Array;
  readonly factor: Triangle;
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
  #windows = 0;

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
   * Fits over samples [from, to), all finite, which hold those of every earlier call; null where those span no time. They last
   * until the next search begins: its windows take their room.
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
    const [near, unit, origin] = [this.#near, this.#unit, this.#origin];
    const [moments, products] = [this.#moments, this.#products];
    for (let i = from; i < to; i++) {
      const x = (timeAt(time, i) - near) / unit;
      const y = samples[i]! - origin;
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
    const fits = fitsAt(this.#windows++);
    const { z, factor } = fits;
    const scaled = room.moments;
    let scale = 1;
    for (let k = 0; k < scaled.length; k++) {
      scaled[k] = this.#moments[k]! * scale;
      if (k < most) z[k] = this.#products[k]! * scale;
      scale *= this.#unit / half;
    }
    const wanted = Math.min(most, count - 1);
    const { rows } = factor;
    for (let r = 0, at = 0; r < wanted; r++) {
      for (let c = 0; c <= r; c++) rows[at++] = scaled[r + c]!;
    }
    const size = factorise(factor, wanted);
    // L z = products: what a power takes off the squares is its own z².
    solveLower(factor, z, size);
    return fits.over({ near: this.#near, half, step, count, size, square: this.#square, origin: this.#origin });
  }
}

interface Window {
  readonly near: Seconds;
  readonly half: Seconds;
  readonly step: Seconds;
  /** Samples in it. */
  readonly count: number;
  /** Coefficients that the samples determine. */
  readonly size: number;
  readonly square: number;
  readonly origin: number;
}

/** Windows of the search that is under way: their room is used again, as no search begins within another. */
const searched: Fits[] = [];

function fitsAt(k: number): Fits {
  let fits = searched[k];
  if (fits === undefined) {
    fits = new Fits();
    searched[k] = fits;
  }
  return fits;
}

/** The polynomials over one window; each is worked out when it is asked for, as most are not. */
export class Fits {
  readonly factor = triangleOf(most);
  readonly z = new Float64Array(most);
  readonly #coefficients = [2, 3, 4, 5].map(() => new Float64Array(most));
  readonly #known: (LocalFit | null)[] = [null, null, null, null];
  #window: Window | null = null;

  /** The same room for another window, once its factor and z are in place. */
  over(window: Window): this {
    this.#window = window;
    this.#known.fill(null);
    return this;
  }

  /** Samples beyond the coefficients; below 1 where the samples do not determine the fit. */
  freedom(degree: Degree): number {
    const { size, count } = this.#window!;
    return degree < size ? count - degree - 1 : 0;
  }

  /** @returns null where the samples do not determine it: it needs more of them than coefficients. */
  fit(degree: Degree): LocalFit | null {
    if (degree >= this.#window!.size) return null;
    let fit = this.#known[degree - 2]!;
    if (fit === null) {
      fit = this.#fitted(degree, this.#window!);
      this.#known[degree - 2] = fit;
    }
    return fit;
  }

  #fitted(degree: Degree, { near, half, step, count, square, origin }: Window): LocalFit {
    const { z, factor } = this;
    const coefficients = this.#coefficients[degree - 2]!;
    let residual = square;
    for (let r: number = degree; r >= 0; r--) {
      coefficients[r] = z[r]!;
      residual -= z[r]! * z[r]!;
    }
    // L' c = z.
    solveUpper(factor, coefficients, degree + 1);
    coefficients[0]! += origin;
    residual = Math.max(0, residual);
    return { degree, near, half, step, coefficients, factor, residual, freedom: count - degree - 1 };
  }
}

/**
 * Where the fit meets a level, next to the instant it was made around, by Newton's steps.
 *
 * @param fit  any degree. @param level  unit of the samples.
 * @returns null where it does not do so inside the window, or turns back between there and that instant.
 */
export function rootOf(fit: LocalFit, level: number): Root | null {
  let x = 0;
  const sense = slopeAt(fit, x);
  for (let round = 0; round < 20; round++) {
    const slope = slopeAt(fit, x);
    if (!(slope * sense > 0)) return null;
    const step = (valueAt(fit, x) - level) / slope;
    x -= step;
    if (!(Math.abs(x) <= 1.5)) return null;
    if (Math.abs(step) < 1e-12) break;
  }
  const slope = slopeAt(fit, x);
  return Math.abs(x) <= 1 && slope * sense > 0 ? { time: fit.near + x * fit.half, slope: slope / fit.half } : null;
}

/** Slope of the fit in its own time. */
function slopeAt({ coefficients, degree }: LocalFit, x: number): number {
  let slope = 0;
  for (let k: number = degree; k > 0; k--) slope = slope * x + k * coefficients[k]!;
  return slope;
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
  return solveLower(factor, w, degree + 1);
}
