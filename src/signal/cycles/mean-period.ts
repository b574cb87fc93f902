// How well the mean of some periods is known, when cycles vary and edges are early or late by themselves.

import { largestOf, type Normal, quantileOf } from "../numbers/mixture.ts";
import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";

/** More periods than this are put together in sums: the model keeps its form, and the work stays small. */
const mostSums = 64;

/** Grid of w: e^±11 about the mean square of the periods. */
const spreads = Array.from({ length: 45 }, (_, a) => Math.exp(a / 2 - 11));

/** Grid of the share of an edge's variance that is true: what it tells may be a few times too large or too small. */
const shares = Array.from({ length: 8 }, (_, b) => 2 ** (b - 4));

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

/** Bounds of the mean period, s. */
export interface PeriodBounds {
  readonly low: Seconds;
  readonly high: Seconds;
}

export interface PeriodRule {
  /** By how much sampling at the ends of the runs may shorten or lengthen the sum of all periods, s; 0 unless given. */
  readonly endsOpen?: Seconds;
  /** Factor, >= 1, within which the variances of the edges are right, where that is known. */
  readonly within?: number;
}

/** Fewer periods tell nothing of their spread. */
const fewest = 3;

/**
 * 95 % interval of the true mean period.
 *
 * @param periods  at least one, in the order of time.
 * @returns bounds that hold the plain mean, sum / number, as well.
 *
 * Crossing k is at k P + (w_1 + … + w_k) + e_k: every cycle takes its own time (variance w), and every edge is early or late
 * by itself (variance q j_k, with j_k known and q, the share of it that is true, not), which adds to one period what it takes
 * from the next. So the periods have the covariance w + q j_k + q j_(k+1) on the diagonal and -q j_k beside it, and the
 * negative correlation of neighbours tells the two apart. Their posterior is taken over a grid, P integrated out, with
 * equal odds for every doubling of q, and of w above the least that so many periods could tell from none (`leastTold`;
 * evenly spread below it). Without edge errors that is Jeffreys' prior.
 *
 * Two intervals follow, and the narrower is taken; neither depends on where the other lies:
 * - about the plain mean: sum / n errs by w / n and the errors of the two ends, 2 q j / n² (a pure tone has w = 0: what its
 *   edges err in between telescopes), and by what sampling leaves open at both ends;
 * - about the mean by generalised least squares, whose variance is w / n where cycles vary and 12 q j / n³ where they do
 *   not: a straight line through all crossings. Errors of at most d on each crossing move such a line by 3 d / n, half
 *   as much again as the two ends alone, and that much is added for what sampling leaves open.
 * Each is the 95 % interval of a mixture of normal distributions; without edge errors, Student's with n - 1 degrees of
 * freedom. Positive correlation r of neighbours, which the model has not, widens w by (1 + r) / (1 - r) as for a
 * first-order autoregression, where it is beyond chance (1.64 / sqrt n).
 *
 * With edge errors told from the samples (`within`), simulation of 6 to 40 edges finds the truth held in 96 % or more for every
 * w up to ten times the least that can be told, at two to three times the width that a straight line would have if w were
 * known to be 0: the price of what so many cycles cannot show.
 */
export function meanPeriodBounds(periods: readonly Period[], { endsOpen = 0, within }: PeriodRule = {}): PeriodBounds {
  const n = periods.length;
  const mean = periods.reduce((sum, { length }) => sum + length, 0) / n;
  const endNoise = noiseOfEnds(periods);
  if (n < fewest) {
    const half = (endsOpen + coverage * Math.sqrt(endNoise)) / n;
    return { low: mean - half, high: mean + half };
  }
  const chains = sumsOf(periods);
  const drift = driftOf(chains.map(({ length, count }) => length / count));
  const parts = posterior(chains, mean, within === undefined ? shares : [1 / within, 1, within]);
  const ends = parts.map(({ w, share, weight }) => ({
    weight,
    middle: mean,
    variance: (w * drift) / n + (share * endNoise) / n ** 2,
  }));
  const line = parts.map(({ weight, middle, variance }) => ({ weight, middle, variance: variance * drift }));
  const byEnds = widened(ends, endsOpen / n);
  const byLine = widened(line, (1.5 * endsOpen) / n);
  const { low, high } = byLine.high - byLine.low < byEnds.high - byEnds.low ? byLine : byEnds;
  return { low: Math.min(low, mean), high: Math.max(high, mean) };
}

