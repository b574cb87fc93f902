// Which column is the time, and in what form.

import type { Seconds } from "../../signal/units.ts";
import { conversionOf } from "../quantities.ts";
import type { ReadChoices } from "../reader.ts";
import { partOf, wordsOf } from "../roles.ts";
import { clockIn, dateOrderOf, dayIn, instantIn } from "./clock.ts";
import type { ColumnTitle } from "./header.ts";
import type { CellKind } from "./kinds.ts";
import { type DecimalMark, numberIn, writtenNumber } from "./numbers.ts";
import type { TimeForm, TimePlan } from "./plan.ts";

/** A column of the head: what its cells are, and the cells. */
export interface HeadColumn {
  readonly title: ColumnTitle;
  readonly kind: CellKind;
  readonly cells: readonly string[];
}

const timeName =
  /\b(times?|timestamps?|t|zeit\w*|temps|tiempo|tempo|uhrzeit|messzeit|elapsed|seconds?|sec|secs|sek\w*|segundos|zeitstempel|heure|hora|orario|clock|date ?time|datum|date|fecha|data e ora|ms|msecs?|millis\w*|usecs?|micros\w*|epoch\w*|unix\w*|stamp|tijd|czas|cas|x|utc|local ?time|rel ?time|time ?s|offset)\b/;
const notTimeName = /run ?time|since|engine|start ?up|\bdelay|response|duration|transition|switch|injection|dwell/;
const counterName =
  /\b(index|idx|sample\w*|nr|no|num|number|point\w*|pt|row|record\w*|scan\w*|count\w*|messpunkt|punkt|muestra|echantillon|id|line|zeile|frame)\b|^n$|^#$|^$/;

/**
 * Chooses the time column of the head, or says there is none.
 *
 * @param preamble  text above the header; a rate or a step in it serves where no column is a time.
 */
export function timeOf(
  columns: readonly HeadColumn[],
  mark: DecimalMark,
  preamble: string,
  choices: ReadChoices,
): TimePlan {
  const said =
    choices.timeColumn === undefined ? -1 : columns.findIndex(({ title }) => isNamed(title, choices.timeColumn!));
  if (said >= 0) return planOf(columns, said, mark, choices);
  const named = bestNamed(columns, mark);
  if (named >= 0) return planOf(columns, named, mark, choices);
  if (choices.rate !== undefined) return evenTime(choices.rate, true);
  const unnamed = firstRising(columns, mark);
  if (unnamed >= 0) return planOf(columns, unnamed, mark, choices);
  const rate = rateIn(preamble);
  if (rate !== null) return { ...evenTime(rate, true), assumed: `time from the ${rate} Hz stated above the numbers` };
  return { column: null, form: { kind: "none" }, resolution: 0, sure: false };
}

export function evenTime(rate: number, sure: boolean): TimePlan {
  return { column: null, form: { kind: "rate", rate }, resolution: 0, sure };
}

export function isNamed(title: ColumnTitle, said: string): boolean {
  const wanted = said.trim().toLowerCase();
  return title.name.toLowerCase() === wanted || title.header.trim().toLowerCase() === wanted;
}

/** Whether name, unit or form make a column a time. */
export function looksLikeTime({ title, kind }: HeadColumn): boolean {
  if (kind === "instant" || kind === "clock") return true;
  if (kind !== "number") return false;
  const words = wordsOf(title.name);
  if (notTimeName.test(words)) return false;
  const unit = title.fileUnit === "" ? "" : conversionOf(title.fileUnit).unit;
  if (unit !== "" && unit !== "s")
    return (
      timeName.test(words) &&
      !/^(v|%|degc|kpa|1\/min|km\/h|g\/s|hz|ma)$/i.test(unit) &&
      partOf(title.name, "").role === "other"
    );
  return unit === "s" ? !/\bpulse|inject|\bpw\b|spark|dwell/.test(words) : timeName.test(words);
}

/** Among columns that look like time and do not wander, the one with most distinct values; the first of equals. */
function bestNamed(columns: readonly HeadColumn[], mark: DecimalMark): number {
  let [best, most] = [-1, 0];
  columns.forEach((column, i) => {
    if (!looksLikeTime(column)) return;
    const steady = steadiness(column, mark);
    const distinct = new Set(column.cells.map((cell) => cell.trim())).size * (steady > 0.8 ? 1 : 0.001);
    if (distinct > most * 1.05) [best, most] = [i, distinct];
  });
  return best;
}

/** The first of the first two number columns that rises all the way and is no counter of rows, nor a known quantity. */
function firstRising(columns: readonly HeadColumn[], mark: DecimalMark): number {
  const full = columns.filter(isFull).slice(0, 2);
  if (columns.filter((column) => column.kind === "number" && !isCounter(column, mark)).length < 2) return -1; // nothing would be left
  return columns.findIndex((column) => {
    if (!full.includes(column) || column.cells.length < 2) return false;
    if (partOf(column.title.name, column.title.fileUnit).role !== "other") return false;
    if (column.title.fileUnit !== "" && conversionOf(column.title.fileUnit).unit !== "s") return false;
    return !isCounter(column, mark) && steadiness(column, mark) === 1;
  });
}

