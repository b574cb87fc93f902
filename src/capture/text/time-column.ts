// Which column is the time, and in what form.

import type { Seconds } from "../../signal/numbers/units.ts";
import { joinedWords } from "../../signal/written/words.ts";
import { conversionOf } from "../meaning/quantities.ts";
import { roleNamedBy, wordsOf } from "../meaning/roles.ts";
import type { ReadChoices } from "../model/reader.ts";
import { noSuchColumn } from "../model/refusals.ts";
import { clockIn, dateOrderOf, dayIn, instantIn } from "./clock.ts";
import { timeFieldsOf } from "./field-columns.ts";
import { type HeadColumn, isCounter, isFull, numbersOf } from "./head-columns.ts";
import { numberIn, writtenNumber } from "./numbers.ts";
import { partedClockOf } from "./parted-clock.ts";
import type { TimeForm, TimePlan } from "./plan.ts";
import { rateIn } from "./stated-rate.ts";
import { padded } from "./time-cells.ts";
import { unitOfTime, zeroDay, zeroTick } from "./time-unit.ts";
import type { ColumnTitle } from "./titles.ts";

const timeName =
  /\b(times?|timers?|timestamps?|t|\w*zeit\w*|dauer|chrono\w*|ticks?|file ?time|m?jd|julian\w*|temps|tiempo|tempo|uhrzeit|messzeit|elapsed|seconds?|sec|secs|sek\w*|segundos|zeitstempel|heures?|horas?|ora|orario|godzina|clock|date ?time|datum|date|fecha|data e ora|ms|msecs?|millis\w*|usecs?|micros\w*|epoch\w*|unix\w*|stamp|ts|tijd|czas|cas|x|utc|local ?time|rel ?time|time ?s|offset)\b/;
const notTimeName =
  /run ?time|since|engine|start ?up|\bdelay|response|duration|transition|switch|injection|dwell|einspritz|schliess|zund|verweil|restzeit|offnungszeit|(lade|schalt|reaktions|tot|brenn|anstiegs|abfall|ansprech|verzogerungs|halte|warte|nachlauf|vorlauf|stand|puls|antwort|pausen|sperr|nachstell|vorhalt|takt|zyklus|\bein|\baus)zeit/;
/** A span of something as often as a clock, where no unit is told: a column with a plainer name goes before it. */
const spanName =
  /\b(?!(uhr|mess|aufnahme|aufzeichnungs|system|orts|absolut|relativ|gesamt|test|pruf|versuchs)zeit)\w+zeit/;
/** Quantities with a name of their own that only rise, or do so for a while: none is a time. */
const quantityName =
  /odo\w*|\bkms\b|breitengrad|langengrad|laengengrad|boost|ladedruck|charge|mileage|distance|distanz|\bdist\b|kilomet\w*|\bkm\b|miles?\b|strecke|\blat\w*|\blon\b|\blng\b|longitude|altitude|\balt\b|fuel|kraftstoff|carburant|combustible|consum\w*|verbrauch|temp\w*|pressure|druck|trip|heading|course|mass\b|volume|litres?|liters?|energy|voltage|volts?\b|\brpm\b|speed\b|torque|count\b|counter|zahler|zaehler/;
const counterName =
  /\b(index|idx|sample\w*|nr|no|num|number|point\w*|pt|row|record\w*|scan\w*|count\w*|messpunkt|punkt|muestra|echantillon|id|line|zeile|frame|sequence|seq)\b|^n$|^#$|^$/;

/**
 * Chooses the time column of the head, or says there is none.
 *
 * @param preamble  text above the header; a rate or a step in it serves where no column is a time.
 */
