// Names and units of the columns, from the rows above the numbers.

import { isUnit } from "../meaning/quantities.ts";
import { roleNamedBy } from "../meaning/roles.ts";
import { isDataRow, isValueKind, kindOf } from "./kinds.ts";
import type { DecimalMark } from "./numbers.ts";
import { type ColumnTitle, plainTitles, titleOf, titlesOf } from "./titles.ts";

export interface Header {
  readonly titles: readonly ColumnTitle[];
  /** How many rows right above the body belong to it, blank ones included. */
  readonly rows: number;
  /** Rows between names and body that are neither units nor blank: limits, scales, kinds, settings. */
  readonly between: readonly (readonly string[])[];
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
  const named = namedRow(above, at, { width, reach, mark });
  const found =
    named < at
      ? withNamesAt(above, named, at, { width, reach })
      : withNamesRightAbove(above, at, { width, reach, mark });
  if (!found) return { titles: plainTitles(width), rows: 0, between: [] };
  let { names, top } = found;
  const group = top > 0 ? tidy(above[top - 1]!, width, reach) : null;
  if (group && isGroupOver(group, names, mark)) [names, top] = [joined(group, names), top - 1];
  return {
    titles: titlesOf(shifted(names, width, firstIsIndex), shifted(found.units, width, firstIsIndex), width),
    rows: above.length - top,
    between: found.between,
  };
}

interface Place {
  readonly width: number;
  readonly reach: number;
  readonly mark: DecimalMark;
}

interface Found {
  readonly names: string[];
  readonly units: readonly string[];
  /** The highest row of them. */
  readonly top: number;
  readonly between: readonly (readonly string[])[];
}

function withNamesRightAbove(above: readonly string[][], at: number, { width, reach, mark }: Place): Found | null {
  const nearest = at >= 0 ? tidy(above[at]!, width, reach) : null;
  if (!nearest || !fitsWidth(nearest, width)) return null;
  const higher = nextHigher(above, at, width, reach);
  const between: Found["between"] = [];
  if (isUnitRow(nearest) && higher && isNameRow(higher.cells, mark))
    return { names: higher.cells, units: nearest, top: higher.at, between };
  if (isUnitRow(nearest) && nearest.every(unitLike))
    return { names: nearest.map(() => ""), units: nearest, top: at, between };
  if (higher && isUnitRow(higher.cells) && higher.cells.length >= width - 1)
    return { names: nearest, units: higher.cells, top: higher.at, between };
  if (!isNameRow(nearest, mark) && isDataRow(nearest, mark) && kindOf(nearest[0] ?? "", mark) !== "text") return null;
  return { names: nearest, units: [], top: at, between };
}

/** Names further up: units among the rows below them, or right above. */
function withNamesAt(
  above: readonly string[][],
  named: number,
  at: number,
  { width, reach }: Omit<Place, "mark">,
): Found {
  const names = tidy(above[named]!, width, reach);
  const below = above.slice(named + 1, at + 1).filter((row) => !isRule(row));
  const isOfUnits = (row: string[] | undefined) => {
    const cells = row && tidy(row, width, reach);
    return cells && fitsWidth(cells, width) && isUnitRow(cells) ? cells : null;
  };
  const inside = below.find((row) => isOfUnits(row));
  const higher = inside ? null : isOfUnits(above[named - 1]);
  const units = isOfUnits(inside) ?? higher ?? [];
  return { names, units, top: higher ? named - 1 : named, between: below.filter((row) => row !== inside) };
}

/** So far above the body names are looked for: limits, scales, kinds and settings may stand below them. */
const farthest = 8;

/**
 * Row of the names: that with most names of quantities we know, where rows of something else stand below it; else the first above
 * rows of numbers with a word in front ("min", "max"). `at` where neither is.
 */
function namedRow(above: readonly string[][], at: number, { width, reach, mark }: Place): number {
  let [best, most] = [at, at >= 0 ? knownNames(tidy(above[at]!, width, reach)) : 0];
  let underLimits = true;
  for (let i = at - 1; i >= Math.max(0, at - farthest); i--) {
    underLimits &&= isRule(above[i + 1]!) || isLimits(tidy(above[i + 1]!, width, reach), mark);
    const cells = tidy(above[i]!, width, reach);
    if (isDataRow(cells, mark) && isValueKind(kindOf(cells[0] ?? "", mark))) {
      if (isUnitRow(tidy(above[i + 1]!, width, reach))) continue; // factors, between names and units
      break;
    }
    if (!fitsWidth(cells, width) || !isNameRow(cells, mark) || isRule(above[i]!)) continue;
    const known = knownNames(cells);
    if (known > most && known > 1) [best, most] = [i, known];
    else if (best === at && underLimits && !isUnitRow(cells)) best = i;
  }
  return best;
}

function knownNames(cells: readonly string[]): number {
  return cells.filter((cell) => {
    const { name, fileUnit } = titleOf(cell);
    return roleNamedBy(name, fileUnit).role !== "other";
  }).length;
}

/** A word, and numbers that do not just count the columns. */
function isLimits([label = "", ...cells]: readonly string[], mark: DecimalMark): boolean {
  const filled = cells.filter((cell) => cell !== "");
  const isNumbers = filled.length > 0 && filled.every((cell) => kindOf(cell, mark) === "number");
  const counts = filled.every((cell, i) => Number(cell) === Number(filled[0]) + i);
  return isNumbers && kindOf(label, mark) === "text" && !(counts && filled.length > 1);
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
  return (
    filled.length > 0 &&
    filled.filter(unitLike).length * 2 > filled.length &&
    filled.some((cell) => isUnit(cell) && cell !== "1")
  );
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
  return new Set(names).size < names.length || isRestOf(group, names);
}

/** Names on two lines: where the lower one is empty the upper is not, and nearly every column has both. */
function isRestOf(group: readonly string[], names: readonly string[]): boolean {
  const isGroupEach = names.every((_, i) => (group[i] ?? "") !== "");
  return isGroupEach && names.some((name) => name === "");
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
