// Power against frequency: Welch's method for even steps, Lomb and Scargle's for stamps, and the frequency that dominates.

import { vertex } from "../likeness/correlation-peak.ts";
import { powerOfTwo, realTransform } from "../numbers/fourier.ts";
import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import type { Hertz, Seconds } from "../numbers/units.ts";
import { runsOf } from "../series/runs.ts";
import { type Samples, type Series, slice, timeAt } from "../series/series.ts";
import { sumOf } from "../series/sums.ts";
import { usualStep } from "../series/usual-step.ts";

export interface Spectrum {
  readonly frequencies: Float64Array;
  /** One-sided density, unit² / Hz. */
  readonly power: Float64Array;
}

/**
 * Power spectral density by Welch's method.
 *
 * @param samples  evenly spaced, `step` s apart. Segments that meet a NaN are left out.
 * @param segment  samples per segment, a power of two; segments overlap by half, are freed of their mean and weighted by
 *                 a periodic Hann window (equivalent noise bandwidth 1.5 / (segment * step)).
 * @returns power NaN where no whole segment is free of NaN.
 *
 * Source: P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70; F. J. Harris, Proc. IEEE 66 (1978) 51.
 */
export function welch(samples: Samples, step: Seconds, segment: number): Spectrum {
  const transform = realTransform(segment);
  const window = hann(segment);
  const power = new Float64Array(segment / 2 + 1);
  const part = new Float64Array(segment);
  let count = 0;
  for (let from = 0; from + segment <= samples.length; from += segment / 2) {
    const mean = sumOf(samples, from, from + segment) / segment;
    if (!Number.isFinite(mean)) continue;
    for (let i = 0; i < segment; i++) part[i] = window[i]! * (samples[from + i]! - mean);
    const spectrum = transform.forward(part);
    for (let k = 0; k < power.length; k++) power[k]! += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
    count++;
  }
  const squares = window.reduce((sum, w) => sum + w * w, 0);
  const scale = count === 0 ? NaN : step / (squares * count);
  return {
    frequencies: power.map((_, k) => k / (segment * step)),
    power: power.map((p, k) => p * scale * (k === 0 || k === segment / 2 ? 1 : 2)),
  };
}

/**
 * Periodic Hann window: 0.5 - 0.5 cos(2 pi i / n).
 *
 * @param n  whole number >= 1.
 * @returns new array, length n.
 */
export function hann(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n));
}

/**
 * Lomb-Scargle periodogram: power of the best sine at each frequency, for samples at any stamps.
 *
 * @param times, values  same length, finite; values freed of their mean by the caller.
 * @returns per frequency half the sum of squares that the sine explains (Scargle's unnormalised form).
 *
 * Source: N. R. Lomb, Astrophys. Space Sci. 39 (1976) 447; J. D. Scargle, Astrophys. J. 263 (1982) 835.
 */
export function lombScargle(times: Float64Array, values: Float64Array, frequencies: Float64Array): Float64Array {
  return frequencies.map((frequency) => {
    const omega = 2 * Math.PI * frequency;
    let [yc, ys, cc, cs] = [0, 0, 0, 0];
    for (let i = 0; i < times.length; i++) {
      const [c, s] = [Math.cos(omega * times[i]!), Math.sin(omega * times[i]!)];
      yc += values[i]! * c;
      ys += values[i]! * s;
      cc += c * c;
      cs += c * s;
    }
    const ss = times.length - cc;
    const shift = Math.atan2(2 * cs, cc - ss) / 2;
    const [c, s] = [Math.cos(shift), Math.sin(shift)];
    const cosine = c * c * cc + 2 * c * s * cs + s * s * ss;
    const sine = c * c * ss - 2 * c * s * cs + s * s * cc;
    const explained = (part: number, norm: number) => (norm > 1e-12 * times.length ? part ** 2 / norm : 0);
    return 0.5 * (explained(c * yc + s * ys, cosine) + explained(c * ys - s * yc, sine));
  });
}

/**
 * Goertzel's coefficient 2 cos(2 pi f step): the recursion s = x + coefficient s' - s'' filters out one frequency.
 *
 * @param frequency  Hz. @param step  s between samples.
 * @returns -2 … 2.
 *
 * Source: G. Goertzel, Amer. Math. Monthly 65 (1958) 34.
 */
export function goertzelCoefficient(frequency: Hertz, step: Seconds): number {
  return 2 * Math.cos(2 * Math.PI * frequency * step);
}

/**
 * What a frequency looks like once sampled: |f - rate * round(f / rate)|.
 *
 * @param frequency  Hz. @param rate  samples per second, > 0.
 * @returns 0 … rate / 2.
 */
export function aliasOf(frequency: Hertz, rate: Hertz): Hertz {
  return Math.abs(frequency - rate * Math.round(frequency / rate));
}

export interface DominantFrequency {
  readonly frequency: Reading;
  /** Share of the variance that the peak explains, 0 … 1. */
  readonly share: number;
  /** Set where the steps are even and slow enough that a faster swing would look the same: the lowest such, Hz. */
  readonly mayBeAliasOf: Hertz | null;
}