export function timeOf(columns: readonly HeadColumn[], preamble: string, choices: ReadChoices): TimePlan {
  const said =
    choices.timeColumn === undefined ? -1 : columns.findIndex(({ title }) => isNamed(title, choices.timeColumn!));
  if (choices.timeColumn !== undefined && said < 0)
    throw noSuchColumn(
      choices.timeColumn,
      columns.map(({ title }) => title.name),
    );
  const fields = timeFieldsOf(columns);
  // The finest of several columns stands for them all, also where it is named.
  if (fields && (said < 0 || said === fields.column)) return fields;
  const parted = partedClockOf(columns);
  if (parted && (said < 0 || said === parted.clock || said === parted.column))
    return partedPlan(columns, parted, choices);
  if (said >= 0) return planOf(columns, said, choices);
  const named = bestNamed(columns);
  if (named >= 0) return withRate(planOf(columns, named, choices), columns[named]!, choices);
  if (choices.rate !== undefined) return evenTime(choices.rate, true);
  const unnamed = firstRising(columns);
  if (unnamed >= 0) return planOf(columns, unnamed, choices);
  const rate = rateIn(preamble);
  if (rate !== null)
    return {
      ...evenTime(rate, true),
      assumed: ["time from the ", { value: rate, unit: "Hz" }, " stated above the numbers"],
    };
  const nearly = nearlyTime(columns);
  return {
    column: null,
    form: { kind: "none" },
    resolution: 0,
    sure: false,
    ...(nearly ? { nearly } : {}),
  };
}

/** A column that would be the time, but stands still or is written in a way that is not known. */
function nearlyTime(columns: readonly HeadColumn[]): TimePlan["nearly"] | null {
  const still = columns.find((column) => looksLikeTime(column) || isStillTime(column));
  if (still) return { name: still.title.name };
  const strange = columns.find(({ kind, title }) => kind === "text" && isTimeName(title.name));
  const cell = strange?.cells.find((one) => one.trim() !== "");
  return strange && cell ? { name: strange.title.name, cell: cell.trim().slice(0, 40) } : null;
}

function partedPlan(
  columns: readonly HeadColumn[],
  { clock, column, unit }: NonNullable<ReturnType<typeof partedClockOf>>,
  choices: ReadChoices,
): TimePlan {
  const plan = planOf(columns, clock, choices);
  const assumed = `time put together from ${columns[clock]!.title.name} and ${columns[column]!.title.name}`;
  return { ...plan, parts: { column, unit }, resolution: unit, assumed };
}

/** A rate that was said, where a column holds the time: the stamps are what was recorded, and it is said why. */
function withRate(plan: TimePlan, { title }: HeadColumn, { rate }: ReadChoices): TimePlan {
  if (rate === undefined) return plan;
  const why = [
    "the rate of ",
    { value: rate, unit: "Hz" },
    ` that was said is not used, as the column ${title.name || title.header} holds the time`,
  ];
  return { ...plan, assumed: plan.assumed ? joinedWords(plan.assumed, "; ", why) : why };
}

export function evenTime(rate: number, sure: boolean): TimePlan {
  return { column: null, form: { kind: "rate", rate }, resolution: 0, sure };
}

function isNamed(title: ColumnTitle, said: string): boolean {
  const wanted = said.trim().toLowerCase();
  return title.name.toLowerCase() === wanted || title.header.trim().toLowerCase() === wanted;
}

/** A time by its unit that never moves, whatever it is the time of. */
const isStillTime = ({ title, kind, cells }: HeadColumn): boolean =>
  kind === "number" &&
  title.fileUnit !== "" &&
  conversionOf(title.fileUnit).unit === "s" &&
  new Set(cells.map((cell) => cell.trim())).size === 1;

/** Whether name, unit or form make a column a time. */
export function looksLikeTime({ title, kind, cells, mark }: HeadColumn): boolean {
  if (kind === "instant" || kind === "clock") return true;
  if (kind !== "number") return false;
  const words = wordsOf(title.name);
  if (notTimeName.test(words)) return false;
  if (isBareTemperature(title, cells, mark)) return false;
  if (isCountdown(title)) return false;
  const unit = title.fileUnit === "" ? "" : conversionOf(title.fileUnit).unit;
  if (unit !== "" && unit !== "s")
    return (
      timeName.test(words) &&
      !/^(v|%|degc|kpa|1\/min|km\/h|g\/s|hz|ma)$/i.test(unit) &&
      roleNamedBy(title.name, "").role === "other"
    );
  return unit === "s" ? !/\bpulse|inject|\bpw\b|spark|dwell/.test(words) : timeName.test(words);
}

