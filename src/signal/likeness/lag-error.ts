// How far noise may have moved the peak of a correlation.

import { selfCorrelations } from "../numbers/fourier.ts";
import type { Room } from "../numbers/room.ts";
import { coverage } from "../numbers/student.ts";

/** Two signals laid on each other at a lag: their slopes, and what one leaves of the other. All per grid step. */
export interface Slopes {
  /** Mean slope of the two, in units of the earlier; 0 where either is missing. */
  readonly slope: Float64Array;
  /** What a straight line of the later over the earlier leaves; 0 where either is missing. */
  readonly rest: Float64Array;
  /** Product of the two slopes at each place: noise in either adds nothing to its sum on average. */
  readonly curvature: Float64Array;
  /** Correlation of the two slopes; 0 where they run against each other. */
  readonly likeness: number;
}

/**
 * Slopes and rest of two signals, the later one moved back by whole steps.
 *
 * @param a, b  one grid, each one unit; NaN is missing.
 * @param offset  steps by which `b` is later. @param likeness  of `slopeLikeness`, there. @param room  for the answer.
 * @returns arrays as long as the overlap less its ends; likeness 0 where nothing overlaps.
 */
export function slopesAt(
  a: Float64Array,
  b: Float64Array,
  { offset, likeness, room }: { readonly offset: number; readonly likeness: number; readonly room: Room },
): Slopes {
  const from = Math.max(1, 1 - offset);
  const to = Math.min(a.length, b.length - offset) - 1;
  const count = Math.max(0, to - from);
  const [slope, rest, curvature] = [room(count), room(count), room(count)];
  const { gain, start } = lineThrough(a, b, offset);
  for (let i = from; i < to; i++) {
    const k = i + offset;
    const mine = (a[i + 1]! - a[i - 1]!) / 2;
    const theirs = (b[k + 1]! - b[k - 1]!) / 2;
    const left = b[k]! - gain * a[i]! - start;
    const isKnown = !Number.isNaN(mine * theirs * left);
    slope[i - from] = isKnown ? (mine + theirs / gain) / 2 : 0;
    rest[i - from] = isKnown ? left : 0;
    curvature[i - from] = isKnown ? mine * theirs : 0;
  }
  return { slope, rest, curvature, likeness };
}

/** Correlation of the two slopes at an offset; 0 where they run against each other. @param a, b, offset  as `slopesAt`. */
export function slopeLikeness(a: Float64Array, b: Float64Array, offset: number): number {
  const to = Math.min(a.length, b.length - offset) - 1;
  let products = 0;
  let powerA = 0;
  let powerB = 0;
  for (let i = Math.max(1, 1 - offset); i < to; i++) {
    const k = i + offset;
    const mine = (a[i + 1]! - a[i - 1]!) / 2;
    const theirs = (b[k + 1]! - b[k - 1]!) / 2;
    if (Number.isNaN(mine * theirs * (b[k]! - a[i]!))) continue;
    products += mine * theirs;
    powerA += mine * mine;
    powerB += theirs * theirs;
  }
  const likeness = products / Math.sqrt(powerA * powerB);
  return likeness > 0 && lineThrough(a, b, offset).gain > 0 ? likeness : 0;
}

/** Straight line of b over a by least squares, where both are known. */
function lineThrough(
  a: Float64Array,
  b: Float64Array,
  offset: number,
): { readonly gain: number; readonly start: number } {
  let count = 0;
  let sumA = 0;
  let sumB = 0;
  let products = 0;
  let squares = 0;
  for (let i = Math.max(0, -offset); i < a.length && i + offset < b.length; i++) {
    const x = a[i]!;
    const y = b[i + offset]!;
    if (Number.isNaN(x * y)) continue;
    count++;
    sumA += x;
    sumB += y;
    products += x * y;
    squares += x * x;
  }
  const gain = (products - (sumA * sumB) / count) / (squares - (sumA * sumA) / count);
  return { gain, start: (sumB - gain * sumA) / count };
}

/**
 * Half-width of the 95 % interval of the lag, in grid steps; Infinity where it cannot be told.
 *
 * @param slopes  at the whole step nearest to the lag; their rest is changed.
 *
 * At the peak the correlation's slope in the lag is zero, so the error is that slope, as noise makes it, over the
 * curvature. The slope is the sum of rest * slope, less what the part of a step makes that the peak lies beside the lag. Its
 * variance is taken in two ways, and the greater counts: from every place and the serial correlation over all of the
 * overlap, and from the sums of up to 24 batches, for a rest that goes with the signal.
 */
export function errorOfLag(slopes: Slopes): number {
  const { slope, curvature, likeness } = slopes;
  if (likeness === 0 || curvature.length < 16) return Infinity;
  const whole = sumOf(curvature);
  const { rest } = slopes;
  let together = 0;
  for (let i = 0; i < rest.length; i++) together += rest[i]! * slope[i]!;
  const beside = together / whole;
  for (let i = 0; i < rest.length; i++) rest[i]! -= beside * slope[i]!;
  const variance = Math.max(varianceByCorrelation(slope, rest), varianceByBatches(slope, rest, curvature));
  return (coverage * Math.sqrt(variance)) / whole;
}

/**
 * Variance of the sum of rest * slope: as if the rest were alike everywhere, or with both as they stand where it is larger
 * while the signal moves, whichever is more; times what serial correlation makes of it, summed up to where the rest's ends.
 */
function varianceByCorrelation(slope: Float64Array, rest: Float64Array): number {
  const [ofRest, ofSlope] = correlationsToEnd(rest, slope);
  let factor = 1;
  for (let k = 1; k < ofRest.length && ofRest[k]! > 0; k++) {
    factor += 2 * (ofRest[k]! / ofRest[0]!) * (ofSlope[k]! / ofSlope[0]!);
  }
  let asTheyStand = 0;
  for (let i = 0; i < rest.length; i++) asTheyStand += (rest[i]! * slope[i]!) ** 2;
  return Math.max(asTheyStand, (ofRest[0]! * ofSlope[0]!) / rest.length) * Math.max(0, factor);
}

/** Lags looked at first, and how much further each time that the rest has not ended there. */
const firstLags = 1 << 9;
const furtherLags = 8;

/** Correlation of each with itself, at least up to where that of the rest ends, or to an eighth of its length. */
function correlationsToEnd(rest: Float64Array, slope: Float64Array) {
  const most = Math.floor(rest.length / 8);
  for (let lags = Math.min(firstLags, most); ; lags = Math.min(furtherLags * lags, most)) {
    const found = selfCorrelations(rest, slope, lags);
    if (lags === most || found[0].some((one) => one <= 0)) return found;
  }
}

/** The sums add up to zero at the peak, so one degree of freedom is lost. Variance 0 where fewer than two batches move. */
function varianceByBatches(slope: Float64Array, rest: Float64Array, curvature: Float64Array): number {
  const batches = Math.min(24, Math.floor(rest.length / 8));
  const [sums, shares] = [new Float64Array(batches), new Float64Array(batches)];
  for (let i = 0; i < rest.length; i++) {
    const batch = Math.floor((i * batches) / rest.length);
    sums[batch]! += rest[i]! * slope[i]!;
    shares[batch]! += Math.max(0, curvature[i]!);
  }
  const moving = sumOf(shares) ** 2 / sumOf(shares.map((share) => share * share));
  return moving >= 2 ? (sumOf(sums.map((sum) => sum * sum)) * moving) / (moving - 1) : 0;
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum;
}
