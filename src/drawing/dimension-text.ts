// What a dimension says: its value, then bounds and label; a time also as the frequency it would repeat at.

import type { Reading } from "../signal/numbers/reading.ts";
import { formatReading } from "../signal/written/reading-text.ts";

/** One or two lines: "0.05 s" and "0.04 … 0.06, front to rear". */
export function dimensionTexts(reading: Reading, label: string): readonly string[] {
  const { value, bounds } = formatReading(reading);
  const notes = [bounds, label].filter((text) => text !== "").join(", ");
  return notes === "" ? [value] : [value, notes];
}

/**
 * The frequency of something that repeats once in a time, with its bounds; a time of unknown sign, or one that may be
 * zero, has no upper bound. Order of the ends does not matter: a negative time counts as its size.
 *
 * @param time reading in s; any other unit is handed back as it is.
 */
export function asFrequency(time: Reading): Reading {
  if (time.unit !== "s") return time;
  const { value, low, high } = (time.value ?? time.high ?? 0) < 0 ? turned(time) : time;
  const inverse = (bound: number | null) => (bound === null || !(bound > 0) ? null : 1 / bound);
  const least = high === null ? 0 : inverse(high);
  const most = inverse(low);
  const frequency = value === null ? null : inverse(value);
  const rest = { unit: "Hz", ...(time.because === undefined ? {} : { because: time.because }) } as const;
  if (frequency === null || least === null)
    return { ...rest, value: null, low: least, high: most, grade: "not-resolvable" };
  if (time.grade === "at-least") return { ...rest, value: frequency, low: 0, high: frequency, grade: "at-most" };
  if (most === null) return { ...rest, value: least, low: least, high: null, grade: "at-least" };
  return { ...rest, value: frequency, low: least, high: most, grade: "measured" };
}

function turned({ value, low, high }: Reading): Pick<Reading, "value" | "low" | "high"> {
  const minus = (number: number | null) => (number === null ? null : -number);
  return { value: minus(value), low: minus(high), high: minus(low) };
}
