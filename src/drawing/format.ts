// Numbers as people read them: a reading with as many digits as its bounds support, and never narrower than they are.

import type { Reading } from "../signal/numbers/reading.ts";
import { shownAs } from "./shown-units.ts";

export interface ReadingText {
  /** "0.05 s", "at least 1.4 s", "at most 0.3 s", "cannot say". */
  readonly value: string;
  /** "0.04 … 0.06"; "" where there is nothing to add. Never narrower than the true bounds. */
  readonly bounds: string;
}

/** A unit as shown, and what a number of the reading's unit is multiplied by. */
interface Shown {
  readonly factor: number;
  readonly unit: string;
}

type Bounds = readonly [low: number, high: number];
type Rounding = "near" | "down" | "up";

/** Digits that stay when nothing bounds a number, and when one side does. */
const freeDigits = 3;
const oneSidedDigits = 2;
/** Swallows the last bits of binary arithmetic, so that 0.3 is not rounded up from 0.30000000000000004. */
const slack = 1e-9;

/**
 * A reading as text. Digits follow the bounds' half width: two significant digits where it begins with 1.00 to 3.54,
 * else one (Particle Data Group, Review of Particle Physics, "Rounding"), and zeros that all three share are dropped.
 * The low bound is rounded down, the high bound up. Seconds below one that need thousandths are shown as ms,
 * unless `keepUnit` (so that a column of readings stays in one unit).
 */
export function formatReading(reading: Reading, options: { readonly keepUnit?: boolean } = {}): ReadingText {
  const { value, low, high, unit, grade } = shownReading(reading);
  const keep = options.keepUnit ?? false;
  if (value === null || grade === "not-resolvable")
    return { value: "cannot say", bounds: knownBounds(shownReading(reading), keep) };
  if (grade === "at-least") return { value: `at least ${oneSided(value, "down", unit, keep)}`, bounds: "" };
  if (grade === "at-most") return { value: `at most ${oneSided(value, "up", unit, keep)}`, bounds: "" };
  if (low === null || high === null || low === high) return { value: oneSided(value, "near", unit, keep), bounds: "" };
  return betweenBounds(value, [low, high], unit, keep);
}

type InUnit = Omit<Reading, "unit"> & { readonly unit: string };

/** In the unit chosen for its kind. */
function shownReading(reading: Reading): InUnit {
  const { unit, times, plus } = shownAs(reading.unit);
  if (unit === reading.unit) return reading;
  const as = (value: number | null) => (value === null ? null : value * times + plus);
  return { ...reading, unit, value: as(reading.value), low: as(reading.low), high: as(reading.high) };
}

/** A reading in one line, for names read aloud and for tables: "0.05 s, 0.04 … 0.06". */
export function readingInWords(reading: Reading): string {
  const { value, bounds } = formatReading(reading);
  return bounds === "" ? value : `${value}, ${bounds}`;
}

/**
 * A number with its unit, to the digits a step of `step` can tell apart; without it, three significant digits.
 *
 * @param value NaN and null read "no value".
 */
export function formatValue(value: number | null, unit: string, step?: number): string {
  if (value === null || Number.isNaN(value)) return "no value";
  const { unit: shown, times, plus } = shownAs(unit);
  const said = value * times + plus;
  const decimals = step === undefined ? decimalsOf(said, freeDigits) : decimalsOfStep(step * times);
  return withUnit(rounded(said, decimals, "near"), storedUnit(shown));
}

/** A time of the capture, "31.20 s", to the digits a step of `step` seconds (a pixel, say) can tell apart. */
export function formatTime(time: number, step: number): string {
  return formatValue(time, "s", step);
}

/** Decimals that tell numbers `step` apart; 0 for steps of one and more. */
export function decimalsOfStep(step: number): number {
  if (!(step > 0)) throw new RangeError(`step must be > 0, got ${step}`);
  return clampDecimals(Math.ceil(-Math.log10(step) - slack));
}

/** As technicians say it: "4491 1/min" is hard to read at arm's length. */
const shownUnits: Readonly<Record<string, string>> = { degC: "°C", "1/min": "rpm" };

/** A unit as written on screen, the one chosen for its kind: "degC" is "°C" or "°F", "1/min" is "rpm", ratios and counts have none. */
export const showUnit = (unit: string): string => storedUnit(shownAs(unit).unit);

/** The same for numbers shown as they are stored, such as limits. */
export function storedUnit(unit: string): string {
  if (unit === "1") return "";
  return shownUnits[unit] ?? unit;
}

/** A number with a fixed count of decimals, a true minus sign, and thousands set apart from 10 000 on (ISO 80000-1). */
export function formatNumber(value: number, decimals: number): string {
  return rounded(value, decimals, "near");
}