/** A number column with few holes: settings beside the first rows are no time. */
function isFull({ kind, cells }: HeadColumn): boolean {
  return kind === "number" && cells.filter((cell) => cell.trim() !== "").length >= 0.8 * cells.length;
}

/** Whole numbers one apart. */
export function isCounter(column: HeadColumn, mark: DecimalMark): boolean {
  const values = column.cells.map((cell) => numberIn(cell, mark)).filter((value) => !Number.isNaN(value));
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  return values.length > 1 && values.every(Number.isInteger) && steps.every((step) => step === 1);
}

export const isCounterName = (name: string): boolean => counterName.test(wordsOf(name));

/** Share of steps that go the main way; repeated stamps count as neither. 0 where nothing moves. */
function steadiness(column: HeadColumn, mark: DecimalMark): number {
  const values = secondsOf(column, mark).filter((value) => !Number.isNaN(value));
  let [up, down] = [0, 0];
  for (let i = 1; i < values.length; i++) {
    if (values[i]! > values[i - 1]!) up++;
    else if (values[i]! < values[i - 1]!) down++;
  }
  return up + down === 0 ? 0 : Math.max(up, down) / (up + down);
}

function secondsOf({ kind, cells }: HeadColumn, mark: DecimalMark): number[] {
  if (kind === "clock") return cells.map((cell) => clockIn(cell)?.seconds ?? Number.NaN);
  if (kind === "instant") return cells.map((cell) => instantIn(cell, dateOrderOf(cells).order)?.seconds ?? Number.NaN);
  if (kind === "date") return cells.map((cell) => dayIn(cell, "ymd"));
  return cells.map((cell) => numberIn(cell, mark));
}

function planOf(columns: readonly HeadColumn[], column: number, mark: DecimalMark, choices: ReadChoices): TimePlan {
  const { kind, cells } = columns[column]!;
  if (kind === "clock") return clockPlan(columns, column);
  if (kind === "instant") {
    const { order } = dateOrderOf(cells);
    const decimals = Math.max(...cells.map((cell) => instantIn(cell, order)?.decimals ?? 0));
    return {
      column,
      form: { kind, order, dateColumn: null, hasZone: cells.some((cell) => instantIn(cell, order)?.hasZone) },
      resolution: clockResolution(cells, decimals),
      sure: true,
    };
  }
  return numberPlan(columns[column]!, column, mark, choices);
}

function clockPlan(columns: readonly HeadColumn[], column: number): TimePlan {
  const cells = columns[column]!.cells;
  const clocks = cells.map(clockIn).filter((clock) => clock !== null);
  const parts = clocks.some((clock) => clock.parts === 3) ? 3 : 2;
  const decimals = Math.max(0, ...clocks.map((clock) => clock.decimals));
  const dates = columns.findIndex(({ kind }) => kind === "date");
  const resolution = clockResolution(cells, decimals);
  if (dates < 0 || parts === 2) return { column, form: { kind: "clock", parts }, resolution, sure: true };
  const { order } = dateOrderOf(columns[dates]!.cells);
  return { column, form: { kind: "instant", order, dateColumn: dates, hasZone: false }, resolution, sure: true };
}

/** Written digits may promise more than the clock gives (".000" throughout): trailing zeros that all share do not count. */
function clockResolution(cells: readonly string[], decimals: number): Seconds {
  const fractions = cells.map((cell) => /[.,](\d+)\D*$/.exec(cell.trim())?.[1] ?? "");
  let used = decimals;
  while (used > 0 && fractions.every((digits) => (digits[used - 1] ?? "0") === "0")) used--;
  return 10 ** -used;
}

function numberPlan(head: HeadColumn, column: number, mark: DecimalMark, choices: ReadChoices): TimePlan {
  const values = head.cells.map((cell) => numberIn(cell, mark)).filter((value) => !Number.isNaN(value));
  const written = head.cells.map((cell) => writtenNumber(cell, mark)).filter((cell) => cell !== null);
  const decimals = Math.max(0, ...written.map((cell) => cell.decimals));
  const inside = written.find((cell) => cell.unit !== "")?.unit ?? "";
  const { unit, sure, assumed } = choices.timeUnit
    ? { unit: choices.timeUnit, sure: true, assumed: undefined }
    : unitOfTime(head.title, inside, values);
  const zero = unit === 86400 ? zeroDay(values[0] ?? 0) : 0;
  const since = ((values[0] ?? 0) - zero) * unit;
  const isEpoch = since > 8e8 && since < 5e9;
  const form: TimeForm = { kind: "number", unit, isEpoch, zero };
  return { column, form, resolution: 10 ** -Math.min(decimals, 15) * unit, sure, ...(assumed ? { assumed } : {}) };
}

