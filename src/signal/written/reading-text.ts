// Readings and values as people read them, one way on page, exhibit, sheet and command line: as many digits as the bounds
// support, and never narrower than they are.

import type { Reading } from "../numbers/reading.ts";
import {
  decimalsOf,
  decimalsOfBounds,
  decimalsOfStep,
  freeDigits,
  type Rounding,
  rounded,
  sharedZeros,
  withUnit,
} from "./digits.ts";
import { shownAs, storedUnit } from "./writing.ts";

export interface ReadingText {
  /** "0.05 s", "at least 1.4 s", "at most 0.3 s", "not measurable". */
  readonly value: string;
  /** "0.04 … 0.06"; "" where there is nothing to add. Never narrower than the true bounds. */
  readonly bounds: string;
}

/** A unit as shown, and what a number of the reading's unit is multiplied by. */
interface Scaled {
  readonly factor: number;
  readonly unit: string;
}

type Bounds = readonly [low: number, high: number];
type InUnit = Omit<Reading, "unit"> & { readonly unit: string };

/** Digits of a number with a bound on one side. */
const oneSidedDigits = 2;

/**
 * A reading as text. Digits follow the bounds (`decimalsOfBounds`), and zeros that value and bounds share are dropped. The low
 * bound is rounded down, the high bound up. Seconds below one that need thousandths are written in ms.
 */
export function formatReading(reading: Reading): ReadingText {
  const shown = inShownUnit(reading);
  const { value, low, high, unit, grade } = shown;
  if (value === null || grade === "not-resolvable") return { value: "not measurable", bounds: knownBounds(shown) };
  if (grade === "at-least") return { value: `at least ${oneSided(value, "down", unit)}`, bounds: "" };
  if (grade === "at-most") return { value: `at most ${oneSided(value, "up", unit)}`, bounds: "" };
  if (low === null || high === null || low === high) return { value: free(value, unit), bounds: "" };
  return betweenBounds(value, [low, high], unit);
}

/** In the unit chosen for its kind. */
function inShownUnit(reading: Reading): InUnit {
  const { unit, times, plus } = shownAs(reading.unit);
  if (unit === reading.unit) return reading;
  const as = (value: number | null) => (value === null ? null : value * times + plus);
  return { ...reading, unit, value: as(reading.value), low: as(reading.low), high: as(reading.high) };
}

/** A reading in one line: "62.9 ms (61.4 … 67.4)". */
export function readingInWords(reading: Reading): string {
  const { value, bounds } = formatReading(reading);
  return bounds === "" ? value : `${value} (${bounds})`;
}

/** The same as the name of what shows it, read aloud: "62.9 ms, 61.4 … 67.4". */
export function readingAloud(reading: Reading): string {
  const { value, bounds } = formatReading(reading);
  return bounds === "" ? value : `${value}, ${bounds}`;
}

/**
 * A number with its unit, to the digits a step of `step` can tell apart; without it, to three significant digits, zeros at the end
 * dropped, whole numbers whole.
 *
 * @param value NaN and null read "no value".
 */
export function formatValue(value: number | null, unit: string, step?: number): string {
  if (value === null || Number.isNaN(value)) return "no value";
  const { unit: shown, times, plus } = shownAs(unit);
  const said = value * times + plus;
  if (step === undefined) return free(said, shown);
  return withUnit(rounded(said, decimalsOfStep(step * times), "near"), storedUnit(shown));
}

/** "790 … 4050 rpm": the unit once; one value where both read the same. */
export function formatRange([low, high]: readonly [low: number, high: number], unit: string, step = 1): string {
  const { times, plus } = shownAs(unit);
  const text = rounded(low * times + plus, decimalsOfStep(step * times), "near");
  const end = formatValue(high, unit, step);
  return formatValue(low, unit, step) === end ? end : `${text} … ${end}`;
}

/** How far a value may lie from another: the zero of a scale does not shift it. */
export function formatTolerance(tolerance: number, unit: string): string {
  const { unit: shown, times } = shownAs(unit);
  return free(tolerance * times, shown);
}

/**
 * A difference of two values of one channel with its sign, "+0.31 V"; nothing that can be told apart is "±0.00 V".
 *
 * @param step what can be told apart, in `unit`; > 0.
 */