/** What is left of a time runs back while the recording runs on. */
const isCountdown = ({ name }: ColumnTitle): boolean =>
  /\b(left|remaining|countdown|count down|verbleibend\w*|restzeit|restant|restante)\b/.test(wordsOf(name));

/** "T" is written for time and for temperature: one that goes up and down is no time. */
function isBareTemperature(
  { name, fileUnit }: ColumnTitle,
  cells: readonly string[],
  mark: HeadColumn["mark"],
): boolean {
  if (fileUnit !== "" || !/^t$/i.test(name.trim())) return false;
  const values = cells.map((cell) => numberIn(cell, mark)).filter((value) => !Number.isNaN(value));
  return steadinessOf(values) < 0.98;
}

/**
 * Among columns that look like time and do not wander, the one with most distinct values; the first of equals, and plain
 * names before those of spans. One that stands still is no clock; where none else is left, a run time that moves forward is.
 */
function bestNamed(columns: readonly HeadColumn[]): number {
  let [best, most] = [-1, 0];
  columns.forEach((column, i) => {
    if (!looksLikeTime(column)) return;
    const steady = steadiness(column);
    if (isOneOfTemperatures(column, columns)) return;
    if (steady === 0 && column.cells.length > 2) return;
    const weight = (steady > 0.8 ? 1 : 0.001) * (mayBeSpan(column) ? 0.01 : 1);
    const distinct = new Set(column.cells.map((cell) => cell.trim())).size * weight;
    if (distinct > most * 1.05) [best, most] = [i, distinct];
  });
  return best >= 0 ? best : columns.findIndex(isRunTime);
}

const mayBeSpan = ({ kind, title }: HeadColumn): boolean =>
  kind === "number" && title.fileUnit === "" && spanName.test(wordsOf(title.name));

/** "T" beside "T2", or "T1" beside "T2": one of several temperatures. */
function isOneOfTemperatures({ title }: HeadColumn, columns: readonly HeadColumn[]): boolean {
  const isAlike = ({ name, fileUnit }: ColumnTitle) => fileUnit === "" && /^T[ _]?\d?$/.test(name.trim());
  return isAlike(title) && columns.filter((other) => isAlike(other.title)).length > 1;
}

/** A time since the engine started, in a unit of time, that moves forward in step with the rows. */
function isRunTime(column: HeadColumn): boolean {
  const { title, kind, cells } = column;
  const isTimed = title.fileUnit !== "" && conversionOf(title.fileUnit).unit === "s";
  if (kind !== "number" || !isTimed || !/\btime|zeit/.test(wordsOf(title.name))) return false;
  return steadiness(column) === 1 && new Set(cells.map((cell) => cell.trim())).size > 0.5 * cells.length;
}

/** The first of the first two number columns that rises all the way and is no counter of rows, nor a known quantity. */
function firstRising(columns: readonly HeadColumn[]): number {
  const full = columns.filter(isFull).slice(0, 2);
  if (columns.filter((column) => column.kind === "number" && !isCounter(column)).length < 2) return -1; // nothing would be left
  return columns.findIndex((column) => {
    if (!full.includes(column) || column.cells.length < 2 || isOneOfTemperatures(column, columns)) return false;
    if (roleNamedBy(column.title.name, column.title.fileUnit).role !== "other") return false;
    if (!(isUnspecific(column.title) || isEpoch(numbersOf(column))) || quantityName.test(wordsOf(column.title.header)))
      return false;
    if (column.title.fileUnit !== "" && conversionOf(column.title.fileUnit).unit !== "s") return false;
    return !isCounter(column) && steadiness(column) === 1 && !isSlowCount(column, column === columns[0]);
  });
}

/** Instants of this century since 1970, in seconds, or in whole parts of them. */
const isEpoch = (values: readonly number[]): boolean =>
  values.length > 1 &&
  [1, 1e3, 1e6, 1e9].some((unit) => values.every((value) => value > 1e9 * unit && value < 4.1e9 * unit));

