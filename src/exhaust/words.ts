// Readings and numbers in words, for sentences that are read aloud.

import type { Reading, Unit } from "../signal/reading.ts";

/** Three significant digits, no exponent, no trailing zeros: 0.0523, 1.2, 2400. */
export function number(value: number): string {
  if (value === 0 || !Number.isFinite(value)) return value === 0 ? "0" : "unknown";
  const digits = Math.min(6, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
  const text = value.toFixed(digits);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** "0.45 V"; ratios and counts stand alone. */
export function quantity(value: number, unit: Unit | string): string {
  if (unit === "1" || unit === "") return number(value);
  return `${number(value)} ${unit === "degC" ? "°C" : unit}`;
}

/** "1.2 s (1.1 to 1.3)", "at least 3.1 s", "at most 0.2 s", "not measurable". */
export function inWords(reading: Reading): string {
  const { value, low, high, unit, grade } = reading;
  if (grade === "at-least" && low !== null) return `at least ${quantity(low, unit)}`;
  if (grade === "at-most" && high !== null) return `at most ${quantity(high, unit)}`;
  if (value === null || grade === "not-resolvable") return "not measurable";
  const told = quantity(value, unit);
  if (low === null || high === null || number(low) === number(high)) return told;
  return `${told} (${number(low)} to ${number(high)})`;
}

/** "12 to 48 s" */
export const spanInWords = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  `${number(Math.round(from * 10) / 10)} to ${number(Math.round(to * 10) / 10)} s`;

/** "one event", "3 events" */
export const counted = (count: number, one: string, more = `${one}s`): string =>
  count === 1 ? `one ${one}` : `${count} ${more}`;

/** First letter raised, one full stop at the end. */
export function sentence(text: string): string {
  const trimmed = text.trim().replace(/[.\s]+$/, "");
  return `${trimmed.charAt(0).toUpperCase()}${trimmed.slice(1)}.`;
}
