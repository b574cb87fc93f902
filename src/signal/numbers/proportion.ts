// Bounds of a share that was counted, and of a ratio of two sums.

import { studentQuantile } from "./student.ts";

type Bounds = readonly [low: number, high: number];

/**
 * 95 % bounds of the chance behind `hits` out of `trials`.
 *
 * @param hits    whole, 0 … trials. @param trials  whole, >= 1.
 * @returns both in 0 … 1. Where none or all hit, one bound is certain and the other one-sided: none of 20 gives 0 … 0.139,
 *          the exact form of the rule of three.
 * @throws RangeError if the counts are out of range (a caller's bug).
 *
 * Source: Clopper & Pearson, Biometrika 26 (1934) 404. Solved by halving on the binomial tail, to 1e-9.
 */
export function proportionBounds(hits: number, trials: number): Bounds {
  if (!(trials >= 1 && hits >= 0 && hits <= trials)) throw new RangeError(`${hits} of ${trials} is no share`);
  if (hits === 0) return [0, 1 - 0.05 ** (1 / trials)];
  if (hits === trials) return [0.05 ** (1 / trials), 1];
  const low = solve((p) => 1 - tailUpTo(hits - 1, trials, p), 0.025);
  const high = solve((p) => 1 - tailUpTo(hits, trials, p), 0.975);
  return [low, high];
}

/** p at which a rising function reaches `wanted`. */
function solve(rising: (p: number) => number, wanted: number): number {
  let low = 0;
  let high = 1;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Chance of at most `most` hits; terms by their logarithms, so that hundreds of trials do not underflow. */
function tailUpTo(most: number, trials: number, p: number): number {
  let log = trials * Math.log1p(-p);
  let sum = Math.exp(log);
  for (let k = 1; k <= most; k++) {
    log += Math.log((trials - k + 1) / k) + Math.log(p) - Math.log1p(-p);
    sum += Math.exp(log);
  }
  return Math.min(1, sum);
}

/**
 * Ratio of two sums over the same pieces, with 95 % bounds from leaving out one piece at a time.
 *
 * @param above, below  one number per piece, same length; below > 0 in sum.
 * @returns null with fewer than four pieces, or nothing below.
 *
 * Source: the jackknife of Quenouille and Tukey; Efron, The Jackknife, the Bootstrap and Other Resampling Plans (1982).
 */
export function ratioOfSums(
  above: readonly number[],
  below: readonly number[],
): { readonly value: number; readonly bounds: Bounds } | null {
  const n = above.length;
  const [top, bottom] = [sum(above), sum(below)];
  if (n < 4 || !(bottom > 0)) return null;
  const without = above.map((part, k) => (top - part) / (bottom - below[k]!)).filter(Number.isFinite);
  const mean = sum(without) / without.length;
  const variance = ((n - 1) / n) * sum(without.map((ratio) => (ratio - mean) ** 2));
  const half = studentQuantile(n - 1) * Math.sqrt(variance);
  const value = top / bottom;
  return { value, bounds: [value - half, value + half] };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