/** No name, or one that says nothing of what it holds: a quantity that is named is none of time, whatever it does. */
const isUnspecific = ({ name, header, fileUnit }: ColumnTitle): boolean =>
  header.trim() === "" ||
  fileUnit !== "" ||
  /^(col(umn)?|spalte|colonn[ea]|columna|kolom|field|feld|champ|campo|var(iable)?|ch(annel)?|kanal|data|values?|werte?|axis|achse|[a-z])? ?\d*$/.test(
    wordsOf(name),
  );

/** Whole numbers without a name that fall, stay for rows or stand behind another column: counts of something, and no clock. */
function isSlowCount(column: HeadColumn, isFirst: boolean): boolean {
  if (column.title.header.trim() !== "") return false;
  const values = numbersOf(column);
  if (values.every(Number.isInteger) && !isFirst) return true;
  const stays = values.filter((value, i) => i > 0 && value === values[i - 1]).length;
  return values.every(Number.isInteger) && (stays * 20 > values.length || values[0]! > values.at(-1)!);
}

/** A counter of rows or samples by its values and its name, or its unit where it has one. */
export function countsRows(column: HeadColumn): boolean {
  const { header, fileUnit } = column.title;
  return isCounterName(fileUnit === "" ? header : conversionOf(fileUnit).unit) && isCounter(column);
}

export const isTimeName = (name: string): boolean => timeName.test(wordsOf(name)) && !notTimeName.test(wordsOf(name));
export const isCounterName = (name: string): boolean => counterName.test(wordsOf(name));

/** Whether what looks like a time goes on as one: a temperature that is written "T" stands still or wanders. */
export const goesOnAsTime = (column: HeadColumn): boolean =>
  looksLikeTime(column) && (column.cells.length < 3 || steadiness(column) > 0.8);

/** Share of steps that go the main way; repeated stamps count as neither. 0 where nothing moves. */
function steadiness(column: HeadColumn): number {
  return steadinessOf(secondsOf(column).filter((value) => !Number.isNaN(value)));
}

function steadinessOf(values: readonly number[]): number {
  let [up, down] = [0, 0];
  for (let i = 1; i < values.length; i++) {
    if (values[i]! > values[i - 1]!) up++;
    else if (values[i]! < values[i - 1]!) down++;
  }
  return up + down === 0 ? 0 : Math.max(up, down) / (up + down);
}

function secondsOf({ kind, cells, mark }: HeadColumn): number[] {
  if (kind === "clock") return cells.map((cell) => clockIn(cell)?.seconds ?? Number.NaN);
  if (kind === "instant") return cells.map((cell) => instantIn(cell, dateOrderOf(cells).order)?.seconds ?? Number.NaN);
  if (kind === "date") return cells.map((cell) => dayIn(cell, "ymd"));
  return cells.map((cell) => numberIn(cell, mark));
}

function planOf(columns: readonly HeadColumn[], column: number, choices: ReadChoices): TimePlan {
  const { kind, cells } = columns[column]!;
  if (kind === "clock") return clockPlan(columns, column, choices);
  if (kind === "instant") {
    const { order, sure } = dateOrderOf(cells, choices.dateOrder);
    const decimals = Math.max(...cells.map((cell) => instantIn(cell, order)?.decimals ?? 0));
    return {
      column,
      form: { kind, order, dateColumn: null, hasZone: cells.some((cell) => instantIn(cell, order)?.hasZone) },
      resolution: clockResolution(cells, decimals),
      sure: true,
      ...(sure ? {} : { isDateOpen: true }),
    };
  }
  return numberPlan(columns[column]!, column, choices);
}

