// Samples with their time base: what every function of this layer measures.

import type { Seconds } from "./units.ts";

/** Single precision only stores; arithmetic is always double. NaN is the only missing sample. */
export type Samples = Float64Array | Float32Array;

/**
 * How far a sample's true instant may lie from its stamp: within [stamp - early, stamp + late].
 * A value from a polled log may be up to one row older than its row's stamp (early = one row, late = 0);
 * stamps rounded to whole seconds may be off either way. It matters between channels, not within one.
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
  | { readonly kind: "stamped"; readonly stamps: Float64Array; readonly doubt?: StampDoubt };

export interface Series {
  readonly time: TimeBase;
  /** Same length as the time base. */
  readonly samples: Samples;
}

/** Time of sample `i`. No bounds check. */
export function timeAt(time: TimeBase, i: number): Seconds {
  return time.kind === "even" ? time.start + i * time.step : time.stamps[i]!;
}

/** Number of samples. */
export function countOf(time: TimeBase): number {
  return time.kind === "even" ? time.count : time.stamps.length;
}