/** A sine sampled this many times a cycle or more is taken for what it looks like. Common practice. */
const plainPerCycle = 10;

/** Most frequencies times samples that the slow method for stamps may take. */
const mostWork = 4e7;

/**
 * The strongest frequency of the longest gap-free run.
 *
 * @param series  any length, one unit; read only. NaN and gaps end a run.
 * @returns bounds where the peak has fallen to half its height: they hold the frequency of a steady swing, and cover the
 *          band of an unsteady one. `not-resolvable` below two cycles or 16 samples, or where no peak stands out: the
 *          highest of n noise peaks, each exponentially distributed with a mean share of 3 / n (Hann window, 1.5 bins), passes
 *          (3 / n) ln(1000 n) once in a thousand spectra.
 */
export function dominantFrequency(series: Series): DominantFrequency {
  const run = longestRun(series);
  const step = usualStep(run.time);
  const n = run.samples.length;
  if (n < 16) return none("fewer than 16 samples hang together", n);
  const length = timeAt(run.time, n - 1) - timeAt(run.time, 0);
  const spectrum = run.time.kind === "even" ? periodogram(run.samples, step) : stampedPeriodogram(run, length);
  if (spectrum === null) return none("the channel does not move", n);
  const { frequencies, power, total } = spectrum;
  let peak = 1;
  for (let k = 2; k < power.length - 1; k++) if (power[k]! > power[peak]!) peak = k;
  const share = Math.min(1, power[peak]! / total);
  const value = frequencies[peak]! + vertex(power, peak) * (frequencies[1]! - frequencies[0]!);
  if (value * length < 2) return none("less than two cycles in this span", n);
  if (share < (3 / n) * Math.log(1000 * n)) return none("no frequency stands out of the noise", n);
  const [low, high] = halfHeight(frequencies, power, peak);
  const isEven = run.time.kind === "even";
  const mayBeAliasOf = isEven && value * step * plainPerCycle > 1 ? 1 / step - value : null;
  const remark =
    mayBeAliasOf === null ? {} : { because: `a swing of ${mayBeAliasOf.toPrecision(3)} Hz would look the same` };
  const reading = measured(value, [Math.min(low, value), Math.max(high, value)], "Hz", { count: n, ...remark });
  return { frequency: reading, share, mayBeAliasOf };
}

function none(because: string, count: number): DominantFrequency {
  return { frequency: notResolvable("Hz", because, { count }), share: 0, mayBeAliasOf: null };
}

function longestRun(series: Series): Series {
  const runs = runsOf(series);
  let best = 0;
  for (let r = 2; r < runs.length; r += 2) if (runs[r + 1]! - runs[r]! > runs[best + 1]! - runs[best]!) best = r;
  return slice(series, runs[best] ?? 0, runs[best + 1] ?? 0);
}

interface Periodogram extends Spectrum {
  /** What the power of a sine that explains everything would be. */
  readonly total: number;
}

/** Hann-weighted spectrum of the whole, four times as fine as its resolution; at most 2^20 samples are taken. */
function periodogram(samples: Samples, step: Seconds): Periodogram | null {
  const n = Math.min(samples.length, 1 << 20);
  const window = hann(n);
  const values = Float64Array.from(samples.subarray(0, n));
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  const weighted = values.map((v, i) => (v - mean) * window[i]!);
  const squares = weighted.reduce((sum, v) => sum + v * v, 0);
  if (!(squares > 1e-20 * n * mean * mean)) return null;
  const size = 4 * powerOfTwo(n);
  const spectrum = realTransform(size).forward(weighted);
  const power = new Float64Array(size / 2).map((_, k) => spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2);
  const sum = window.reduce((total, w) => total + w, 0);
  const energy = window.reduce((total, w) => total + w * w, 0);
  return { frequencies: power.map((_, k) => k / (size * step)), power, total: (squares * sum ** 2) / (2 * energy) };
}

function stampedPeriodogram({ samples, time }: Series, length: Seconds): Periodogram | null {
  const n = samples.length;
  const times = Float64Array.from({ length: n }, (_, i) => timeAt(time, i) - timeAt(time, 0));
  const raw = Float64Array.from(samples);
  const mean = raw.reduce((sum, v) => sum + v, 0) / n;
  const values = raw.map((v) => v - mean);
  const squares = values.reduce((sum, v) => sum + v * v, 0);
  if (!(squares > 1e-20 * n * mean * mean)) return null;
  const finest = 1 / (4 * length);
  const count = Math.max(8, Math.min(Math.floor(n * 2), Math.floor(mostWork / n)));
  const frequencies = Float64Array.from({ length: count }, (_, k) => (k + 1) * finest);
  return { frequencies, power: lombScargle(times, values, frequencies), total: squares / 2 };
}

function halfHeight(frequencies: Float64Array, power: Float64Array, peak: number): [low: Hertz, high: Hertz] {
  const half = power[peak]! / 2;
  let low = peak;
  while (low > 0 && power[low]! > half) low--;
  let high = peak;
  while (high < power.length - 1 && power[high]! > half) high++;
  return [frequencies[low]!, frequencies[high]!];
}
