// Names and units of the columns, from the rows above the numbers.

import { isUnit } from "../meaning/quantities.ts";
import { isDataRow, isValueKind, kindOf } from "./kinds.ts";
import { mendedText } from "./mended-text.ts";
import type { DecimalMark } from "./numbers.ts";

export interface ColumnTitle {
  readonly name: string;
  readonly header: string;
  readonly fileUnit: string;
}

export interface Header {
  readonly titles: readonly ColumnTitle[];
  /** How many rows right above the body belong to it, blank ones included. */
  readonly rows: number;
}

/**
 * @param above  rows from the file's first to the one before the body.
 * @param width  cells of a body row.
 * @param firstIsIndex  the first column counts rows: a header that is one cell short leaves it out.
 */
export function headerAbove(
  above: readonly string[][],
  width: number,
  firstIsIndex: boolean,
  mark: DecimalMark,
): Header {
  let at = above.length - 1;
  while (at >= 0 && above.length - at <= 3 && isRule(above[at]!)) at--;
  const reach = columnsIn(above.slice(0, at + 1), width, mark);
  const nearest = at >= 0 ? tidy(above[at]!, width, reach) : null;
  if (!nearest || !fitsWidth(nearest, width)) return { titles: plainTitles(width), rows: 0 };
  const higher = nextHigher(above, at, width, reach);
  let [names, units, top] = [nearest, [] as string[], at];
  if (isUnitRow(nearest) && higher && isNameRow(higher.cells, mark))
    [names, units, top] = [higher.cells, nearest, higher.at];
  else if (isUnitRow(nearest) && nearest.every(unitLike)) [names, units] = [nearest.map(() => ""), nearest];
  else if (higher && isUnitRow(higher.cells) && higher.cells.length >= width - 1)
    [units, top] = [higher.cells, higher.at];
  else if (!isNameRow(nearest, mark) && isDataRow(nearest, mark) && kindOf(nearest[0] ?? "", mark) !== "text")
    return { titles: plainTitles(width), rows: 0 };
  const group = top > 0 ? tidy(above[top - 1]!, width, reach) : null;
  if (group && isGroupOver(group, names, mark)) [names, top] = [joined(group, names), top - 1];
  return {
    titles: titlesOf(shifted(names, width, firstIsIndex), shifted(units, width, firstIsIndex), width),
    rows: above.length - top,
  };
}

/** A line drawn below the names, or nothing. */
const isRule = (row: readonly string[]): boolean => row.every((cell) => /^\s*[-=_+:]*\s*$/.test(cell));

/**
 * Comment mark in front taken off, an empty last cell too, and what stands right of the columns.
 *
 * @param reach  cells that belong to columns, see `columnsIn`.
 */
