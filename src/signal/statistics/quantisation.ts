// In which steps the values of a channel come.

import { inOrder } from "../numbers/sorting.ts";
import type { Volts } from "../numbers/units.ts";
import type { AnySamples } from "../series/series.ts";
import { finiteChunks } from "./chunks.ts";

/** Steps found so far: every measurement of one span asks for them, and samples are never changed. */
const stepsFound = new WeakMap<AnySamples, Volts>();

/**
 * Step of a quantised signal: the largest number of which all differences between values are multiples.
 *
 * @param samples  one unit; NaN is skipped.
 * @returns the step in that unit; 0 where none is found (two distinct values, or as good as continuous). Of a
 *   value that never changes its last digit counts, a tenth at most: within that a recorder shows no movement.
 */
export function quantisationOf(samples: AnySamples): Volts {
  return stepsFound.get(samples) ?? stepOf(samples, inOrder(finiteChunks(samples)));
}

/** The same of whoever has them in order already. @param values  the finite ones of the samples, in rising order. */
export function stepOf(samples: AnySamples, values: Float64Array): Volts {
  let step = stepsFound.get(samples);
  if (step === undefined) {
    step = findStep(values);
    stepsFound.set(samples, step);
  }
  return step;
}

function findStep(values: Float64Array): Volts {
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
  if (distinct === 1 && values.length > 1) return lastDigit(values[0]!, blur);
  return distinct < 3 || 2 * distinct > values.length + 2 ? 0 : step;
}

/** The coarsest of 0.1, 0.05, 0.02, 0.01, … that holds the value whole; 0 where it takes more digits than single precision has. */
function lastDigit(value: number, blur: number): number {
  for (let tenth = 1; tenth <= 6; tenth++) {
    for (const part of [1, 2, 5]) {
      const step = 1 / (part * 10 ** tenth);
      if (Math.abs(value - step * Math.round(value / step)) <= Math.max(blur, 1e-9)) return step;
    }
  }
  return 0;
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
