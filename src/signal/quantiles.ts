// Percentiles of many samples without putting them all in order.

import { extremesOf } from "./extremes.ts";
import type { Samples } from "./series.ts";

/** Value below which a share (0 … 1) of the samples lies; see `percentiles` for the definition. */
export type Quantiles = (share: number) => number;

/** Up to here sorting is quicker. */
const fewSamples = 1 << 16;

const classes = 1 << 16;

/**
 * Percentiles of the finite samples; NaN of none.
 *
 * @param samples  any length, one unit; NaN and infinite ones are skipped.
 * @returns how many are finite, and the value at a share; shares outside 0 … 1 are taken as the nearer end.
 *
 * Exact: many samples are counted into classes between their extremes, and only those of the wanted class are put in
 * order. One pass to count, one for each share asked for.
 */
export function quantilesOf(samples: Samples): { readonly count: number; readonly at: Quantiles } {
  const { count, order } = orderOf(samples);
  const at = (share: number) => {
    if (count === 0) return NaN;
    const place = Math.min(Math.max(share, 0), 1) * (count - 1);
    const below = Math.floor(place);
    const value = order(below);
    return place === below ? value : value + (place - below) * (order(below + 1) - value);
  };
  return { count, at };
}

interface Order {
  /** Finite samples. */
  readonly count: number;
  /** The k-th smallest of them, 0 <= k < count. */
  readonly order: (k: number) => number;
}

function orderOf(samples: Samples): Order {
  if (samples.length > fewSamples) {
    const [low, high] = extremesOf(samples);
    if (high > low) return classesOf(samples, low, high);
  }
  const sorted = new Float64Array(samples).filter((v) => Math.abs(v) < Infinity).sort();
  return { count: sorted.length, order: (k) => sorted[k]! };
}

/** Counted into classes. Those looked into are kept: neighbours, and the same shares, are asked for again. */
function classesOf(samples: Samples, low: number, high: number): Order {
  const scale = (classes - 1) / (high - low);
  const counts = new Uint32Array(classes);
  for (let i = 0; i < samples.length; i++) {
    const v = samples[i]!;
    if (v >= low && v <= high) counts[((v - low) * scale) | 0]!++;
  }
  const kept = new Map<number, Float64Array>();
  const order = (k: number) => {
    let index = 0;
    let before = 0;
    while (before + counts[index]! <= k) before += counts[index++]!;
    let values = kept.get(index);
    if (values === undefined) {
      values = inClass(samples, [low, high, scale], { index, count: counts[index]! });
      kept.set(index, values);
    }
    return values[k - before]!;
  };
  return { count: counts.reduce((sum, own) => sum + own, 0), order };
}

function inClass(
  samples: Samples,
  [low, high, scale]: readonly [number, number, number],
  { index, count }: { readonly index: number; readonly count: number },
): Float64Array<ArrayBuffer> {
  const values = new Float64Array(count);
  // Half a class of room on either side: only what lies near is put into its class exactly as when it was counted.
  const [from, to] = [Math.max(low, low + (index - 0.5) / scale), Math.min(high, low + (index + 1.5) / scale)];
  let found = 0;
  for (let i = 0; i < samples.length && found < count; i++) {
    const v = samples[i]!;
    if (v >= from && v <= to && (((v - low) * scale) | 0) === index) values[found++] = v;
  }
  return values.sort();
}
