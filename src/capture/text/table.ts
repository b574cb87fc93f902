// Where the numbers begin, what stands above them, and what each column is.

import { ProblemError } from "../../problem.ts";
import type { Remark } from "../capture.ts";
import { conversionOf } from "../quantities.ts";
import type { ReadChoices } from "../reader.ts";
import { partOf, wordsOf } from "../roles.ts";
import type { Dialect } from "./dialect.ts";
import { headerAbove, plainTitles } from "./header.ts";
import { type CellKind, isDataRow, kindOf } from "./kinds.ts";
import { type DecimalMark, isMissing, writtenNumber } from "./numbers.ts";
import type { ColumnPlan, ColumnUse, Layout, TablePlan, TimePlan } from "./plan.ts";
import { isBlankRow, isComment } from "./split.ts";
import { statusIn } from "./status.ts";
import { evenTime, type HeadColumn, isCounter, isCounterName, looksLikeTime, rateIn, timeOf } from "./time-column.ts";

const judged = 400; // rows of the body that are looked at

/** Plans a table from the first rows of a text; null where no two rows in it hold numbers in step. */
export function planTable(allRows: readonly string[][], dialect: Dialect, choices: ReadChoices): TablePlan | null {
  const mark = dialect.decimalMark;
  const rows = dialect.joinPairs ? allRows.map(joinPairs) : allRows;
  refuseTooWide(rows);
  const start = bodyStart(rows, mark);
  if (start === null) return null;
  const body = rows
    .slice(start, start + judged)
    .filter((row) => !isBlankRow(row) && !isComment(row) && isDataRow(row, mark));
  const width = Math.max(widthOf(body), namedWidth(rows.slice(0, start), body));
  const heads = headColumns(body, width, mark);
  const firstIsIndex = heads.length > 1 && isCounter(heads[0]!, mark);
  const header =
    choices.hasHeader === false
      ? { titles: plainTitles(width), rows: 0 }
      : headerAbove(rows.slice(0, start), width, firstIsIndex, mark);
  const forced = choices.hasHeader === true && header.rows === 0;
  const titles = forced
    ? headerAbove([rows[start]!.map((cell) => `${cell} `)], width, false, mark).titles
    : header.titles;
  const columns = heads.map((head, i) => ({ ...head, title: titles[i]! }));
  const preamble = rows.slice(0, start - header.rows);
  const plan = assign(columns, mark, preamble.map((row) => row.join(" ")).join("\n"), choices);
  return {
    ...plan,
    bodyRow: start + (forced ? 1 : 0),
    headerRows: rows.slice(start - header.rows, start).filter((row) => !isBlankRow(row)),
    preamble,
  };
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
export function joinPairs(row: readonly string[]): string[] {
  const isPairs = row.length > 1 && row.length % 2 === 0 && row.every((cell) => /^\s*[+-]?\d+\s*$/.test(cell));
  if (!isPairs) return [...row];
  return row.filter((_, i) => i % 2 === 0).map((whole, i) => `${whole.trim()}.${row[2 * i + 1]!.trim()}`);
}

/** The first row of the longest stretch of rows that go in step; rows of settings above it do not. */
function bodyStart(rows: readonly string[][], mark: DecimalMark): number | null {
  const isData = rows.map((row) => !isBlankRow(row) && !isComment(row) && isDataRow(row, mark));
  const [from, to] = longestStretch(rows, isData);
  if (from === to) return null;
  const middle = rows
    .slice(from, to)
    .filter((_, i) => isData[from + i])
    .slice(-judged);
  const width = widthOf(middle);
  const kinds = headColumns(middle, width, mark).map(({ kind }) => kind);
  for (let r = from; r < to; r++) if (isData[r] && inStep(rows[r]!, kinds, mark)) return r;
  return from;
}

/** Data rows one after another; a row of other words ends the stretch unless data rows of the same width go on at once. */
function longestStretch(rows: readonly string[][], isData: readonly boolean[]): readonly [from: number, to: number] {
  let [best, from, held]: [[number, number], number, number] = [[0, 0], -1, 0];
  let most = 0;
  const close = (to: number) => {
    if (from >= 0 && held > most) [best, most] = [[from, to], held];
    [from, held] = [-1, 0];
  };
  rows.forEach((row, r) => {
    if (isData[r]) {
      const isOtherWidth = from >= 0 && Math.abs(row.length - rows[from]!.length) > 1 && !isData[r - 1];
      if (isOtherWidth) close(r);
      if (from < 0) from = r;
      else if (row.length !== rows[from]!.length && held < 3 && isData[r + 1] && rows[r + 1]!.length === row.length) {
        close(r); // settings that look like numbers, above the body
        from = r;
      }
      held++;
    } else if (!isBlankRow(row) && !isComment(row)) close(r);
  });
  close(rows.length);
  return best;
}

/** The most usual number of cells, an empty last one not counted where it is always empty. */
function widthOf(rows: readonly string[][]): number {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  const width = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0])[0];
  const lastIsEmpty = width > 1 && rows.every((row) => row.length !== width || row[width - 1]!.trim() === "");
  return lastIsEmpty ? width - 1 : width;
}

