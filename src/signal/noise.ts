// How much of a channel is noise, and in which steps its values come.

import type { Samples } from "./series.ts";
import type { Volts } from "./units.ts";

/** Enough to know sigma to 1 %; more samples are looked at in evenly spread chunks. */
const most = 1 << 16;
const chunk = 1 << 10;

/** Lower quantiles of |z| for a standard normal z, from tables of the normal distribution. */
const shares = [0.2, 0.3, 0.4, 0.5];
const normal = [0.25335, 0.38532, 0.5244, 0.67449];

/**
 * Standard deviation of the white noise on a signal.
 *
 * @param samples  any length, one unit. NaN is skipped, and nothing is taken across it.
 * @returns sigma in that unit, without the part that quantisation adds; 0 where none can be told from the signal
 *          (fewer than 12 neighbouring triples, or samples so far apart that the signal itself jumps between them).
 *
 * From second differences, whose variance is 6 sigma²: a straight slope cancels. Movement and edges only ever make some
 * differences larger, so sigma is the least that the lower quantiles of their size allow: a square wave and
 * transitions leave those alone. Quantised values are spread over their step first, and step²/12 is taken off after
 * (Sheppard's correction). Scatter as large as a swing that is not bell-shaped is a signal sampled too coarsely, not noise.
 */
export function noiseOf(samples: Samples): number {
  const differences = secondDifferences(samples);
  if (differences.length < 12) return 0;
  const step = quantisationOf(samples);
  const sigma = Math.sqrt(Math.max(0, spreadOf(differences, step) ** 2 - step ** 2 / 12));
  return swingsAlike(samples, sigma) ? 0 : sigma;
}

/**
 * Step of a quantised signal: the largest number of which all differences between values are multiples.
 *
 * @param samples  one unit; NaN is skipped.
 * @returns the step in that unit; 0 where none is found (fewer than 3 distinct values, or as good as continuous).
 */
export function quantisationOf(samples: Samples): Volts {
  const values = finiteChunks(samples).sort();
  const range = values.length === 0 ? 0 : values[values.length - 1]! - values[0]!;
  const scale = Math.max(Math.abs(values[0] ?? 0), Math.abs(values[values.length - 1] ?? 0));
  // Single precision holds 7 digits; anything finer is rounding.
  const blur = 4e-7 * scale;
  let step = 0;
  let distinct = 1;
  for (let i = 1; i < values.length; i++) {
    const difference = values[i]! - values[i - 1]!;
    if (difference <= blur) continue;
    distinct++;
    step = commonStep(step, difference, Math.max(2 * blur, 0.02 * step));
    if (step < 20 * blur || step < 1e-5 * range) return 0;
  }
  return distinct < 3 || 2 * distinct > values.length + 2 ? 0 : step;
}

/** Euclid's rule on two lengths, either of which may be off by `blur`. */
function commonStep(a: number, b: number, blur: number): number {
  let [large, small] = a > b ? [a, b] : [b, a];
  while (small > blur) {
    const rest = large - small * Math.round(large / small);
    [large, small] = [small, Math.abs(rest)];
  }
  return large;
}

function secondDifferences(samples: Samples): Float64Array {
  const found = new Float64Array(Math.min(samples.length, most));
  let count = 0;
  eachChunk(samples.length, (from, to) => {
    for (let i = from + 1; i < to - 1 && count < found.length; i++) {
      const d = Math.abs(samples[i - 1]! - 2 * samples[i]! + samples[i + 1]!);
      if (d < Infinity) found[count++] = d;
    }
  });
  return found.subarray(0, count);
}

/** Sigma from the sizes of second differences: the least over several lower quantiles. Sorts in place. */
function spreadOf(differences: Float64Array, step: number): number {
  if (step > 0) spreadSteps(differences, step);
  differences.sort();
  let least = Infinity;
  for (let k = 0; k < shares.length; k++) {
    const at = differences[Math.floor(shares[k]! * differences.length)]!;
    least = Math.min(least, at / (normal[k]! * Math.sqrt(6)));
  }
  return least;
}

/** Spreads differences that are whole steps evenly over the step each stands for, by the golden ratio's sequence. */
function spreadSteps(differences: Float64Array, step: number): void {
  for (let i = 0; i < differences.length; i++) {
    const part = (i * 0.6180339887498949) % 1;
    differences[i] = Math.abs(differences[i]! + (part - 0.5) * step);
  }
}

/**
 * Whether supposed noise is the signal itself, sampled too coarsely: as large as a tenth of the swing, and flat or
 * two-humped where noise is bell-shaped. (p95 - p5) / (p75 - p25) is 2.44 for a normal distribution, 1.8 for a uniform
 * one, 1.4 for a sine, 1 for two states.
 */
function swingsAlike(samples: Samples, sigma: number): boolean {
  const values = finiteChunks(samples).sort();
  const at = (share: number) => values[Math.floor(share * (values.length - 1))]!;
  const swing = at(0.95) - at(0.05);
  return sigma > 0.1 * swing && swing < 2.1 * (at(0.75) - at(0.25));
}

function finiteChunks(samples: Samples): Float64Array {
  const found = new Float64Array(Math.min(samples.length, most));
  let count = 0;
  eachChunk(samples.length, (from, to) => {
    for (let i = from; i < to && count < found.length; i++) {
      if (Math.abs(samples[i]!) < Infinity) found[count++] = samples[i]!;
    }
  });
  return found.subarray(0, count);
}

/** The whole, or evenly spread chunks that together hold as many samples as are looked at. */
function eachChunk(length: number, visit: (from: number, to: number) => void): void {
  if (length <= most) {
    visit(0, length);
    return;
  }
  const chunks = most / chunk;
  for (let k = 0; k < chunks; k++) {
    const from = Math.floor((k * (length - chunk)) / (chunks - 1));
    visit(from, from + chunk);
  }
}
