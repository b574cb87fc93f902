// Times written as clocks and dates, in seconds.

import type { Seconds } from "../../signal/numbers/units.ts";
import { inPlainFigures } from "./plain-clock.ts";

export type DateOrder = "ymd" | "dmy" | "mdy";

const withoutBrackets = (text: string): string => inPlainFigures(text.trim().replace(/^\[\s*(.*?)\s*\]$/, "$1"));

/** "Z", "UTC", "+02:00", "-05", "GMT+1" behind a clock. */
const zoneShape =
  /(?<=[\dm.])(?:\s*(z|utc|gmt)|\s*([+-])(\d{2})(?::?(\d{2}))?|\s*(?:utc|gmt)([+-])(\d{1,2})(?::?(\d{2}))?)$/i;
/**
 * The name of a place's time: "CET", "(PDT)", "Uhr", "[Europe/Berlin]". Taken off: letters like IST stand for several zones, and where
 * summer time ends the clock itself shows it.
 */
const withoutPlace = (text: string): string =>
  text.replace(
    /(?<=\d[\d:., ]*|[mM]\.?)\s*(?:\[[A-Za-z_]+\/[A-Za-z_/]+\]|\s\(?(?!UTC|GMT)[A-Z]{3,5}\)?|\s[Uu]hr)$/,
    "",
  );

const clockShape = /^(\d{1,3}):(\d{1,2})(?::(\d{1,2}))?(?:[.,:](\d{1,9}))?\s*([ap])?\.?\s?m?\.?$/i;

export interface Clock {
  readonly seconds: Seconds;
  /** 2 for "12:34.5", 3 for "1:12:34.5". */
  readonly parts: 2 | 3;
  readonly decimals: number;
}

/** Three pairs of digits with points between them: also the shape of a short date. */
const dotted = /^(\d{1,2})\.(\d{2})\.(\d{2})(?=$|[.,: ])/;
/** Without marks, as in ISO 8601's basic format. */
const bare = /^(\d{2})(\d{2})(\d{2})(?=$|[.,])/;

/** ISO 8601's duration "PT1H2M3.5S", and the same in everyday letters: "1h02m03.5s", "2m03s". */
const lettered =
  /^(?:PT(?:(\d{1,3})H)?(?:(\d{1,4})M)?|(?:(\d{1,3})h ?)?(\d{1,4})m(?:in)? ?)(?:(\d{1,6})(?:[.,](\d{1,9}))?s)?$/i;

function letteredClock(text: string): Clock | null {
  const found = lettered.exec(text);
  if (!found || !/\ds$/i.test(text)) return null;
  const [, isoHours, isoMinutes, hours, minutes, seconds = "0", fraction = ""] = found;
  const whole = Number(isoHours ?? hours ?? 0) * 3600 + Number(isoMinutes ?? minutes ?? 0) * 60 + Number(seconds);
  return { seconds: whole + Number(`0.${fraction || "0"}`), parts: 3, decimals: fraction.length };
}

/**
 * "h:mm:ss.sss", "h.mm.ss", "2 days 01:00:00", "mm:ss.s", "h:mm:ss:mmm", with am or pm, in square brackets or not, or a duration
 * in letters; null when it is no clock. Two parts are minutes and seconds.
 */
export function clockIn(written: string): Clock | null {
  const cell = withoutPlace(withoutBrackets(written)).replace(zoneShape, "");
  if (/^(PT)?\d{1,4}[hm]|^PT/i.test(cell)) return letteredClock(cell);
  const days = /^(\d{1,5}) days?,? (?=\d)/.exec(cell);
  if (days) {
    const clock = clockIn(cell.slice(days[0].length));
    return clock && { ...clock, seconds: clock.seconds + Number(days[1]) * 86_400 };
  }
  const found = clockShape.exec(cell.replace(dotted, "$1:$2:$3").replace(bare, "$1:$2:$3"));
  if (!found) return null;
  const [, a = "0", b = "0", c, fraction = "", half] = found;
  const decimals = fraction.length;
  const rest = fraction === "" ? 0 : Number(`0.${fraction}`);
  if (Number(b) > 59 || Number(c ?? 0) > 60) return null;
  if (c === undefined && !half) return { seconds: Number(a) * 60 + Number(b) + rest, parts: 2, decimals };
  const hours = half ? (Number(a) % 12) + (half.toLowerCase() === "p" ? 12 : 0) : Number(a);
  return { seconds: hours * 3600 + Number(b) * 60 + Number(c ?? 0) + rest, parts: 3, decimals };
}

const dateShape = /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})$/;
const compactShape = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;
/** First letters of the months in English, German, French, Spanish, Italian and Dutch, without accents. */
const months = [
  /^(jan|ene|gen)/,
  /^(feb|fev)/,
  /^(mar|maer|mrt|maa)/,
  /^(apr|avr|abr)/,
  /^(may|mai|mag|mei)/,
  /^(jun|juin|giu)/,
  /^(jul|juil|lug)/,
  /^(aug|aou|ago)/,
  /^(sep|set)/,
  /^(oct|okt|ott|out)/,
  /^nov/,
  /^(dec|dez|dic)/,
];
const namedShape = /^(\d{1,2})[-./ ]+(?:de )?([a-z]{3,10})\.?[-./ ,]+(?:de )?(\d{4}|\d{2})$/;
const monthFirstShape = /^([a-z]{3,10})\.?[-./ ]+(\d{1,2}),?[-./ ]+(\d{4})$/;

