// How well the sum of some periods is known, when cycles vary and edges are early or late by themselves.

import type { Seconds } from "./units.ts";

/** Sums of more periods than this are put together: the model keeps its form, and the work stays small. */
const mostSums = 64;

/** Grids: w over e^±11 of the mean square; of what sampling leaves open, equal shares. */
const steps = 67;
const openSteps = 6;

/** What is known of one edge's own error, as variances, s²: from noise, and from all that sampling leaves open. */
export interface EdgeVariance {
  readonly noise: number;
  readonly open: number;
}

export interface Period {
  readonly length: Seconds;
  readonly start: EdgeVariance;
  readonly end: EdgeVariance;
  /** It begins with the edge that ends the period before it in the list. */
  readonly isLinked: boolean;
}

/**
 * Half-width of the 95 % interval of the sum of periods, as an estimate of their number times the true mean, s; what
 * sampling leaves open at the ends is not in it.
 *
 * Crossing k is at k P + (w_1 + … + w_k) + e_k: every cycle takes its own time (variance w), and every edge is early or late
 * by itself (variance j_k, known), which adds to one period what it takes from the next. So the periods have the covariance
 * w + j_k + j_(k+1) on the diagonal and -j_k beside it; the sum of n has n w and the errors of its two ends. A pure tone has
 * w = 0: what its edges err telescopes.
 *
 * Of the part of j that sampling leaves open any share may be true (interpolation does better than its bounds), and w is not
 * known. Their posterior is taken over a grid, with Jeffreys' prior for w (root of Fisher's information at the mean j) and
 * equal odds for the share, the mean period integrated out; the interval is that of the mixture of normal distributions.
 * Without edge errors it is Student's with n - 1 degrees of freedom. Positive correlation r of neighbours, which the model
 * has not, widens w by (1 + r) / (1 - r) as for a first-order autoregression, where it is beyond chance (1.64 / sqrt n).
 */
export function doubtOfSum(periods: readonly Period[]): Seconds {
  const joined = Math.ceil(periods.length / mostSums);
  const sums = sumsOf(periods, joined);
  const mixture = posterior(sums);
  const drift = (periods.length / joined) * driftOf(sums.map(({ length }) => length));
  const ends = endNoise(periods);
  for (const part of mixture) part.variance = part.w * drift + ends;
  return quantileOf(mixture);
}

/** Sums of so many neighbours; those at the end that fill no sum are left out. */
function sumsOf(periods: readonly Period[], joined: number): Period[] {
  return Array.from({ length: Math.floor(periods.length / joined) }, (_, k) => {
    const part = periods.slice(k * joined, (k + 1) * joined);
    const length = part.reduce((sum, period) => sum + period.length, 0);
    return { ...part[0]!, length, end: part[part.length - 1]!.end };
  });
}

/** Variance that noise gives the sum, at both ends of each chain of linked periods. */
export function endNoise(periods: readonly Period[]): number {
  return periods.reduce((sum, { start, end, isLinked }, k) => {
    const isLast = !periods[k + 1]?.isLinked;
    return sum + (isLinked ? 0 : start.noise) + (isLast ? end.noise : 0);
  }, 0);
}

interface Part {
  readonly w: number;
  weight: number;
  variance: number;
}

function posterior(sums: readonly Period[]): Part[] {
  const n = sums.length;
  const mean = sums.reduce((sum, { length }) => sum + length, 0) / n;
  const scale = sums.reduce((sum, { length }) => sum + (length - mean) ** 2, 0) / (n - 1);
  if (!(scale > 0)) return [{ w: 0, weight: 1, variance: 0 }];
  const isOpen = sums.some(({ end }) => end.open > 0.1 * end.noise);
  const parts: Part[] = [];
  for (const share of isOpen ? Array.from({ length: openSteps }, (_, b) => (b + 0.5) / openSteps) : [0]) {
    const usual = sums.reduce((sum, { end }) => sum + end.noise + share * end.open, 0) / n;
    for (let a = 0; a < steps; a++) {
      const w = scale * Math.exp(-11 + (22 * a) / (steps - 1));
      // The grid is even in log w: its density takes a factor w.
      const weight = Math.log(w) + logLikelihood(sums, mean, w, share) + logPrior(n, w, usual);
      parts.push({ w, weight, variance: 0 });
    }
  }
  const top = Math.max(...parts.map(({ weight }) => weight));
  for (const part of parts) part.weight = Math.exp(part.weight - top);
  return parts;
}

/** Logarithm of the likelihood with the mean integrated out, by the Cholesky factors of the tridiagonal covariance. */
function logLikelihood(sums: readonly Period[], mean: Seconds, w: number, share: number): number {
  const own = ({ noise, open }: EdgeVariance) => noise + share * open;
  let [logs, squares, cross, mass] = [0, 0, 0, 0];
  let [pivot, value, one] = [1, 0, 0];
  for (const { length, start, end, isLinked } of sums) {
    const factor = isLinked ? -own(start) / pivot : 0;
    pivot = w + own(start) + own(end) - factor ** 2 * pivot;
    value = length - mean - factor * value;
    one = 1 - factor * one;
    logs += Math.log(pivot);
    squares += value ** 2 / pivot;
    cross += (value * one) / pivot;
    mass += one ** 2 / pivot;
  }
  return -(logs + Math.log(mass) + squares - cross ** 2 / mass) / 2;
}

/**
 * Logarithm of Jeffreys' prior of w: root of the sum of 1 / eigenvalue². For equal edges the eigenvalues are w + 4 j
 * sin²(pi i / 2 (n + 1)) (G. D. Smith, Numerical Solution of Partial Differential Equations, 1985).
 */
function logPrior(n: number, w: number, j: number): number {
  let information = 0;
  for (let i = 1; i <= n; i++) information += (w + 4 * j * Math.sin((Math.PI * i) / (2 * (n + 1))) ** 2) ** -2;
  return Math.log(information) / 2;
}

function driftOf(sums: readonly Seconds[]): number {
  const n = sums.length;
  const mean = sums.reduce((sum, s) => sum + s, 0) / n;
  let [c0, c1] = [0, 0];
  for (let k = 0; k < n; k++) {
    c0 += (sums[k]! - mean) ** 2;
    if (k > 0) c1 += (sums[k]! - mean) * (sums[k - 1]! - mean);
  }
  const r = c0 > 0 ? Math.min(c1 / c0, 0.9) : 0;
  return r > 1.64 / Math.sqrt(n) ? (1 + r) / (1 - r) : 1;
}

/** Half-width that holds 95 % of a mixture of normal distributions about 0, by bisection. */
function quantileOf(parts: readonly Part[]): number {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  const beyond = (half: number) =>
    parts.reduce((sum, { weight, variance }) => sum + weight * normalBeyond(half / Math.sqrt(variance)), 0) / total;
  let [low, high] = [0, Math.sqrt(Math.max(...parts.map(({ variance }) => variance))) * 5];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (beyond(middle) > 0.05) low = middle;
    else high = middle;
  }
  return high;
}

/** Share of a normal distribution beyond ± z: Abramowitz & Stegun 7.1.26, to 1.5e-7. */
function normalBeyond(z: number): number {
  if (!(z < 8)) return 0;
  const x = z / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return poly * Math.exp(-x * x);
}
