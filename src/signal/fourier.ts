// Discrete Fourier transform of real signals, and what follows from it: correlation by multiplication.

import FFT from "fft.js";

/** Smallest power of two that is at least `count`, and at least 2. */
export function powerOfTwo(count: number): number {
  let size = 2;
  while (size < count) size *= 2;
  return size;
}

/** A transform of one length; its tables are made once. */
export interface RealTransform {
  readonly size: number;
  /** Spectrum of `signal` (zeros appended up to size): size interleaved complex pairs, written over at the next call. */
  forward(signal: Float64Array): Float64Array;
}

/** @param size a power of two, at least 2. */
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
      fft.completeSpectrum(spectrum);
      return spectrum;
    },
  };
}

/**
 * Sums of products of two signals at every lag.
 *
 * @param a, b  same length n, finite.
 * @returns length 2 * most + 1: entry most + k holds the sum over i of a[i] * b[i + k].
 */
export function correlate(a: Float64Array, b: Float64Array, most: number): Float64Array<ArrayBuffer> {
  const size = powerOfTwo(a.length + most + 1);
  const fft = new FFT(size);
  const padded = new Float64Array(size);
  const [left, right] = [new Float64Array(2 * size), new Float64Array(2 * size)];
  padded.set(a);
  fft.realTransform(left, padded);
  fft.completeSpectrum(left);
  padded.fill(0);
  padded.set(b);
  fft.realTransform(right, padded);
  fft.completeSpectrum(right);
  for (let k = 0; k < 2 * size; k += 2) {
    const [ar, ai, br, bi] = [left[k]!, left[k + 1]!, right[k]!, right[k + 1]!];
    left[k] = ar * br + ai * bi;
    left[k + 1] = ar * bi - ai * br;
  }
  fft.inverseTransform(right, left);
  const found = new Float64Array(2 * most + 1);
  for (let k = -most; k <= most; k++) found[most + k] = right[2 * ((k + size) % size)]!;
  return found;
}