function tidy(row: readonly string[], width: number, reach: number): string[] {
  let cells = row.map((cell) => cell.trim());
  while (cells.length > width && cells.at(-1) === "") cells.pop();
  if (/^(#|%|\/\/|!)+$/.test(cells[0] ?? "") && cells.length > width) cells = cells.slice(1);
  cells[0] = (cells[0] ?? "").replace(/^(#|%|\/\/|!)+\s*/, "");
  while (cells.length > width && (cells.length > reach || cells.at(-1) === "")) cells.pop();
  return cells;
}

/**
 * How far the names reach: right of the rows' own cells may stand settings, each a name with one value, below it or beside it.
 * Names without any value there belong to columns that are never filled.
 */
function columnsIn(above: readonly string[][], width: number, mark: DecimalMark): number {
  const near = above.slice(-2);
  const isValue = (cell: string | undefined) => cell !== undefined && isValueKind(kindOf(cell.trim(), mark));
  const hasValue = near.some((row) => row.slice(width).some(isValue));
  return hasValue ? width : Number.POSITIVE_INFINITY;
}

function fitsWidth(cells: readonly string[], width: number): boolean {
  const filled = cells.filter((cell) => cell !== "").length;
  const isSparse = cells.length >= width - 1 && isUnitRow(cells); // some quantities have none
  return (
    (isSparse || filled >= Math.max(1, width / 2)) &&
    cells.length <= width + 1 &&
    cells.length >= Math.min(width, Math.max(1, width - 2))
  );
}

function nextHigher(
  above: readonly string[][],
  from: number,
  width: number,
  reach: number,
): { readonly at: number; readonly cells: string[] } | null {
  for (let at = from - 1; at >= 0 && at >= from - 2; at--) {
    if (isRule(above[at]!)) continue;
    const cells = tidy(above[at]!, width, reach);
    return fitsWidth(cells, width) ? { at, cells } : null;
  }
  return null;
}

/** "hh:mm:ss.sss" below the name of a clock. */
const isClockPattern = (cell: string): boolean => /^(h{1,2}:)?m{1,2}:s{1,2}([.,:][a-z]+)?$/i.test(cell);

const unitLike = (cell: string): boolean =>
  isUnit(cell) || isClockPattern(cell) || /^[[(].{0,14}[\])]$/.test(cell) || /^[-–]?$/.test(cell);

function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => !/^[-–]?$/.test(cell));
  return filled.length > 0 && filled.filter(unitLike).length * 2 > filled.length && filled.some((cell) => isUnit(cell));
}

function isNameRow(cells: readonly string[], mark: DecimalMark): boolean {
  const filled = cells.filter((cell) => cell !== "");
  return filled.length > 0 && filled.filter((cell) => !isValueKind(kindOf(cell, mark))).length * 2 >= filled.length;
}

/** A row of groups above the names: all words, none alone in its row, over names that need it or are all of one piece. */
function isGroupOver(group: readonly string[], names: readonly string[], mark: DecimalMark): boolean {
  const filled = group.filter((cell) => cell !== "");
  if (names.length < 3 || group.length < names.length - 1 || filled.length < 2) return false;
  if (filled.some((cell) => isValueKind(kindOf(cell, mark)) || /[:=]/.test(cell))) return false;
  return new Set(names).size < names.length;
}

function joined(group: readonly string[], names: readonly string[]): string[] {
  let last = "";
  return names.map((name, i) => {
    last = group[i] || last;
    return name === "" || name === last ? last : `${last} ${name}`.trim();
  });
}

/** One name short of the numbers: the counter in front has none. */
function shifted(cells: readonly string[], width: number, firstIsIndex: boolean): readonly string[] {
  return cells.length === width - 1 && firstIsIndex ? ["", ...cells] : cells;
}

function titlesOf(names: readonly string[], units: readonly string[], width: number): ColumnTitle[] {
  const seen = new Map<string, number>();
  return Array.from({ length: width }, (_, i) => {
    const header = names[i] ?? "";
    const title = titleOf(header);
    const unitBelow = (units[i] ?? "").replace(/^[[(]\s*(.*?)\s*[\])]$/, "$1").replace(/^[-–]$/, "");
    const name = title.name || `Column ${i + 1}`;
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return { name: times > 1 ? `${name} (${times})` : name, header, fileUnit: unitBelow || title.fileUnit };
  });
}

export function plainTitles(width: number): ColumnTitle[] {
  return Array.from({ length: width }, (_, i) => ({ name: `Column ${i + 1}`, header: "", fileUnit: "" }));
}

const longest = 120; // characters of a name; more is no name

/** "Front O2 [mV]", "Front O2 (mV)", "t/s", "Speed km/h", "Speed in km/h", "Speed, km/h": name and unit apart. */
export function titleOf(header: string): { readonly name: string; readonly fileUnit: string } {
  const text = mendedText(header)
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^'(?=[=+@\uff1d\uff0b\uff0d\uff20-])/, "")
    .slice(0, longest); // an apostrophe guards against formulas
  const bracket = /^(.+?)\s*[[({<]\s*([^[\](){}<>]{0,20}?)\s*[\])}>]$/.exec(text);
  if (bracket?.[1] && (isQuotient(bracket[2]!) || (text.endsWith("]") && !/\d/.test(bracket[2]!)))) {
    return { name: bracket[1].replace(/\s*\/$/, ""), fileUnit: bracket[2]! };
  }
  const quotient = /^(?:(.*?)(?:\s+in\s+|\s+-\s+|\s*[\s_/,;:]\s*))?([^\s_,;:/]+\/[^\s_,;:]+)$/i.exec(text);
  if (quotient && isQuotient(quotient[2]!)) return { name: quotient[1] || text, fileUnit: quotient[2]! };
  for (const mark of [/\s*\/\s*/, /\s*,\s*/, /\s*;\s*/, /\s*:\s*/, /\s+in\s+/i, /\s+-\s+/]) {
    const cut = text.search(mark);
    if (cut <= 0) continue;
    const unit = text.slice(cut).replace(mark, "");
    if (isUnit(unit)) return { name: text.slice(0, cut), fileUnit: unit };
  }
  return { name: text, fileUnit: trailingUnit(text) };
}

/** A unit over another, known or at least something per time: its last part alone would read as a time. */
const isQuotient = (text: string): boolean =>
  isUnit(text) ||
  /^(m?[gl]|[kcm]?m|kg|lbs?|gal|rev|rad|deg|°|1|counts?|pulses?)[²³]?\/(s|sec|min|h|hr)[²^2]*$/i.test(text);

/** "time_ms", "Front V": the name keeps its words, the unit is read from them. Single letters that name things are no units here. */
function trailingUnit(text: string): string {
  const last = /[\s_]([^\s_]+)$/.exec(text)?.[1] ?? "";
  if (/^(v|s|%)$/i.test(last)) return last;
  return last.length > 1 && isUnit(last) && !isAlsoWord.test(last) ? last : "";
}

/** Units that end a name as words, too: a least value, a count, a day, a mixture. */
const isAlsoWord =
  /^(mins?|counts?|ratio|equiv|eqratio|lambda|afr|a[/:]f|hours?|heures?|horas?|uur|stunden?|days?|tage?|jours?|dias?|minut\w*|second[eo]s?|grams?|gramm|atm|amps?|mb|hr|kn|kt|pa|kg|mg)$/i;
