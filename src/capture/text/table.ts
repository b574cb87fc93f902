// Where the numbers begin, what stands above them, and what each column is.

import { ProblemError } from "../../problem.ts";
import { conversionOf } from "../meaning/quantities.ts";
import type { Remark } from "../model/capture.ts";
import type { ReadChoices } from "../model/reader.ts";
import { listed, remarkOf } from "../model/remarks.ts";
import { besideRows, settingsBeside } from "./beside.ts";
import { bodyStart, judged, widthOf } from "./body-start.ts";
import type { Dialect } from "./dialect.ts";
import { type Factor, factorsIn } from "./factors.ts";
import { awaited, filledCells, type HeadColumn, headColumns, isCounter } from "./head-columns.ts";
import { type Header, headerAbove } from "./header.ts";
import { isDataRow } from "./kinds.ts";
import { writtenNumber } from "./numbers.ts";
import { refuseOnItsSide } from "./on-its-side.ts";
import type { ColumnPlan, ColumnUse, TablePlan, TimePlan } from "./plan.ts";
import { isBlankRow, isComment } from "./split.ts";
import { rateIn, settingsIn } from "./stated-rate.ts";
import { strayRows } from "./stray-rows.ts";
import { countsRows, evenTime, timeOf } from "./time-column.ts";
import { plainTitles } from "./titles.ts";
import { isSpareTime, usesOf } from "./uses.ts";

/** Plans a table from the first rows of a text; null where no two rows in it hold numbers in step. */
export const planTable = (allRows: readonly string[][], dialect: Dialect, choices: ReadChoices): TablePlan | null =>
  planned(allRows, dialect, choices, []);

/** @param aside  rows right below the names that were found to be no samples. */
function planned(
  allRows: readonly string[][],
  dialect: Dialect,
  choices: ReadChoices,
  aside: readonly string[][],
): TablePlan | null {
  const mark = dialect.decimalMark;
  const rows = dialect.joinPairs ? allRows.map(joinPairs) : allRows;
  refuseOnItsSide(rows, mark);
  refuseTooWide(rows);
  const start = bodyStart(rows, mark);
  if (start === null) return null;
  const body = rows
    .slice(start, start + judged)
    .filter((row) => !isBlankRow(row) && !isComment(row) && isDataRow(row, mark));
  const width = Math.max(widthOf(body), namedWidth(rows.slice(0, start), body));
  const heads = headColumns(body, width, mark, choices.decimalMark !== undefined);
  const cutTimeAt = cutTime(heads, rows.slice(0, start));
  if (cutTimeAt !== null) {
    const plan = planTable(
      rows.map((row) => joinFraction(row, cutTimeAt)),
      dialect,
      choices,
    );
    return plan && { ...plan, cutTimeAt };
  }
  const firstIsIndex = heads.length > 1 && isCounter(heads[0]!);
  const header =
    choices.hasHeader === false
      ? { titles: plainTitles(width), rows: 0, between: [] }
      : headerAbove(rows.slice(0, start), width, firstIsIndex, mark);
  const forced = choices.hasHeader === true && header.rows === 0;
  const titles = forced
    ? headerAbove([rows[start]!.map((cell) => `${cell} `)], width, false, mark).titles
    : header.titles;
  const below = rows.slice(start + judged);
  const later = (i: number) => () => below.map((row) => row[i] ?? "");
  const columns = heads.map((head, i) => awaited({ ...head, title: titles[i]!, later: later(i) }, mark));
  const preamble = rows.slice(0, start - header.rows);
  const settings = [settingsIn(rows.slice(0, start)), settingsBeside(columns)].join("\n");
  const factors = factorsIn([...header.between, ...aside], columns, mark);
  const plan = assign(columns, settings, { choices, factors: factors.byColumn });
  const stray = isPlainTime(plan.time) ? strayRows(columns[plan.time.column!]!) : 0;
  if (stray > 0) return planWithout(stray, allRows, body, { rows, dialect, choices });
  return {
    ...plan,
    bodyRow: start + (forced ? 1 : 0),
    headerRows: rows.slice(start - header.rows, start).filter((row) => !isBlankRow(row)),
    preamble,
    cutTimeAt: null,
    remarks: [
      ...plan.remarks,
      ...factors.remarks,
      ...remarksBetween(header.between.filter((row) => !factors.rows.includes(row))),
    ],
  };
}

