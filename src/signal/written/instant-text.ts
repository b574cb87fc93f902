// What channels hold at an instant, one way in the lanes, in the table below them and read aloud. Beside each other values have
// zeros at their ends: a column of them is compared digit by digit.

import { formatDifference, formatValue } from "./reading-text.ts";

/** No sensor of a car tells less apart, in the unit of storage; own choice. */
const finest: ReadonlyMap<string, number> = new Map([
  ["V", 0.001],
  ["%", 0.1],
  ["1/min", 1],
  ["g/s", 0.01],
  ["degC", 0.1],
  ["km/h", 0.1],
  ["kPa", 0.1],
]);

/** What is left of a sum near zero has no digits of its own. */
const nothing = 1e-6;

/** The last digit that values deserve: the third of the largest, but never finer than any sensor. */
function grain(values: readonly number[], unit: string): number {
  const larger = Math.max(...values.map(Math.abs));
  if (larger < nothing) return finest.get(unit) ?? 0.01;
  return Math.max(10 ** (Math.floor(Math.log10(larger)) - 2), finest.get(unit) ?? 0);
}

/** "0.385 V", "21.0 g/s". @param value NaN and null read "no value". */
export function formatAtInstant(value: number | null, unit: string): string {
  return value === null || Number.isNaN(value)
    ? formatValue(null, unit)
    : formatValue(value, unit, grain([value], unit));
}

/** How far a value is from the same channel's at another instant, to the digits that the two deserve: "+0.31 V". */
export function formatSinceInstant(value: number, held: number, unit: string): string {
  return formatDifference(value - held, unit, grain([value, held], unit));
}
