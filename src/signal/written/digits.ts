// Digits of a number: how many, to which side rounded, with which marks. Everything a person reads is written here.

import { writingInForce } from "./writing.ts";

export type Rounding = "near" | "down" | "up";

/** Swallows the last bits of binary arithmetic, so that 0.3 is not rounded up from 0.30000000000000004. */
const slack = 1e-9;

/** Digits of a number that nothing bounds. */
export const freeDigits = 3;
/** No reading claims more than so many, however narrow its bounds; whole numbers stay whole. */
const mostDigits = 4;

/**
 * A number with a fixed count of decimals: true minus sign, thousands set apart by a small space from 10 000 on (ISO 80000-1), the
 * decimal mark in force.
 */
export const formatNumber = (value: number, decimals: number): string => rounded(value, decimals, "near");

export function rounded(value: number, decimals: number, rounding: Rounding): string {
  const grain = 10 ** decimals;
  const scaled = value * grain;
  const give = Math.max(slack, 4 * Number.EPSILON * Math.abs(scaled));
  const whole = wholeNear(scaled, rounding, give);
  const [integer = "0", fraction] = Math.abs(whole / grain)
    .toFixed(decimals)
    .split(".");
  const grouped = integer.length > 4 ? integer.replace(/\B(?=(\d{3})+$)/g, "\u202f") : integer;
  const sign = whole < 0 ? "−" : "";
  return fraction === undefined ? sign + grouped : `${sign}${grouped}${writingInForce().decimal}${fraction}`;
}

function wholeNear(scaled: number, rounding: Rounding, give: number): number {
  if (rounding === "near") return Math.sign(scaled) * Math.round(Math.abs(scaled));
  return rounding === "down" ? Math.floor(scaled + give) : Math.ceil(scaled - give);
}

/** Decimals that tell numbers `step` apart; 0 for steps of one and more. */
export function decimalsOfStep(step: number): number {
  if (!(step > 0)) throw new RangeError(`step must be > 0, got ${step}`);
  return clampDecimals(Math.ceil(-Math.log10(step) - slack));
}

/** Decimals that leave a number so many significant digits. */
export function decimalsOf(value: number, digits: number): number {
  if (value === 0) return 0;
  return clampDecimals(digits - 1 - Math.floor(Math.log10(Math.abs(value)) + slack));
}

/**
 * Decimals that a half width deserves: two significant digits where it begins with 1.00 to 3.54, else one (Particle Data Group,
 * Review of Particle Physics, "Rounding"); never more than leave the largest number `mostDigits`.
 */
export function decimalsOfBounds(low: number, high: number): number {
  const half = (high - low) / 2;
  const lead = half / 10 ** Math.floor(Math.log10(half) + slack);
  const most = decimalsOf(Math.max(Math.abs(low), Math.abs(high)), mostDigits);
  return Math.min(most, decimalsOf(half, lead < 3.55 ? 2 : 1));
}

const clampDecimals = (decimals: number): number => Math.max(0, Math.min(12, decimals));

/** A number as it was stated, with all of its decimals. */
export const formatExact = (value: number): string => rounded(value, decimalsIn(value), "near");

/** Decimals that a number was stated with. */
export const decimalsIn = (value: number): number => (String(value).split(".")[1] ?? "").length;

/** How many trailing zeros after the decimal mark all texts share. */
export function sharedZeros(texts: readonly string[]): number {
  return Math.min(...texts.map((text) => (/[.,]\d*?(0+)$/.exec(text)?.[1] ?? "").length));
}

/** A number and its unit never part at the end of a line. */
export const withUnit = (number: string, unit: string): string => (unit === "" ? number : `${number}\u00a0${unit}`);
