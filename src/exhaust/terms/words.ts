// Readings and numbers in words, for sentences that are read aloud.

import type { Reading, Unit } from "../../signal/numbers/reading.ts";
import type { Stretch } from "./analysis.ts";

type Way = "near" | "down" | "up";

/** Three significant digits, no exponent, no trailing zeros: 0.0523, 1.2, 2400. Whole numbers stay whole. */
export function number(value: number): string {
  return Number.isFinite(value) ? rounded(value, decimalsOf(Math.abs(value), 3), "near") : "unknown";
}

const decimalsOf = (size: number, digits: number): number =>
  size === 0 ? 0 : Math.min(6, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));

function rounded(value: number, decimals: number, way: Way): string {
  const round = { near: Math.round, down: (n: number) => Math.floor(n + 1e-9), up: (n: number) => Math.ceil(n - 1e-9) };
  const text = (round[way](value * 10 ** decimals) / 10 ** decimals).toFixed(decimals);
  return (text.includes(".") ? text.replace(/\.?0+$/, "") : text).replace(/^-0$/, "0");
}

/** "0.45 V"; ratios and counts stand alone. */
export function quantity(value: number, unit: Unit | string): string {
  return quantityText(number(value), unit);
}

const quantityText = (text: string, unit: Unit | string): string =>
  unit === "1" || unit === "" ? text : `${text} ${spoken[unit] ?? unit}`;

/** Units as the workshop says them. */
const spoken: Readonly<Record<string, string>> = { degC: "°C", "1/min": "rpm" };

/** A ratio as a share of the front's: "4 % (3 to 6 %)". */
export const asShare = (reading: Reading): string => inWords({ ...hundredfold(reading), unit: "%" });

function hundredfold(reading: Reading): Reading {
  const times = (value: number | null) => (value === null ? null : 100 * value);
  return { ...reading, value: times(reading.value), low: times(reading.low), high: times(reading.high) };
}

/** "1.2 s (1.1 to 1.3)", "at least 3.1 s", "at most 0.2 s", "not measurable". Two digits; bounds never narrower than they are. */
export function inWords(reading: Reading): string {
  const { value, low, high, unit, grade } = reading;
  const decimals = decimalsOf(Math.max(Math.abs(value ?? 0), Math.abs(low ?? 0), Math.abs(high ?? 0)), 2);
  const say = (bound: number, way: Way) => quantityText(rounded(bound, decimals, way), unit);
  if (grade === "at-least" && low !== null) return `at least ${say(low, "down")}`;
  if (grade === "at-most" && high !== null) return `at most ${say(high, "up")}`;
  if (value === null || grade === "not-resolvable") {
    return high === null ? "not measurable" : `not measurable (at most ${say(high, "up")})`;
  }
  if (low === high) return quantity(value, unit);
  const told = say(value, "near");
  if (low === null || high === null) return told;
  const [from, to] = [rounded(low, decimals, "down"), rounded(high, decimals, "up")];
  return from === to ? told : `${told} (${from} to ${to})`;
}

/** "in 0.09 s (0.08 to 0.1)"; where the samples only bound it, "within 0.38 s". */
export const withinTime = (reading: Reading): string =>
  reading.grade === "measured" || reading.high === null
    ? `in ${inWords(reading)}`
    : `within ${quantity(reading.high, reading.unit)}`;

/** "12 to 48 s" */
export const spanInWords = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  `${number(Math.round(from * 10) / 10)} to ${number(Math.round(to * 10) / 10)} s`;

/** "12 to 48 s", and whether a hand put its kind right. */
export const stretchSpan = (stretch: Pick<Stretch, "from" | "to" | "origin">): string =>
  `${spanInWords(stretch)}${stretch.origin === "user" ? ", corrected by hand" : ""}`;

/** "cruise 12 to 48 s": names a stretch within the name of a reading. */
export const stretchInWords = (stretch: Pick<Stretch, "kind" | "from" | "to" | "origin">): string =>
  `${stretch.kind} ${stretchSpan(stretch)}`;

/** "no event", "one event", "3 events" */
export const counted = (count: number, one: string, more = `${one}s`): string =>
  count === 0 ? `no ${one}` : count === 1 ? `one ${one}` : `${count} ${more}`;

/** "It rested at 0.45 V" said of a sensor by its name: "The rear sensor rested at 0.45 V". */
export const saidOf = (place: "front" | "rear", says: string): string => says.replace(/^It /, `The ${place} sensor `);

/** Parts put together into a text, where one of them may have been empty. */
export const tidied = (text: string): string => text.replace(/ {2,}/g, " ").trim();

/** A sentence to be told within another: no capital article, no full stop. */
export const clause = (text: string): string => withoutStop(text).replace(/^The/, "the");

export const withoutStop = (text: string): string => text.replace(/[.]$/, "");

/** First letter raised, one full stop at the end. */
export function sentence(text: string): string {
  const trimmed = text.trim().replace(/[.\s]+$/, "");
  return `${trimmed.charAt(0).toUpperCase()}${trimmed.slice(1)}.`;
}