const isPlainTime = ({ column, form }: TimePlan): boolean => column !== null && form.kind === "number";

/** The plan without the first `count` rows of the body, which is put behind them again. */
function planWithout(
  count: number,
  allRows: readonly string[][],
  body: readonly (readonly string[])[],
  { rows, dialect, choices }: { rows: readonly string[][]; dialect: Dialect; choices: ReadChoices },
): TablePlan | null {
  const stray = body.slice(0, count).map((row) => rows.indexOf(row as string[]));
  const plan = planned(
    allRows.filter((_, r) => !stray.includes(r)),
    dialect,
    choices,
    stray.map((r) => rows[r]!),
  );
  const text = "rows right below the names after which the time stands back: limits or scales, and no samples";
  return plan && { ...plan, bodyRow: plan.bodyRow + count, remarks: [...plan.remarks, { text, count }] };
}

/** The cells of a row as the plan counts them. */
export function cellsOf(
  written: readonly string[],
  { joinPairs: isPairs }: Pick<Dialect, "joinPairs">,
  { cutTimeAt }: Pick<TablePlan, "cutTimeAt">,
): readonly string[] {
  const cells = isPairs ? joinPairs(written) : written;
  return cutTimeAt === null ? cells : joinFraction(cells, cutTimeAt);
}

/** Where a comma is delimiter and ISO 8601's decimal mark at once: the clock whose decimals stand in a cell of their own. */
function cutTime(heads: readonly HeadColumn[], above: readonly string[][]): number | null {
  const names = above.findLast((row) => !isBlankRow(row));
  if (names && names.length !== heads.length - 1) return null;
  const at = heads.findIndex(({ kind, cells }, i) => {
    const decimals = filledCells(heads[i + 1] ?? { cells: [] });
    const isClock =
      (kind === "clock" || kind === "instant") && cells.every((cell) => /^$|[:.]\d{2}$/.test(cell.trim()));
    return isClock && decimals.length > 1 && decimals.every((cell) => /^(\d{3}|\d{6}|\d{9})$/.test(cell.trim()));
  });
  return at < 0 ? null : at;
}

function joinFraction(row: readonly string[], at: number): string[] {
  const [clock, decimals] = [row[at] ?? "", row[at + 1] ?? ""];
  if (!/\d{2}\s*$/.test(clock) || !/^\s*\d+\s*$/.test(decimals)) return [...row];
  return [...row.slice(0, at), `${clock.trim()}.${decimals.trim()}`, ...row.slice(at + 2)];
}

const mostColumns = 2000;

function refuseTooWide(rows: readonly string[][]): void {
  const widest = rows.reduce((most, row) => Math.max(most, row.length), 0);
  if (widest <= mostColumns) return;
  throw new ProblemError({
    code: "too-large",
    what: `A row has ${widest} columns; no more than ${mostColumns} can be opened.`,
    remedy: "Export the recording with one column per channel and one row per instant, or fewer channels.",
  });
}

/** "0","45","1","20" as the two numbers 0,45 and 1,20. */
function joinPairs(row: readonly string[]): string[] {
  const isPairs = row.length > 1 && row.length % 2 === 0 && row.every((cell) => /^\s*[+-]?\d+\s*$/.test(cell));
  if (!isPairs) return [...row];
  return row.filter((_, i) => i % 2 === 0).map((whole, i) => `${whole.trim()}.${row[2 * i + 1]!.trim()}`);
}

/** Cells a row when the names above reach as far as the rows do: an always empty last column that has a name is kept. */
function namedWidth(above: readonly string[][], body: readonly string[][]): number {
  const names = above.findLast((row) => !isBlankRow(row)) ?? [];
  const isNamed = names.length > 1 && names[names.length - 1]!.trim() !== "";
  return isNamed && body.filter((row) => row.length === names.length).length * 2 > body.length ? names.length : 0;
}

type Assigned = Pick<TablePlan, "columns" | "time" | "layout" | "rowsAreSimultaneous" | "remarks">;

interface Assigning {
  readonly choices: ReadChoices;
  /** By column; see `factorsIn`. */
  readonly factors: readonly (Factor | null)[];
}

