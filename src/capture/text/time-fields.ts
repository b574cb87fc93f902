// The parts of a time that is written in several columns: year, month, day, hour, minute, second, and parts of a second.

import type { Seconds } from "../../signal/numbers/units.ts";

export interface FieldKind {
  readonly names: RegExp;
  readonly least: number;
  readonly most: number;
  /** s, of the fields that count from the day on; calendar fields have none. */
  readonly unit: Seconds;
}

/** In the order in which they stand. */
export const fieldKinds = {
  year: { names: /\b(yy|yyyy|years?|yr|jahr|annee|ano|anno)\b/, least: 0, most: 2200, unit: 0 },
  month: { names: /\b(mm|mo|mon|months?|monat|mois|mes|mese)\b/, least: 1, most: 12, unit: 0 },
  day: { names: /\b(dd|dy|days?|tag|jour|dia|giorno)\b/, least: 1, most: 31, unit: 0 },
  hour: { names: /\b(hh|hr|hrs|hours?|stunden?|heure|hora|ora)\b/, least: 0, most: 24, unit: 3600 },
  minute: { names: /\b(mm|mn|mi|min|mins|minutes?|minuten?|minuto)\b/, least: 0, most: 59, unit: 60 },
  second: { names: /\b(ss|s|secs?|seconds?|sek|sekunden?|secondes?|segundos?)\b/, least: 0, most: 5e9, unit: 1 },
  millisecond: { names: /\b(ms|msecs?|millis\w*)\b/, least: 0, most: 999, unit: 1e-3 },
  microsecond: { names: /\b(us|usecs?|micros\w*)\b/, least: 0, most: 999_999, unit: 1e-6 },
  nanosecond: { names: /\b(ns|nsecs?|nanos\w*)\b/, least: 0, most: 999_999_999, unit: 1e-9 },
} as const satisfies Readonly<Record<string, FieldKind>>;

export type TimeFieldName = keyof typeof fieldKinds;

export interface TimeField {
  readonly name: TimeFieldName;
  readonly column: number;
}

/** Seconds after which a time without a date, or without hours, starts anew; 0 for never. */
export function wrapOf([coarsest]: readonly TimeField[]): Seconds {
  return coarsest?.name === "hour" ? 86_400 : coarsest?.name === "minute" ? 3600 : 0;
}

/**
 * The time of a row: s from 1970-01-01 with a year, else from the zero of its coarsest field; NaN where a field is missing
 * or the date does not exist.
 *
 * @param numberIn  the row's number in a column.
 */
export function fieldsIn(fields: readonly TimeField[], numberIn: (column: number) => number): Seconds {
  let [year, month, day, seconds] = [1970, 1, 1, 0];
  for (const { name, column } of fields) {
    const value = numberIn(column);
    if (Number.isNaN(value)) return value;
    if (name === "year") year = value < 70 ? 2000 + value : value < 100 ? 1900 + value : value;
    else if (name === "month") month = value;
    else if (name === "day") day = value;
    else seconds += value * fieldKinds[name].unit;
  }
  const days = Date.UTC(year, month - 1, day) / 86_400_000;
  return new Date(days * 86_400_000).getUTCDate() === day ? days * 86_400 + seconds : Number.NaN;
}
