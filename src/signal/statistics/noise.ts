// How much of a channel is noise.

import { inOrder } from "../numbers/sorting.ts";
import { samplesOver } from "../series/reel.ts";
import type { AnySamples } from "../series/series.ts";
import { eachChunk, finiteChunks, most } from "./chunks.ts";
import { stepOf } from "./quantisation.ts";

/**
 * Standard deviation of the white noise on a signal.
 *
 * @param samples  any length, one unit. NaN is skipped, and nothing is taken across it.
 * @returns sigma in that unit, without the part that quantisation adds; 0 where none can be told from the signal
 *          (fewer than 12 neighbouring triples, or samples so far apart that the signal itself jumps between them).
 *
 * From differences of order 2, 4 and 6, whose variances are 6, 70 and 924 sigma²: a smooth course cancels, the better
 * the higher the order, while an edge spoils fewer of the lower ones; the least of the three counts. Movement only ever
 * makes differences larger, so sigma grows from the smallest of them upwards until the root mean square of those within
 * three sigma agrees with it (clipping from below): a square wave and transitions stay outside. Quantisation adds
 * step²/12, which is taken off (Sheppard's correction). Where scatter makes up most of the variance and is not
 * bell-shaped, it is a signal sampled too coarsely, not noise. A signal that switches every few samples spreads its
 * differences over all sizes: there no more is taken for noise than its steps, plateaus and rests allow (`mostNoise`).
 */
export function noiseOf(samples: AnySamples): number {
  return foundIn(samples).sigma;
}

/**
 * The noise that is surely there: `noiseOf` where the differences are spread as noise spreads them, else 0, as then the
 * signal's own movement may make up any part of it. What counts only beyond noise asks for this.
 *
 * @param samples  as for `noiseOf`. @returns in their unit.
 */
export function sureNoiseOf(samples: AnySamples): number {
  return foundIn(samples).sure;
}

interface Noise {
  readonly sigma: number;
  readonly sure: number;
}

/** Noise found so far: every measurement of one span asks for it, and samples are never changed. */
const noiseFound = new WeakMap<AnySamples, Noise>();

function foundIn(samples: AnySamples): Noise {
  let noise = noiseFound.get(samples);
  if (noise === undefined) {
    noise = findNoise(samples);
    noiseFound.set(samples, noise);
  }
  return noise;
}

function findNoise(samples: AnySamples): Noise {
  const values = inOrder(finiteChunks(samples));
  const step = stepOf(samples, values);
  let square = Infinity;
  let most = Infinity;
  let highest: { readonly sizes: Float64Array; readonly gain: number } | null = null;
  for (const { sizes: unordered, gain } of differencesOf(samples)) {
    const sizes = inOrder(unordered);
    if (sizes.length < 12) continue;
    square = Math.min(square, clippedSquare(sizes, step, gain) / gain);
    most = Math.min(most, mostByDifferences(sizes, step, gain));
    highest = { sizes, gain };
  }
  const found = Math.sqrt(Math.max(0, square - step ** 2 / 12));
  if (highest === null || swingsAlike(samples, found, step)) return { sigma: 0, sure: 0 };
  const sigma = Math.min(found, most, mostNoise(samples, values, step));
  const unit = Math.sqrt((sigma ** 2 + step ** 2 / 12) * highest.gain);
  return { sigma, sure: isSpreadLikeNoise(highest.sizes, unit) ? sigma : 0 };
}

/** Of the differences within one deviation, noise has this share within a quarter of it (normal distribution). */
const amidShare = 0.2891;
/** Movement crowds the small differences: more than this beyond that share, and chance, is not noise alone. Own choice. */
const crowdedBy = 0.03;

function isSpreadLikeNoise(sizes: Float64Array, unit: number): boolean {
  const within = countBelow(sizes, unit);
  const share = countBelow(sizes, unit / 4) / within;
  return share <= amidShare + crowdedBy + Math.sqrt((amidShare * (1 - amidShare)) / within);
}

