// Samples with their time base: what every function of this layer measures.

import type { Seconds } from "../numbers/units.ts";
import { longestStep } from "./gaps.ts";

/** Single precision only stores; arithmetic is always double. NaN is the only missing sample. */
export type Samples = Float64Array | Float32Array;

/**
 * How far a sample's true instant may lie from its stamp: within [stamp - early, stamp + late].
 * A value from a polled log may be up to one row older than its row's stamp (early = one row, late = 0);
 * rows that share a rounded stamp and were spread over its second may be off either way, each by itself. A row's delay is
 * alike for all samples of a channel and matters between channels alone; see `stampSlack` for the rest.
 */
export interface StampDoubt {
  readonly early: Seconds;
  readonly late: Seconds;
}

export type TimeBase =
  | {
      readonly kind: "even";
      readonly start: Seconds;
      readonly step: Seconds;
      readonly count: number;
      readonly doubt?: StampDoubt;
    }
  /** `stamps` never fall; equal stamps do not occur (readers spread or drop them, and say so). */
  | {
      readonly kind: "stamped";
      readonly stamps: Float64Array;
      readonly doubt?: StampDoubt;
      /** A longer step is a gap; where absent, `longestStep` finds it from the stamps. A part carries its whole's limit. */
      readonly gapAbove?: Seconds;
    };

export interface Series {
  readonly time: TimeBase;
  /** Same length as the time base. */
  readonly samples: Samples;
}

/** Samples that are read when they are wanted. */
export interface PagedSamples {
  readonly length: number;
  /** How many are best read at once. */
  readonly part: number;
  /** Samples [from, to); 0 <= from <= to <= length. Not changed later, by either side. */
  read(from: number, to: number): Samples;
}

/** Stamps that are read when they are wanted; what holds of a stamped time base holds of them. */
export interface PagedTime extends Omit<Extract<TimeBase, { kind: "stamped" }>, "kind" | "stamps"> {
  readonly kind: "paged";
  readonly count: number;
  /** Stamps [from, to). */
  read(from: number, to: number): Float64Array;
  /** Index of the first stamp at or after `t`; the number of stamps where there is none. */
  place(t: Seconds): number;
  /** A longer step is a gap. */
  readonly gapAbove: Seconds;
}

export type AnyTime = TimeBase | PagedTime;
export type AnySamples = Samples | PagedSamples;

export interface Reel {
  readonly time: Extract<TimeBase, { kind: "even" }> | PagedTime;
  readonly samples: PagedSamples;
}

/** In memory, or read part by part. */
export type AnySeries = Series | Reel;

/**
 * Time of sample `i`. No bounds check.
 *
 * @param i  0 … number of samples - 1.
 * @returns s.
 */
export function timeAt(time: AnyTime, i: number): Seconds {
  if (time.kind === "even") return time.start + i * time.step;
  return time.kind === "stamped" ? time.stamps[i]! : time.read(i, i + 1)[0]!;
}

/** Number of samples. */
export function countOf(time: AnyTime): number {
  return time.kind === "stamped" ? time.stamps.length : time.count;
}

/**
 * How much longer or shorter than their stamps say the time between two samples of one channel may be, s: stamps that were
 * spread over a coarser one are each off by themselves. 0 for all others.
 */
export function stampSlack({ doubt }: AnyTime): Seconds {
  return doubt?.late ?? 0;
}

/** Longest step that still joins two samples, s; a longer one is a gap. Infinity for even steps. */
export function gapLimit(time: AnyTime): Seconds {
  if (time.kind === "paged") return time.gapAbove;
  return time.kind === "even" ? Infinity : (time.gapAbove ?? longestStep(time.stamps));
}

/**
 * Index of the first sample at or after `t`; the number of samples when there is none.
 *
 * @param t  s; NaN counts as later than every sample.
 * Exact for stamps (binary search); for even steps to the rounding of start + i * step.
 */
export function indexAt(time: AnyTime, t: Seconds): number {
  if (time.kind === "paged") return time.place(t);
  const n = countOf(time);
  let low = 0;
  let high = n;
  if (time.kind === "even") {
    const guess = Math.ceil((t - time.start) / time.step);
    if (guess <= 0) return 0;
    if (!(guess < n)) low = n - 1;
    else [low, high] = [Math.max(0, guess - 1), Math.min(n, guess + 1)];
  }
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (timeAt(time, middle) >= t) high = middle;
    else low = middle + 1;
  }
  return Math.min(low, n);
}

/**
 * The samples from index `from` (included) to `to` (not included).
 *
 * @param from, to  whole; cut to what there is.
 * @returns a view: no sample is copied. The gap rule of the whole series stays in force in the part.
 */
export function slice(series: Series, from: number, to: number): Series {
  const { time, samples } = series;
  const first = Math.min(Math.max(from, 0), samples.length);
  const end = Math.min(Math.max(to, first), samples.length);
  const part = samples.subarray(first, end);
  if (time.kind === "even") {
    return { time: { ...time, start: timeAt(time, first), count: end - first }, samples: part };
  }
  const gapAbove = gapLimit(time);
  return { time: { ...time, stamps: time.stamps.subarray(first, end), gapAbove }, samples: part };
}