/** Day number of 1970-01-01: of spreadsheets 25569, of proleptic day counts from year 0 719529; 0 where days count from the start. */
function zeroDay(first: number): number {
  if (first > 25_569 && first < 80_000) return 25_569;
  return first > 719_529 && first < 770_000 ? 719_529 : 0;
}

interface TimeUnit {
  readonly unit: Seconds;
  readonly sure: boolean;
  readonly assumed: string | undefined;
}

const sure = (unit: Seconds): TimeUnit => ({ unit, sure: true, assumed: undefined });

/** Seconds in one unit of a number column: as written, as its name says, or as its numbers suggest. */
export function unitOfTime(title: ColumnTitle, inside: string, values: readonly number[]): TimeUnit {
  const first = Math.abs(values[0] ?? 0);
  const byMagnitude = first > 8e17 ? 1e-9 : first > 8e14 ? 1e-6 : first > 8e11 ? 1e-3 : null;
  const written = title.fileUnit || inside;
  if (written !== "" && conversionOf(written).unit === "s") {
    const { times, over } = conversionOf(written);
    if ((first * times) / over < 1e11) return sure(times / over);
  }
  if (byMagnitude !== null) return sure(byMagnitude);
  const words = wordsOf(`${title.name} ${title.fileUnit}`);
  if (/\b(ms|msecs?|millis\w*|milisegundos)\b/.test(words)) return sure(1e-3);
  if (/\b(us|usecs?|micros\w*)\b/.test(words)) return sure(1e-6);
  if (/\b(ns|nsecs?|nanos\w*)\b/.test(words)) return sure(1e-9);
  if (/\b(minutes?|minuten)\b/.test(words)) return sure(60);
  if (/\b(seconds?|secs?|s|sek\w*|secondes?|segundos?)\b/.test(words)) return sure(1);
  if (first > 8e8 && first < 5e9) return sure(1);
  return unitByStep(values, /\b(date|day|days|datum|serial|excel)\b/.test(words));
}

function unitByStep(values: readonly number[], saysDay: boolean): TimeUnit {
  const steps = values
    .slice(1)
    .map((value, i) => Math.abs(value - values[i]!))
    .filter((step) => step > 0)
    .sort((a, b) => a - b);
  const step = steps[Math.floor(steps.length / 2)] ?? 1;
  if (saysDay || isDayFraction(values[0] ?? 0, step)) return { unit: 86400, sure: true, assumed: "time read as days" };
  const whole = values.every(Number.isInteger);
  if (whole && step >= 5000)
    return { unit: 1e-6, sure: false, assumed: "time has no unit; read as microseconds, as its steps are so large" };
  if (whole && step >= 5)
    return {
      unit: 1e-3,
      sure: true,
      assumed: "time has no unit; read as milliseconds, as its steps are whole and large",
    };
  return { unit: 1, sure: true, assumed: "time has no unit; read as seconds" };
}

/** Days of a spreadsheet: a serial number of recent years, or below 1, in steps that are a usual part of a second and no round decimal. */
function isDayFraction(first: number, step: number): boolean {
  const inSeconds = step * 86400;
  const usual = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5].some((part) => Math.abs(inSeconds / part - 1) < 0.02);
  const round = Math.abs(Math.log10(step) - Math.round(Math.log10(step))) < 1e-3;
  if (first > 20_000 && first < 80_000) return step < 2e-3;
  return first >= 0 && first < 1 && step < 1e-3 && usual && !round;
}

const number = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
const rateShape = new RegExp(
  String.raw`(?:sampl\w*|abtast\w*|acqui\w*|scan|record\w*|aufzeichnung\w*|mess|muestreo|echantillon\w*)?[\s_-]*(?:rate|freq\w*|frequenz|rate|frecuencia)\b[^\d+-]{0,40}${number}\s*([kM]?(?:Hz|Sa\/s|S\/s|sps|1\/s|samples\/s\w*))?`,
  "i",
);
const stepShape = new RegExp(
  String.raw`(?:interval|intervall|period|increment|inkrement|schritt\w*|delta[ _]?t|\bdt|time ?step|abtastzeit|tastzeit|x ?inc\w*|intervalo|resolution|aufl\w*sung)\b[^\d+-]{0,40}${number}\s*([mun\u00b5\u03bc]?s(?:ec\w*)?)?\b`,
  "i",
);

/** Samples per second stated in words, as a rate or as a step; null where none is. */
export function rateIn(preamble: string): number | null {
  const rate = rateShape.exec(preamble);
  if (rate?.[1])
    return positive(
      Number(rate[1].replace(",", ".")) * (/^k/i.test(rate[2] ?? "") ? 1e3 : /^M/.test(rate[2] ?? "") ? 1e6 : 1),
    );
  const step = stepShape.exec(preamble);
  if (!step?.[1]) return null;
  const { times, over } = conversionOf(step[2] ?? "s");
  return positive(over / (Number(step[1].replace(",", ".")) * times));
}

const positive = (rate: number): number | null =>
  Number.isFinite(rate) && rate > 0 ? Number(rate.toPrecision(12)) : null;