/** How many of the numbers, in rising order, lie below `limit`. */
function countBelow(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Shares q of a normal distribution that lie nearest to its middle, and half their width in deviations. */
const inner = [
  { share: 0.05, half: 0.0627 },
  { share: 0.1, half: 0.1257 },
  { share: 0.2, half: 0.2533 },
  { share: 0.3, half: 0.3853 },
  { share: 0.5, half: 0.6745 },
] as const;
/** Chance may make the smallest differences this many of their own deviations smaller than usual. */
const byChance = 3;
/** Fewer numbers than this in a share say nothing. */
const fewestInside = 8;

/**
 * Most noise that the smallest differences leave room for, unit of the samples.
 *
 * Whatever the signal adds to a difference, it is never within ± d more often than noise alone would be (T. W. Anderson,
 * Proc. Am. Math. Soc. 6 (1955) 170). So a share q of the differences within ± d bounds their deviation from above by d over
 * the normal distribution's half width of q. Rounding adds step sqrt(gain / 12) to d.
 */
function mostByDifferences(sizes: Float64Array, step: number, gain: number): number {
  let most = Infinity;
  for (const { share, half } of inner) {
    const count = Math.floor(share * sizes.length);
    if (count < fewestInside) continue;
    const size = sizes[count]! / Math.sqrt(gain) + step / Math.sqrt(12);
    most = Math.min(most, (size / half) * (1 + byChance / Math.sqrt(count)));
  }
  return most;
}

/**
 * Most noise that steps from one sample to the next, and places where the values crowd, leave room for.
 *
 * The crowding is Anderson's bound again, of the values themselves: noise spreads the plateaus of a switching signal, so the
 * narrowest interval that holds a share of all values is no narrower than that of the noise. Equal neighbours may be one
 * value sent twice: as differences they are left out.
 *
 * @param values  the finite ones of the samples, in rising order.
 */
function mostNoise(samples: AnySamples, values: Float64Array, step: number): number {
  if (samples.length > most) return Infinity;
  const all = samplesOver(samples, 0, samples.length);
  const moves = new Float64Array(all.length);
  let count = 0;
  for (let i = 1; i < all.length; i++) {
    const size = Math.abs(all[i]! - all[i - 1]!);
    if (size > 0 && size < Infinity) moves[count++] = size;
  }
  const sorted = inOrder(moves.subarray(0, count));
  return Math.min(mostByDifferences(sorted, step, 2), mostByCrowding(values, step));
}

function mostByCrowding(values: Float64Array, step: number): number {
  let most = Infinity;
  for (const { share, half } of inner) {
    const count = Math.floor(share * values.length);
    if (count < 2 * fewestInside) continue;
    let width = Infinity;
    for (let i = count; i < values.length; i++) width = Math.min(width, values[i]! - values[i - count]!);
    most = Math.min(most, ((width + step) / (2 * half)) * (1 + byChance / Math.sqrt(count)));
  }
  return most;
}

/** Variance of second differences taken once, twice, three times, for white noise: binomial(2 order, order). */
const gains = [6, 70, 924] as const;

/** Sizes of the differences of each order, and what they multiply the variance of white noise by. */
function differencesOf(samples: AnySamples) {
  const length = Math.min(samples.length, most);
  const part = new Float64Array(length);
  const found = gains.map((gain) => ({ gain, sizes: new Float64Array(length), count: 0 }));
  eachChunk(samples.length, (from, to) => {
    part.set(samplesOver(samples, from, to));
    let left = to - from;
    for (const order of found) {
      left -= 2;
      for (let i = 0; i < left; i++) part[i] = part[i]! - 2 * part[i + 1]! + part[i + 2]!;
      order.count = takeSizes(part.subarray(0, Math.max(0, left)), order.sizes, order.count);
    }
  });
  return found.map(({ gain, sizes, count }) => ({ gain, sizes: sizes.subarray(0, count) }));
}

/** @returns how many sizes there are, those of the differences added behind the first `count`; missing ones are left out. */
function takeSizes(differences: Float64Array, sizes: Float64Array, count: number): number {
  let next = count;
  for (let i = 0; i < differences.length && next < sizes.length; i++) {
    const size = Math.abs(differences[i]!);
    if (size < Infinity) sizes[next++] = size;
  }
  return next;
}

/** Variance that a normal distribution keeps within three deviations. */
const kept = 0.97334;

/** Mean square of the differences that belong together, from sizes in rising order; see `noiseOf`. */
function clippedSquare(sizes: Float64Array, step: number, gain: number): number {
  // A tenth of exact zeros: the signal stands still for a while, noise is below what the values resolve.
  const start = Math.max(sizes[Math.floor(sizes.length / 10)]!, 0.5 * step * Math.sqrt(gain));
  let square = start ** 2;
  if (square === 0) return 0;
  let sum = 0;
  let count = 0;
  for (let round = 0; round < 40; round++) {
    while (count < sizes.length && sizes[count]! ** 2 <= 9 * square) sum += sizes[count++]! ** 2;
    const next = sum / count / kept;
    if (Math.abs(next - square) <= 1e-4 * square) break;
    if (next < square) [sum, count] = [0, 0];
    square = next;
  }
  return square;
}

/**
 * Whether supposed noise is the signal itself, sampled too coarsely: it makes up most of the variance, and is flat or
 * two-humped where noise is bell-shaped. (p95 - p5) / (p75 - p25) is 2.44 for a normal distribution, 1.8 for a uniform
 * one, 1.4 for a sine, 1 for two states.
 */
function swingsAlike(samples: AnySamples, sigma: number, step: number): boolean {
  if (sigma <= step) return false;
  const values = finiteChunks(samples);
  // Values that are whole steps are spread evenly over the step each stands for, by the golden ratio's sequence.
  if (step > 0)
    values.forEach((value, i) => {
      values[i] = value + (((i * 0.6180339887498949) % 1) - 0.5) * step;
    });
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  if (sigma ** 2 < 0.5 * variance) return false;
  inOrder(values);
  const at = (share: number) => values[Math.floor(share * (values.length - 1))]!;
  return at(0.95) - at(0.05) < 2.1 * (at(0.75) - at(0.25));
}