/** Cells a row when the names above reach as far as the rows do: an always empty last column that has a name is kept. */
function namedWidth(above: readonly string[][], body: readonly string[][]): number {
  const names = above.findLast((row) => !isBlankRow(row)) ?? [];
  const isNamed = names.length > 1 && names[names.length - 1]!.trim() !== "";
  return isNamed && body.filter((row) => row.length === names.length).length * 2 > body.length ? names.length : 0;
}

function headColumns(rows: readonly string[][], width: number, mark: DecimalMark): HeadColumn[] {
  const titles = plainTitles(width);
  return Array.from({ length: width }, (_, i) => {
    const cells = rows.map((row) => row[i] ?? "");
    return { title: titles[i]!, kind: mainKind(cells, mark), cells };
  });
}

function mainKind(cells: readonly string[], mark: DecimalMark): CellKind {
  const counts = new Map<CellKind, number>();
  for (const cell of cells) {
    const kind = kindOf(cell, mark);
    if (kind !== "missing") counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  return [...counts].reduce<readonly [CellKind, number]>((a, b) => (b[1] > a[1] ? b : a), ["missing", 0])[0];
}

function inStep(row: readonly string[], kinds: readonly CellKind[], mark: DecimalMark): boolean {
  if (Math.abs(row.length - kinds.length) > 1 && row.length < kinds.length) return false;
  const asked = kinds
    .map((kind, i) => [kind, kindOf(row[i] ?? "", mark)] as const)
    .filter(([kind]) => kind !== "missing");
  const fits = asked.filter(([kind, got]) => kind === got || got === "missing" || kind === "text").length;
  const [first] = asked;
  return fits * 2 >= asked.length && (!first || first[0] === first[1] || first[1] === "missing" || first[0] === "text");
}

type Assigned = Pick<TablePlan, "columns" | "time" | "layout" | "rowsAreSimultaneous" | "remarks">;

function assign(columns: readonly HeadColumn[], mark: DecimalMark, preamble: string, choices: ReadChoices): Assigned {
  const isLong = longForm(columns);
  const time = countedTime(columns, timeOf(columns, mark, preamble, choices), mark, preamble, choices);
  const own = isLong ? null : ownTimes(columns, time, mark);
  const layout: Layout = isLong ? "long" : own ? "time-per-channel" : "rows";
  const uses = columns.map((column, i) => useOf(columns, column, i, time, isLong, own, mark));
  return {
    columns: columns.map((column, i) => columnPlan(column, uses[i]!, mark, own?.[i])),
    time,
    layout,
    rowsAreSimultaneous: choices.rowsAreSimultaneous ?? /simultan|gleichzeitig/i.test(preamble),
    remarks: remarksOn(columns, uses, time),
  };
}

/** A counter of samples that was taken for time, or none at all: the stated rate, where there is one. */
function countedTime(
  columns: readonly HeadColumn[],
  time: TimePlan,
  mark: DecimalMark,
  preamble: string,
  choices: ReadChoices,
): TimePlan {
  if (time.column === null || choices.timeColumn !== undefined) return time;
  const column = columns[time.column]!;
  const isPlainCounter = isCounter(column, mark) && isCounterName(column.title.header) && column.title.fileUnit === "";
  if (!isPlainCounter) return time;
  const rate = choices.rate ?? rateIn(preamble);
  return rate === null ? { column: null, form: { kind: "none" }, resolution: 0, sure: false } : evenTime(rate, true);
}

function useOf(
  columns: readonly HeadColumn[],
  column: HeadColumn,
  i: number,
  time: TimePlan,
  isLong: boolean,
  own: readonly number[] | null,
  mark: DecimalMark,
): ColumnUse {
  if (i === time.column || own?.includes(i)) return "time";
  if (time.form.kind === "instant" && i === time.form.dateColumn) return "date";
  if (isLong && column.kind === "text")
    return i === channelColumn(columns) ? "channel" : unitColumn(column) ? "unit" : "text";
  if (column.kind === "text") return isStatus(column) ? "status" : "text";
  if (column.kind === "date" || column.kind === "clock" || column.kind === "instant") return "text";
  const isCount = column.kind === "number" && isCounterName(column.title.header) && isCounter(column, mark);
  if (isCount || isSpareTime(column, i, time) || isSettings(column)) return "ignored";
  return "value";
}

/** Another clock beside the chosen one. */
function isSpareTime(column: HeadColumn, i: number, time: TimePlan): boolean {
  return (
    i !== time.column &&
    time.column !== null &&
    looksLikeTime(column) &&
    /\b(time\w*|zeit\w*|epoch|unix|timestamp)\b/.test(wordsOf(column.title.name))
  );
}

/** Numbers beside the first rows only, without a name: settings. */
function isSettings({ title, kind, cells }: HeadColumn): boolean {
  return (
    kind === "number" && title.header === "" && cells.filter((cell) => cell.trim() !== "").length < 0.5 * cells.length
  );
}

function isStatus({ title, cells }: HeadColumn): boolean {
  const filled = cells.filter((cell) => !isMissing(cell));
  const isNamed = partOf(title.name, title.fileUnit).role === "fuel-status";
  return isNamed && filled.some((cell) => statusIn(cell) !== null);
}

/** Column of channel names of the long form (one row per sample), or -1. */
function channelColumn(columns: readonly HeadColumn[]): number {
  return columns.findIndex(({ kind, title, cells }) => {
    if (kind !== "text") return false;
    const names = new Set(cells.filter((cell) => cell.trim() !== ""));
    if (names.size < 1 || names.size > Math.max(2, cells.length / 2)) return false;
    const saysSo =
      /\b(channel|signal|name|pid|parameter|sensor|variable|series|kanal|messgrosse|grosse|canal|voie|senal|quantity|item|key|tag|label|measurement)\b/;
    return saysSo.test(wordsOf(title.name)) || [...names].some((name) => isRoleName(name));
  });
}

function isRoleName(name: string): boolean {
  const { role } = partOf(name, "");
  return role !== "other" && role !== "fuel-status" && statusIn(name) === null;
}

const unitColumn = ({ cells }: HeadColumn): boolean => {
  const filled = cells.filter((cell) => cell.trim() !== "");
  return filled.length > 0 && filled.filter((cell) => conversionOf(cell).known).length * 2 > filled.length;
};

/** One channel name, one value and a time a row. */
function longForm(columns: readonly HeadColumn[]): boolean {
  if (channelColumn(columns) < 0) return false;
  const values = columns.filter(
    (column) => column.kind === "number" && !looksLikeTime(column) && !isCounterName(column.title.name),
  );
  return values.length === 1;
}

/** For each column the time column at its left, where several channels bring their own; null for one common time. */
function ownTimes(columns: readonly HeadColumn[], time: TimePlan, mark: DecimalMark): number[] | null {
  if (time.form.kind === "none" || time.form.kind === "rate") return null;
  const times = columns.map((column, i) => (looksLikeTime(column) ? i : -1)).filter((i) => i >= 0);
  const runs = times.filter((i) => !times.includes(i + 1) && i + 1 < columns.length);
  if (runs.length < 2 || times[0] !== 0 || times.length !== runs.length) return null;
  const kinds = new Set(runs.map((i) => columns[i]!.kind));
  const starts = runs.map((i) => Number(columns[i]!.cells.find((cell) => !isMissing(cell))?.replace(",", ".") ?? 0));
  if (kinds.size > 1 || (columns[runs[0]!]!.kind === "number" && spreadOf(starts) > 3600)) return null;
  if (runs.some((i) => columns[i]!.cells.some((cell) => !isMissing(cell) && kindOf(cell, mark) === "text")))
    return null;
  return columns.map((_, i) => Math.max(...times.filter((at) => at <= i)));
}

const spreadOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

function columnPlan({ title, cells }: HeadColumn, use: ColumnUse, mark: DecimalMark, own?: number): ColumnPlan {
  const written = cells.map((cell) => writtenNumber(cell, mark)).filter((cell) => cell !== null);
  const unitInside = use !== "text" && written.some((cell) => cell.unit !== "" && conversionOf(cell.unit).known);
  const inside = unitInside ? conversionOf(written.find((cell) => cell.unit !== "")!.unit).unit : "";
  return {
    ...title,
    fileUnit: unitInside ? inside : title.fileUnit,
    use,
    unitInside,
    decimals: Math.max(0, ...written.map((cell) => cell.decimals)),
    ...(own === undefined ? {} : { stampedBy: own }),
  };
}

function remarksOn(columns: readonly HeadColumn[], uses: readonly ColumnUse[], time: TimePlan): Remark[] {
  const left = columns.filter((_, i) => uses[i] === "text").map(({ title }) => title.name);
  const remarks: Remark[] = [];
  if (left.length > 0) remarks.push({ text: `left out as they hold no numbers: ${listed(left)}`, count: left.length });
  if (time.assumed) remarks.push({ text: time.assumed });
  return remarks;
}

export function listed(names: readonly string[]): string {
  return names.length > 8 ? `${names.slice(0, 8).join(", ")} and ${names.length - 8} more` : names.join(", ");
}