function widened(parts: readonly Normal[], by: Seconds): PeriodBounds {
  return { low: quantileOf(parts, 0.025) - by, high: quantileOf(parts, 0.975) + by };
}

/** Neighbouring periods as one: their sum, the number of them, and the edges at its ends. */
interface Chain extends Period {
  readonly count: number;
}

/** Sums of so many linked neighbours that at most about 64 are left. */
function sumsOf(periods: readonly Period[]): Chain[] {
  const most = Math.ceil(periods.length / mostSums);
  const chains: Chain[] = [];
  for (const period of periods) {
    const before = chains.at(-1);
    if (before !== undefined && period.isLinked && before.count < most) {
      const length = before.length + period.length;
      chains[chains.length - 1] = { ...before, length, end: period.end, count: before.count + 1 };
    } else chains.push({ ...period, count: 1 });
  }
  return chains;
}

/** Variance that noise gives the sum, at both ends of each chain of linked periods. */
function noiseOfEnds(periods: readonly Period[]): number {
  return periods.reduce((sum, { start, end, isLinked }, k) => {
    const isLast = !periods[k + 1]?.isLinked;
    return sum + (isLinked ? 0 : start.noise) + (isLast ? end.noise : 0);
  }, 0);
}

interface State extends Normal {
  readonly w: number;
  readonly share: number;
}

function posterior(chains: readonly Chain[], mean: Seconds, shares: readonly number[]): State[] {
  const n = chains.length;
  const periods = chains.reduce((sum, { count }) => sum + count, 0);
  const scale = chains.reduce((sum, { length, count }) => sum + (length - count * mean) ** 2, 0) / periods;
  if (!(scale > 0)) return [{ w: 0, share: 1, weight: 1, middle: mean, variance: 0 }];
  const usual = chains.reduce((sum, { end }) => sum + end.noise + end.open, 0) / n;
  const states: { w: number; share: number; log: number; middle: Seconds; variance: number }[] = [];
  for (const share of usual > 0 ? shares : [1]) {
    for (const times of spreads) {
      const w = scale * times;
      const { log, middle, variance } = likelihood(chains, mean, w, share);
      states.push({ w, share, log: log + Math.log(w / (w + leastTold(n, share * usual))), middle, variance });
    }
  }
  const top = largestOf(states.map(({ log }) => log));
  return states.map(({ log, ...state }) => ({ ...state, weight: Math.exp(log - top) }));
}

/**
 * Logarithm of the likelihood with P integrated out, and the mean and variance of P that least squares give, by the Cholesky
 * factors of the tridiagonal covariance.
 */
function likelihood(chains: readonly Chain[], mean: Seconds, w: number, share: number) {
  const own = ({ noise, open }: EdgeVariance) => share * (noise + open);
  let logs = 0;
  let squares = 0;
  let cross = 0;
  let mass = 0;
  let pivot = 1;
  let value = 0;
  let one = 0;
  for (const { length, start, end, isLinked, count } of chains) {
    const factor = isLinked ? -own(start) / pivot : 0;
    pivot = count * w + own(start) + own(end) - factor ** 2 * pivot;
    value = length - count * mean - factor * value;
    one = count - factor * one;
    logs += Math.log(pivot);
    squares += value ** 2 / pivot;
    cross += (value * one) / pivot;
    mass += one ** 2 / pivot;
  }
  const log = -(logs + Math.log(mass) + squares - cross ** 2 / mass) / 2;
  return { log, middle: mean + cross / mass, variance: 1 / mass };
}

/**
 * Least w that n periods could tell from none, when edges err by variance j: the smallest eigenvalue of the covariance that
 * those errors give, 4 j sin²(pi / 2 (n + 1)) (G. D. Smith, Numerical Solution of Partial Differential Equations, 1985).
 */
function leastTold(n: number, j: number): number {
  return 4 * j * Math.sin(Math.PI / (2 * (n + 1))) ** 2;
}

function driftOf(lengths: readonly Seconds[]): number {
  const n = lengths.length;
  const mean = lengths.reduce((sum, s) => sum + s, 0) / n;
  let c0 = 0;
  let c1 = 0;
  for (let k = 0; k < n; k++) {
    c0 += (lengths[k]! - mean) ** 2;
    if (k > 0) c1 += (lengths[k]! - mean) * (lengths[k - 1]! - mean);
  }
  const r = c0 > 0 ? Math.min(c1 / c0, 0.9) : 0;
  return r > 1.64 / Math.sqrt(n) ? (1 + r) / (1 - r) : 1;
}