export function formatDifference(value: number, unit: string, step: number): string {
  const { unit: shown, times } = shownAs(unit);
  const size = rounded(Math.abs(value * times), decimalsOfStep(step * times), "near");
  const sign = /[1-9]/.test(size) ? (value < 0 ? "−" : "+") : "±";
  return withUnit(`${sign}${size}`, storedUnit(shown));
}

/** A time of the capture, "31.20 s", to the digits a step of `step` seconds (a pixel, say) can tell apart. */
export const formatTime = (time: number, step: number): string => formatValue(time, "s", step);

/** "25.0 … 37.0 s", to about a twentieth of its length. */
export function formatSpan({ from, to }: { readonly from: number; readonly to: number }): string {
  const step = Math.max(to - from, 1e-6) / 20;
  return `${rounded(from, decimalsOfStep(step), "near")} … ${formatTime(to, step)}`;
}

function betweenBounds(value: number, bounds: Bounds, unit: string): ReadingText {
  const plain = { factor: 1, unit: storedUnit(unit) };
  const decimals = decimalsBetween(value, bounds, plain);
  const size = Math.max(Math.abs(bounds[0]), Math.abs(bounds[1]));
  const shown = readsAsMilliseconds(unit, size, decimals) ? milliseconds : plain;
  const [main, from, to] = writeBetween(value, bounds, shown, decimalsBetween(value, bounds, shown));
  return { value: withUnit(main, shown.unit), bounds: from === to ? "" : `${from} … ${to}` };
}

/** Decimals the bounds deserve, less the zeros that value and bounds all end in. */
function decimalsBetween(value: number, bounds: Bounds, shown: Scaled): number {
  const wanted = decimalsOfBounds(shown.factor * bounds[0], shown.factor * bounds[1]);
  return wanted - sharedZeros(writeBetween(value, bounds, shown, wanted));
}

function writeBetween(value: number, [low, high]: Bounds, { factor }: Scaled, decimals: number) {
  return [
    rounded(value * factor, decimals, "near"),
    lowest(low * factor, high * factor, decimals),
    rounded(high * factor, decimals, "up"),
  ] as const;
}

/** A low bound this much smaller than the high one may as well be 0. */
const asGoodAsNone = 1000;

/** Never 0 for what is known to be more: then its first digit stands, rounded down. */
function lowest(low: number, high: number, decimals: number): string {
  const isMore = low > 0 && low < 10 ** -decimals && low * asGoodAsNone > high;
  return rounded(low, isMore ? decimalsOf(low, 1) : decimals, "down");
}

const free = (value: number, unit: string): string => written(value, unit, "near", freeDigits);
const oneSided = (value: number, rounding: Rounding, unit: string): string =>
  written(value, unit, rounding, oneSidedDigits);

/** Rounded to the safe side; whole numbers stay whole. */
function written(value: number, unit: string, rounding: Rounding, digits: number): string {
  if (Number.isInteger(value)) return withUnit(rounded(value, 0, rounding), storedUnit(unit));
  const small = readsAsMilliseconds(unit, Math.abs(value), decimalsOf(value, oneSidedDigits));
  const { factor, unit: name } = small ? milliseconds : { factor: 1, unit: storedUnit(unit) };
  const decimals = decimalsOf(value * factor, digits);
  const zeros = sharedZeros([rounded(value * factor, decimals, rounding)]);
  return withUnit(rounded(value * factor, decimals - zeros, rounding), name);
}

function knownBounds({ low, high, unit }: InUnit): string {
  if (low !== null && high !== null && high > low) {
    const { value, bounds } = betweenBounds((low + high) / 2, [low, high], unit);
    return withUnit(bounds, value.split("\u00a0")[1] ?? "");
  }
  if (low !== null && low !== 0) return `at least ${oneSided(low, "down", unit)}`;
  return high === null ? "" : `at most ${oneSided(high, "up", unit)}`;
}

const milliseconds: Scaled = { factor: 1000, unit: "ms" };

/** Seconds below one that need thousandths read better as milliseconds. */
const readsAsMilliseconds = (unit: string, size: number, decimals: number): boolean =>
  unit === "s" && size < 1 && decimals >= 3;
