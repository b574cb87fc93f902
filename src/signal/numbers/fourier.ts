// Discrete Fourier transform of real signals, and what follows from it: correlation by multiplication.

import FFT from "fft.js";

/**
 * Smallest power of two that is at least `count`, and at least 2.
 *
 * @param count  any number below 2^53.
 */
function powerOfTwo(count: number): number {
  let size = 2;
  while (size < count) size *= 2;
  return size;
}

/** A transform serves blocks of at least this many samples; blocks of this many lags waste a quarter on overlap. */
const leastBlock = 1 << 12;
const lagsPerBlock = 8;

/** What transforms of one length need: tables, and room that every use writes over. */
interface Workshop {
  readonly fft: FFT;
  readonly size: number;
  /** Complex, `size` pairs each. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly sums: Float64Array;
  readonly padded: Float64Array;
}

/** Making the tables takes longer than a transform: those of so many lengths up to this one are kept, 5 MB each at most. */
const keptLengths = 4;
const longestKept = 1 << 16;
const kept = new Map<number, Workshop>();

function workshopFor(size: number): Workshop {
  const known = kept.get(size);
  if (known) return known;
  const room = () => new Float64Array(2 * size);
  const made = { fft: new FFT(size), size, left: room(), right: room(), sums: room(), padded: room() };
  if (size > longestKept) return made;
  if (kept.size >= keptLengths) kept.delete(kept.keys().next().value!);
  kept.set(size, made);
  return made;
}

/** Length of the transforms for lags to `reach` in all, of n samples. */
const transformSize = (n: number, most: number, reach: number): number =>
  powerOfTwo(Math.min(Math.max(leastBlock, lagsPerBlock * most), n + reach + 1));

/**
 * Sums of products of two signals at every lag.
 *
 * @param a, b  same length n, finite.
 * @returns length 2 * most + 1: entry most + k holds the sum over i of a[i] * b[i + k].
 *
 * Each block of `a` is taken against the part of `b` that reaches `most` further on either side (overlap-save), and the
 * products of their spectra are summed: one inverse in all, and memory that does not grow with n.
 */
export function correlate(a: Float64Array, b: Float64Array, most: number): Float64Array<ArrayBuffer> {
  const { fft, size, left, right, sums, padded } = workshopFor(transformSize(a.length, most, 2 * most));
  const length = size - 2 * most;
  const real = padded.subarray(0, size);
  const transform = (into: Float64Array, signal: Float64Array, from: number, to: number) => {
    real.fill(0);
    real.set(signal.subarray(Math.max(0, from), Math.min(signal.length, to)), Math.max(0, -from));
    fft.realTransform(into, real);
  };
  sums.fill(0);
  for (let at = 0; at < a.length; at += length) {
    transform(left, a, at, at + length);
    transform(right, b, at - most, at + length + most);
    for (let k = 0; k <= size; k += 2) {
      const ar = left[k]!;
      const ai = left[k + 1]!;
      const br = right[k]!;
      const bi = right[k + 1]!;
      sums[k]! += ar * br + ai * bi;
      sums[k + 1]! += ar * bi - ai * br;
    }
  }
  fft.completeSpectrum(sums);
  fft.inverseTransform(right, sums);
  const found = new Float64Array(2 * most + 1);
  for (let k = 0; k < found.length; k++) found[k] = right[2 * k]!;
  return found;
}

/**
 * Sums of products of each of two signals with itself, at lags 0 … most.
 *
 * @param a, b  same length n, finite.
 * @returns one array of length most + 1 for each.
 *
 * As `correlate`; one complex transform serves both, `a` as the real part and `b` as the imaginary one.
 */
export function selfCorrelations(
  a: Float64Array,
  b: Float64Array,
  most: number,
): readonly [ofA: Float64Array, ofB: Float64Array] {
  const { fft, size, left, right, sums, padded } = workshopFor(transformSize(a.length, most, most));
  const length = size - most;
  const transform = (into: Float64Array, from: number, to: number) => {
    padded.fill(0);
    for (let i = from; i < Math.min(to, a.length); i++) {
      padded[2 * (i - from)] = a[i]!;
      padded[2 * (i - from) + 1] = b[i]!;
    }
    fft.transform(into, padded);
  };
  sums.fill(0);
  for (let at = 0; at < a.length; at += length) {
    transform(left, at, at + length);
    transform(right, at, at + size);
    addProducts(left, right, sums);
  }
  fft.inverseTransform(right, sums);
  const [ofA, ofB] = [new Float64Array(most + 1), new Float64Array(most + 1)];
  for (let k = 0; k <= most; k++) {
    ofA[k] = right[2 * k]!;
    ofB[k] = right[2 * k + 1]!;
  }
  return [ofA, ofB];
}

/**
 * Adds conj(A) A' + i conj(B) B' to the sums, from the spectra of A + i B and A' + i B': of real signals, so that A is half
 * of what a place and the conjugate of its mirror image add up to, and i B half of their difference.
 */
function addProducts(left: Float64Array, right: Float64Array, sums: Float64Array): void {
  const n = left.length;
  for (let k = 0; k < n; k += 2) {
    const m = k === 0 ? 0 : n - k;
    const ar = (left[k]! + left[m]!) / 2;
    const ai = (left[k + 1]! - left[m + 1]!) / 2;
    const br = (left[k + 1]! + left[m + 1]!) / 2;
    const bi = (left[m]! - left[k]!) / 2;
    const cr = (right[k]! + right[m]!) / 2;
    const ci = (right[k + 1]! - right[m + 1]!) / 2;
    const dr = (right[k + 1]! + right[m + 1]!) / 2;
    const di = (right[m]! - right[k]!) / 2;
    sums[k]! += ar * cr + ai * ci - (br * di - bi * dr);
    sums[k + 1]! += ar * ci - ai * cr + (br * dr + bi * di);
  }
}