function betweenBounds(value: number, bounds: Bounds, unit: string, keep: boolean): ReadingText {
  const plain = { factor: 1, unit: storedUnit(unit) };
  const decimals = decimalsBetween(value, bounds, plain);
  const size = Math.max(Math.abs(bounds[0]), Math.abs(bounds[1]));
  const shown = !keep && readsAsMilliseconds(unit, size, decimals) ? milliseconds : plain;
  const [main, from, to] = writeBetween(value, bounds, shown, decimalsBetween(value, bounds, shown));
  return { value: withUnit(main, shown.unit), bounds: `${from} … ${to}` };
}

/** Decimals the half width deserves, less the zeros that value and bounds all end in. */
function decimalsBetween(value: number, bounds: Bounds, shown: Shown): number {
  const half = (shown.factor * (bounds[1] - bounds[0])) / 2;
  const wanted = decimalsOf(half, significant(half));
  return wanted - sharedZeros(writeBetween(value, bounds, shown, wanted));
}

function writeBetween(value: number, [low, high]: Bounds, { factor }: Shown, decimals: number) {
  return [
    rounded(value * factor, decimals, "near"),
    rounded(low * factor, decimals, "down"),
    rounded(high * factor, decimals, "up"),
  ] as const;
}

/** A number with an open or no bound: two or three digits, rounded to the safe side; whole numbers stay whole. */
function oneSided(value: number, rounding: Rounding, unit: string, keep: boolean): string {
  if (Number.isInteger(value)) return withUnit(rounded(value, 0, rounding), storedUnit(unit));
  const digits = rounding === "near" ? freeDigits : oneSidedDigits;
  const small = !keep && readsAsMilliseconds(unit, Math.abs(value), decimalsOf(value, oneSidedDigits));
  const { factor, unit: name } = small ? milliseconds : { factor: 1, unit: storedUnit(unit) };
  const decimals = decimalsOf(value * factor, digits);
  const zeros = sharedZeros([rounded(value * factor, decimals, rounding)]);
  return withUnit(rounded(value * factor, decimals - zeros, rounding), name);
}

function knownBounds({ low, high, unit }: InUnit, keep: boolean): string {
  if (low !== null && high !== null && high > low) {
    const { value, bounds } = betweenBounds((low + high) / 2, [low, high], unit, keep);
    return withUnit(bounds, value.split(" ")[1] ?? "");
  }
  if (low !== null && low !== 0) return `at least ${oneSided(low, "down", unit, keep)}`;
  return high === null ? "" : `at most ${oneSided(high, "up", unit, keep)}`;
}

const milliseconds: Shown = { factor: 1000, unit: "ms" };

/** Seconds below one that need thousandths read better as milliseconds. */
function readsAsMilliseconds(unit: string, size: number, decimals: number): boolean {
  return unit === "s" && size < 1 && decimals >= 3;
}

/** How many digits a half width deserves, after the Particle Data Group's rule. */
function significant(half: number): 1 | 2 {
  const lead = half / 10 ** Math.floor(Math.log10(half) + slack);
  return lead < 3.55 ? 2 : 1;
}

function decimalsOf(value: number, digits: number): number {
  if (value === 0) return 0;
  return clampDecimals(digits - 1 - Math.floor(Math.log10(Math.abs(value)) + slack));
}

const clampDecimals = (decimals: number): number => Math.max(0, Math.min(12, decimals));

/** How many trailing zeros after the decimal point all texts share. */
function sharedZeros(texts: readonly string[]): number {
  return Math.min(...texts.map((text) => (/\.\d*?(0+)$/.exec(text)?.[1] ?? "").length));
}

function rounded(value: number, decimals: number, rounding: Rounding): string {
  const grain = 10 ** decimals;
  const scaled = value * grain;
  const give = Math.max(slack, 4 * Number.EPSILON * Math.abs(scaled));
  const whole =
    rounding === "near"
      ? Math.round(scaled)
      : rounding === "down"
        ? Math.floor(scaled + give)
        : Math.ceil(scaled - give);
  const [integer = "0", fraction] = Math.abs(whole / grain)
    .toFixed(decimals)
    .split(".");
  const grouped = integer.length > 4 ? integer.replace(/\B(?=(\d{3})+$)/g, "\u202f") : integer;
  const sign = whole < 0 ? "−" : "";
  return fraction === undefined ? sign + grouped : `${sign}${grouped}.${fraction}`;
}

const withUnit = (number: string, unit: string): string => (unit === "" ? number : `${number} ${unit}`);