/** A date whose month is named, as year, month and day; null when it is none. */
function namedDate(text: string): readonly [number, number, number] | null {
  if (!/\p{L}{3}/u.test(text)) return null;
  const plain = text
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase();
  const yearFirst = /^(\d{4})[-./ ]([a-z]{3,10})[-./ ](\d{1,2})$/.exec(plain);
  if (yearFirst) return namedDate(`${yearFirst[3]} ${yearFirst[2]} ${yearFirst[1]}`);
  const dayFirst = namedShape.exec(plain);
  const found = dayFirst ?? monthFirstShape.exec(plain);
  if (!found) return null;
  const [day, name] = dayFirst ? [found[1], found[2]] : [found[2], found[1]];
  const month = months.findIndex((shape) => shape.test(name!));
  if (month < 0) return null;
  const year = Number(found[3]);
  return [year < 100 ? 2000 + year : year, month + 1, Number(day)];
}

/** The three numbers of a date as written, null when it is none. */
export function dateFields(cell: string): readonly [number, number, number] | null {
  const text = inPlainFigures(cell.trim());
  const compact = compactShape.exec(text);
  if (compact) return [Number(compact[1]), Number(compact[2]), Number(compact[3])];
  const found = dateShape.exec(text);
  return found ? [Number(found[1]), Number(found[3]), Number(found[4])] : namedDate(text);
}

/** Days from 1970-01-01, UTC; NaN when it is no date. */
export function dayIn(cell: string, order: DateOrder): number {
  const fields = dateFields(cell);
  if (!fields) return Number.NaN;
  const [a, b, c] = fields;
  const [year, month, day] = a > 31 || order === "ymd" ? [a, b, c] : order === "dmy" ? [c, b, a] : [c, a, b];
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN;
  return Date.UTC(year < 100 ? 2000 + year : year, month - 1, day) / 86_400_000;
}

export interface Instant {
  /** From 1970-01-01; UTC where a zone is written, else the recorder's own clock. */
  readonly seconds: Seconds;
  readonly decimals: number;
  readonly hasZone: boolean;
}

/** ISO 8601's basic format, the T left out, or a blank in its place. */
const basicShape = /^((?:19|20)\d{2})(\d{2})(\d{2})[T ]?(\d{2})(\d{2})(\d{2})(?=$|[.,Z+-])/;

/** Whether a number is a date and a clock written without marks. */
export const isBasicInstant = (cell: string): boolean =>
  basicShape.test(cell.trim()) && instantIn(cell, "ymd") !== null;

/** "Mar 4 12:00:00 2026", "Mar 4 12:00:00 CET 2026": the year stands behind the clock. */
const yearLast =
  /^((?:[a-z]{2,3},? )?[a-z]{3} +\d{1,2}) (\d{1,2}:\d{2}:\d{2}(?:\.\d+)?)( [a-z]{3,5}(?:[+-]\d{2}:?\d{2})?)? (\d{4})$/i;

/** Date and clock in one cell, ISO 8601 or the everyday forms; null when it is none. */
export function instantIn(cell: string, order: DateOrder): Instant | null {
  const text = withoutPlace(
    withoutBrackets(cell).replace(basicShape, "$1-$2-$3T$4:$5:$6").replace(yearLast, "$1 $4 $2$3"),
  );
  // A stroke parts date and clock where the date itself has other marks.
  const cut = text.search(/(?:[T ,_]|(?<=^\d+[/.]\d+[/.]\d+)-)(?=\d{1,2}(:|\.\d{2}\.\d{2}))/);
  if (cut < 6) return null;
  const date = text.slice(0, cut).replace(/,$/, "");
  const day = dayIn(Number.isNaN(dayIn(date, order)) ? date.replace(/^[a-z]{2,10}\.?[, ]+/i, "") : date, order);
  const zone = zoneShape.exec(text.slice(cut));
  const clock = clockIn(zone ? text.slice(cut + 1, cut + zone.index) : text.slice(cut + 1));
  if (Number.isNaN(day) || !clock) return null;
  const isShort = clock.parts === 2; // behind a date, two parts are hours and minutes
  const [sign, hours = 0, minutes = 0] = zone ? [zone[2] ?? zone[5], zone[3] ?? zone[6], zone[4] ?? zone[7]] : [];
  const east = sign ? (sign === "-" ? -1 : 1) * (Number(hours) * 3600 + Number(minutes) * 60) : 0;
  return {
    seconds: day * 86400 + clock.seconds * (isShort ? 60 : 1) - east,
    decimals: clock.decimals,
    hasZone: zone !== null,
  };
}

function dateAtStart(cell: string): ReturnType<typeof dateFields> {
  const text = withoutBrackets(cell);
  if (/\p{L}{3}/u.test(text)) return instantIn(text, "ymd") === null ? namedDate(text) : [9999, 1, 1];
  return dateFields(text.split(/[T ,_]|(?<=^\d+[/.]\d+[/.]\d+)-/)[0] ?? "");
}

/** What the user says of the order of day and month. */
export type SaidOrder = "day-first" | "month-first" | undefined;

/**
 * Which order a column of dates has: the one that makes every cell a date; else what was said; else month first for slashes
 * alone, and day first.
 */
export function dateOrderOf(
  cells: readonly string[],
  said?: SaidOrder,
): { readonly order: DateOrder; readonly sure: boolean } {
  const dates = cells.map(dateAtStart).filter((date) => date !== null);
  if (dates.some(([a]) => a > 31)) return { order: "ymd", sure: true };
  if (dates.some(([a]) => a > 12)) return { order: "dmy", sure: true };
  if (dates.some(([, b]) => b > 12)) return { order: "mdy", sure: true };
  if (said !== undefined) return { order: said === "day-first" ? "dmy" : "mdy", sure: true };
  const isSlashed = cells.some((cell) => cell.includes("/"));
  return { order: isSlashed ? "mdy" : "dmy", sure: dates.every(([a, b]) => a === b) };
}
