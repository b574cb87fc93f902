// Percentiles of many samples without putting them all in order.

import { onceOf } from "../series/once.ts";
import { batchesOf, samplesOver } from "../series/reel.ts";
import type { AnySamples, Samples } from "../series/series.ts";
import { extremesOf } from "./extremes.ts";

/** Value below which a share (0 … 1) of the samples lies; see `percentiles` for the definition. */
export type Quantiles = (share: number) => number;

/** Up to here sorting is quicker. */
const fewSamples = 1 << 10;

/** About as many classes as samples, within bounds: each is looked through for every share, and those of many samples stay small. */
const classesFor = (count: number): number => (count > 1 << 16 ? 1 << 16 : 1 << 12);

/**
 * Percentiles of the finite samples; NaN of none.
 *
 * @param samples  any length, one unit; NaN and infinite ones are skipped.
 * @returns how many are finite, and the value at a share; shares outside 0 … 1 are taken as the nearer end.
 *
 * Exact: many samples are counted into classes between their extremes, and only those of the wanted class are put in
 * order, or counted into classes again where they are many. One pass to count, one for each share asked for.
 */
export const quantilesOf = onceOf((samples: AnySamples): { readonly count: number; readonly at: Quantiles } => {
  const { count, order } = orderOf(samples);
  const at = (share: number) => {
    if (count === 0) return NaN;
    const place = Math.min(Math.max(share, 0), 1) * (count - 1);
    const below = Math.floor(place);
    const value = order(below);
    return place === below ? value : value + (place - below) * (order(below + 1) - value);
  };
  return { count, at };
});

interface Order {
  /** Finite samples. */
  readonly count: number;
  /** The k-th smallest of them, 0 <= k < count. */
  readonly order: (k: number) => number;
}

function orderOf(samples: AnySamples): Order {
  if (samples.length > fewSamples) {
    const [low, high] = extremesOf(samples);
    if (high > low) return classesOf(samples, low, high);
  }
  const sorted = new Float64Array(samplesOver(samples, 0, samples.length)).filter((v) => Math.abs(v) < Infinity).sort();
  return { count: sorted.length, order: (k) => sorted[k]! };
}

/** A class of more samples is counted into classes of its own: room for 2 MB. */
const manySamples = 1 << 18;

/** Those from low to high, counted into classes. Those looked into are kept: neighbours, and the same shares, are asked for again. */
function classesOf(samples: AnySamples, low: number, high: number): Order {
  const classes = classesFor(samples.length);
  const bounds = { low, high, scale: (classes - 1) / (high - low) };
  const tally = { counts: new Uint32Array(classes), values: new Float64Array(classes), mixed: new Uint8Array(classes) };
  for (const batch of batchesOf(samples)) count(batch, bounds, tally);
  const { counts, values, mixed } = tally;
  const kept = new Map<number, Order>();
  const order = (k: number) => {
    let index = 0;
    let before = 0;
    while (before + counts[index]! <= k) before += counts[index++]!;
    if (mixed[index] === 0) return values[index]!;
    let own = kept.get(index);
    if (own === undefined) {
      own = inClass(samples, bounds, { index, count: counts[index]! });
      kept.set(index, own);
    }
    return own.order(k - before);
  };
  return { count: counts.reduce((sum, own) => sum + own, 0), order };
}

interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly scale: number;
}

/** How many samples lie in each class, one of their values, and whether there are others: values in steps have none. */
interface Tally {
  readonly counts: Uint32Array;
  readonly values: Float64Array;
  readonly mixed: Uint8Array;
}

function count(samples: Samples, { low, high, scale }: Bounds, { counts, values, mixed }: Tally): void {
  for (let i = 0; i < samples.length; i++) {
    const v = samples[i]!;
    if (!(v >= low && v <= high)) continue;
    const index = ((v - low) * scale) | 0;
    if (counts[index]!++ === 0) values[index] = v;
    else if (values[index] !== v) mixed[index] = 1;
  }
}

function inClass(
  samples: AnySamples,
  { low, high, scale }: Bounds,
  { index, count }: { readonly index: number; readonly count: number },
): Order {
  const values = new Float64Array(Math.min(count, manySamples));
  // Half a class of room on either side: only what lies near is put into its class exactly as when it was counted.
  const [from, to] = [Math.max(low, low + (index - 0.5) / scale), Math.min(high, low + (index + 1.5) / scale)];
  let found = 0;
  let lowest = Infinity;
  let highest = -Infinity;
  for (const batch of batchesOf(samples)) {
    for (let i = 0; i < batch.length && found < count; i++) {
      const v = batch[i]!;
      if (!(v >= from && v <= to && (((v - low) * scale) | 0) === index)) continue;
      if (found < values.length) values[found] = v;
      found++;
      if (v < lowest) lowest = v;
      if (v > highest) highest = v;
    }
    if (found === count) break;
  }
  if (lowest === highest) return { count, order: () => lowest };
  // What lies between two of a class belongs to it: the rule that counts never falls.
  if (count > manySamples) return classesOf(samples, lowest, highest);
  values.sort();
  return { count, order: (k) => values[k]! };
}