function clockPlan(columns: readonly HeadColumn[], column: number, choices: ReadChoices): TimePlan {
  const cells = columns[column]!.cells;
  const clocks = cells.map(clockIn).filter((clock) => clock !== null);
  const parts = clocks.some((clock) => clock.parts === 3) ? 3 : 2;
  const decimals = Math.max(0, ...clocks.map((clock) => clock.decimals));
  const dates = columns.findIndex(({ kind }) => kind === "date");
  const resolution = clockResolution(cells, decimals);
  if (dates < 0 || parts === 2) return { column, form: { kind: "clock", parts }, resolution, sure: true };
  const { order, sure } = dateOrderOf(columns[dates]!.cells, choices.dateOrder);
  const open = sure ? {} : { isDateOpen: true };
  return {
    column,
    form: { kind: "instant", order, dateColumn: dates, hasZone: false },
    resolution,
    sure: true,
    ...open,
  };
}

/** Written digits may promise more than the clock gives (".000" throughout): trailing zeros that all share do not count. */
function clockResolution(cells: readonly string[], decimals: number): Seconds {
  const fractions = cells.map((cell) => /[.,](\d+)\D*$/.exec(cell.trim())?.[1] ?? "");
  let used = decimals;
  while (used > 0 && fractions.every((digits) => (digits[used - 1] ?? "0") === "0")) used--;
  return 10 ** -used;
}

/** Of the numbers further down so many must be clocks as well, or seconds only look so as long as they are below 60. */
const clockShare = 0.98;

/**
 * Hours, minutes and seconds as one number, "125959": no part exceeds 59, and where a minute is full the number jumps by 40 more
 * than from row to row. Zeros in front may be lost.
 */
function isPackedClock({ cells, title, later, mark }: HeadColumn): boolean {
  const isClock = (cell: string) => /^([01]\d|2[0-3])[0-5]\d[0-5]\d([.,]\d+)?$/.test(padded(cell));
  if (title.fileUnit !== "" || cells.length < 3 || !cells.every(isClock)) return false;
  const below = (later?.() ?? []).filter((cell) => !Number.isNaN(numberIn(cell, mark)));
  if (below.filter(isClock).length < clockShare * below.length) return false;
  const values = [...cells, ...below].filter(isClock).map((cell) => numberIn(cell, mark));
  const steps = values.slice(1).map((value, i) => ({
    step: value - values[i]!,
    isFull: Math.floor(value / 100) > Math.floor(values[i]! / 100),
  }));
  const within = Math.max(0, ...steps.filter(({ isFull }) => !isFull).map(({ step }) => step));
  const full = Math.min(...steps.filter(({ isFull }) => isFull).map(({ step }) => step));
  return within > 0 && full >= within + 35 && full <= 2 * within + 41;
}

function numberPlan(head: HeadColumn, column: number, choices: ReadChoices): TimePlan {
  const values = numbersOf(head);
  if (choices.timeUnit === undefined && isPackedClock(head)) {
    const assumed = "time read as hours, minutes and seconds written as one number";
    const decimals = Math.max(0, ...head.cells.map((cell) => writtenNumber(cell, head.mark)?.decimals ?? 0));
    const form: TimeForm = { kind: "clock", parts: 3, isPacked: true };
    return { column, form, resolution: clockResolution(head.cells, decimals), sure: true, assumed };
  }
  const written = head.cells.map((cell) => writtenNumber(cell, head.mark)).filter((cell) => cell !== null);
  const decimals = Math.max(0, ...written.map((cell) => cell.decimals));
  const inside = written.find((cell) => cell.unit !== "")?.unit ?? "";
  const { unit, sure, assumed } = choices.timeUnit
    ? { unit: choices.timeUnit, sure: true, assumed: undefined }
    : unitOfTime(head.title, inside, values);
  const zero = unit === 86400 ? zeroDay(values[0] ?? 0) : unit === 1e-7 ? zeroTick(values[0] ?? 0) : 0;
  const since = ((values[0] ?? 0) - zero) * unit;
  const isEpoch = since > 8e8 && since < 5e9;
  const form: TimeForm = { kind: "number", unit, isEpoch, zero };
  return { column, form, resolution: 10 ** -Math.min(decimals, 15) * unit, sure, ...(assumed ? { assumed } : {}) };
}
