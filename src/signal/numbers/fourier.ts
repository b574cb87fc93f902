// Discrete Fourier transform of real signals, and what follows from it: correlation by multiplication.

import FFT from "fft.js";

/**
 * Smallest power of two that is at least `count`, and at least 2.
 *
 * @param count  any number below 2^53.
 */
export function powerOfTwo(count: number): number {
  let size = 2;
  while (size < count) size *= 2;
  return size;
}

/** A transform of one length; its tables are made once. */
export interface RealTransform {
  readonly size: number;
  /** Lower half of the spectrum of `signal` (zeros appended up to size): size / 2 + 1 complex pairs; see `realTransform`. */
  forward(signal: Float64Array): Float64Array;
}

/**
 * A transform of real signals of one length.
 *
 * @param size  a power of two, at least 2.
 * @returns a transform that owns its spectrum: the next call writes it over. What lies behind size / 2 + 1 pairs, whose
 *          mirror image the rest would be, is not filled in.
 * @throws Error for another size (fft.js).
 */
export function realTransform(size: number): RealTransform {
  const fft = new FFT(size);
  const padded = new Float64Array(size);
  const spectrum = new Float64Array(2 * size);
  return {
    size,
    forward(signal) {
      padded.fill(0);
      padded.set(signal.subarray(0, size));
      fft.realTransform(spectrum, padded);
      return spectrum;
    },
  };
}

/** A transform serves blocks of at least this many samples; blocks of this many lags waste a quarter on overlap. */
const leastBlock = 1 << 12;
const lagsPerBlock = 8;

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
  const wanted = Math.max(leastBlock, lagsPerBlock * most);
  const size = powerOfTwo(Math.min(wanted, a.length + 2 * most + 1));
  const length = size - 2 * most;
  const fft = new FFT(size);
  const [left, right, sums] = [new Float64Array(2 * size), new Float64Array(2 * size), new Float64Array(2 * size)];
  const padded = new Float64Array(size);
  const transform = (into: Float64Array, signal: Float64Array, from: number, to: number) => {
    padded.fill(0);
    padded.set(signal.subarray(Math.max(0, from), Math.min(signal.length, to)), Math.max(0, -from));
    fft.realTransform(into, padded);
  };
  for (let at = 0; at < a.length; at += length) {
    transform(left, a, at, at + length);
    transform(right, b, at - most, at + length + most);
    for (let k = 0; k <= size; k += 2) {
      const [ar, ai, br, bi] = [left[k]!, left[k + 1]!, right[k]!, right[k + 1]!];
      sums[k]! += ar * br + ai * bi;
      sums[k + 1]! += ar * bi - ai * br;
    }
  }
  fft.completeSpectrum(sums);
  fft.inverseTransform(right, sums);
  return Float64Array.from({ length: 2 * most + 1 }, (_, k) => right[2 * k]!);
}
