// A measured number that never lies: best estimate, bounds, unit, grade, and why it is no better.

/** "1" stands for ratios, counts and lambda. */
export type Unit =
  | "s"
  | "Hz"
  | "samples/s"
  | "V"
  | "g"
  | "g/l"
  | "g/s"
  | "%"
  | "1/min"
  | "km/h"
  | "degC"
  | "kPa"
  | "mA"
  | "1";

export type Grade = "measured" | "at-least" | "at-most" | "not-resolvable";

export interface Reading {
  /** Best estimate, in `unit`; null when not resolvable. */
  readonly value: number | null;
  /** Bounds that hold the truth in at least 95 % of cases; null is open on that side. */
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: Unit;
  readonly grade: Grade;
  /** Why it is bounded or not resolvable, and what would resolve it. */
  readonly because?: string;
  /** How many events stand behind it. */
  readonly count?: number;
}

/** What may stand beside the numbers of a reading. */
export interface Remarks {
  readonly because?: string;
  readonly count?: number;
}

/**
 * A number with two bounds around it.
 *
 * @throws RangeError unless low <= value <= high, all finite (a caller's bug).
 */
export function measured(
  value: number,
  bounds: readonly [low: number, high: number],
  unit: Unit,
  remarks: Remarks = {},
): Reading {
  const [low, high] = bounds;
  if (!(low <= value && value <= high) || !Number.isFinite(high - low)) {
    throw new RangeError(`want low <= value <= high, all finite, got ${low}, ${value}, ${high}`);
  }
  return { value, low, high, unit, grade: "measured", ...remarks };
}

/**
 * The truth is `low` or more; nothing is known of how much more.
 *
 * @param low  finite, in `unit`.
 */
export function atLeast(low: number, unit: Unit, remarks: Remarks = {}): Reading {
  return { value: low, low, high: null, unit, grade: "at-least", ...remarks };
}

/**
 * The truth is `high` or less. `low` is 0 where the quantity cannot be negative, else null.
 *
 * @param high  finite, in `unit`.
 */
export function atMost(high: number, unit: Unit, remarks: Remarks & { readonly low?: 0 | null } = {}): Reading {
  const { low = 0, ...rest } = remarks;
  return { value: high, low, high, unit, grade: "at-most", ...rest };
}

/**
 * The sampling cannot support a number; says why, and what would. Bounds are kept where known.
 *
 * @param because  one sentence: why, and what to do. @param known  bounds in `unit`; null is open.
 */
export function notResolvable(
  unit: Unit,
  because: string,
  known: { readonly low?: number | null; readonly high?: number | null; readonly count?: number } = {},
): Reading {
  const { low = null, high = null, count } = known;
  return { value: null, low, high, unit, grade: "not-resolvable", because, ...(count === undefined ? {} : { count }) };
}