function assign(columns: readonly HeadColumn[], preamble: string, { choices, factors }: Assigning): Assigned {
  const written = countedTime(columns, timeOf(columns, preamble, choices), preamble, choices);
  const time = multiplied(written, factors);
  const { layout, uses, own } = usesOf(columns, time);
  return {
    columns: columns.map((column, i) => columnPlan(column, uses[i]!, { own: own?.[i], factor: factors[i] ?? null })),
    time,
    layout,
    rowsAreSimultaneous: choices.rowsAreSimultaneous ?? /simultan|gleichzeitig/i.test(preamble),
    remarks: remarksOn(columns, uses, time),
  };
}

/** A counter of samples that was taken for time, or none at all: the stated rate, where there is one. */
function countedTime(columns: readonly HeadColumn[], time: TimePlan, preamble: string, choices: ReadChoices): TimePlan {
  if (time.column === null || choices.timeColumn !== undefined) return time;
  if (!countsRows(columns[time.column]!)) return time;
  const rate = choices.rate ?? rateIn(preamble);
  return rate === null ? { column: null, form: { kind: "none" }, resolution: 0, sure: false } : evenTime(rate, true);
}

/** A time in plain numbers by its own factor. */
function multiplied(time: TimePlan, factors: readonly (Factor | null)[]): TimePlan {
  const factor = time.column === null ? null : (factors[time.column] ?? null);
  if (time.form.kind !== "number" || factor === null) return time;
  const unit = time.form.unit * factor.times;
  return { ...time, form: { ...time.form, unit }, resolution: time.resolution * factor.times };
}

interface ColumnFacts {
  /** Its own time column, where channels bring their own. */
  readonly own: number | undefined;
  readonly factor: Factor | null;
}

function columnPlan({ title, mark, cells }: HeadColumn, use: ColumnUse, { own, factor }: ColumnFacts): ColumnPlan {
  const written = cells.map((cell) => writtenNumber(cell, mark)).filter((cell) => cell !== null);
  const unitInside = use !== "text" && written.some((cell) => cell.unit !== "" && conversionOf(cell.unit).known);
  const inside = unitInside ? conversionOf(written.find((cell) => cell.unit !== "")!.unit).unit : "";
  return {
    ...title,
    fileUnit: unitInside ? inside : title.fileUnit,
    use,
    unitInside,
    decimalMark: mark,
    decimals: Math.max(0, ...written.map((cell) => cell.decimals)),
    isFixed: new Set(written.slice(0, -1).map((cell) => cell.decimals)).size === 1, // the last may be the cut one
    ...(own === undefined ? {} : { stampedBy: own }),
    ...(use === "value" && factor ? { factor } : {}),
  };
}

function remarksBetween(rows: Header["between"]): Remark[] {
  if (rows.length === 0) return [];
  const begins = rows.map((row) => row.find((cell) => cell.trim() !== "")?.trim() ?? "");
  return [
    {
      text: `between names and numbers, and no samples: the lines that begin with ${listed(begins)}`,
      count: rows.length,
    },
  ];
}

function remarksOn(columns: readonly HeadColumn[], uses: readonly ColumnUse[], time: TimePlan): Remark[] {
  const left = columns.filter((_, i) => uses[i] === "text").map(({ title }) => title.name);
  const remarks: Remark[] = [];
  const beside = besideRows(columns);
  const settings = columns.filter((_, i) => beside[i] && uses[i] === "ignored").map(({ title }) => title.name);
  if (settings.length > 0)
    remarks.push({ text: `settings beside the first rows, no channels: ${listed(settings)}`, count: settings.length });
  const spare = columns.filter((column, i) => uses[i] === "ignored" && isSpareTime(column, i, time));
  if (spare.length > 0) {
    const names = spare.map(({ title }) => title.name);
    const taken = columns[time.column!]!.title.name;
    remarks.push({
      text: `also named like a time, and left out, as ${taken} is the time: ${listed(names)}`,
      count: spare.length,
    });
  }
  if (left.length > 0) remarks.push({ text: `left out as they hold no numbers: ${listed(left)}`, count: left.length });
  if (time.assumed) remarks.push(remarkOf(time.assumed));
  if (time.isDateOpen && time.form.kind === "instant") {
    const read = time.form.order === "mdy" ? "month first" : "day first";
    const other = time.form.order === "mdy" ? "day-first" : "month-first";
    remarks.push({
      text: `the order of day and month is not shown by the dates; read as ${read} (on the command line --dates ${other} for the other way)`,
    });
  }
  return remarks;
}
