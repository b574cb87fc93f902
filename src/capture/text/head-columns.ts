// The columns of a text as its first rows show them: what their cells are, and which decimal mark they have.

import { roleNamedBy } from "../meaning/roles.ts";
import { clockIn, dayIn, isBasicInstant } from "./clock.ts";
import { type CellKind, kindOf } from "./kinds.ts";
import { type DecimalMark, isMissing, numberIn } from "./numbers.ts";
import { type ColumnTitle, plainTitles } from "./titles.ts";

/** A column of the head: what its cells are, and the cells. */
export interface HeadColumn {
  readonly title: ColumnTitle;
  readonly kind: CellKind;
  readonly mark: DecimalMark;
  readonly cells: readonly string[];
  /** Those of the rows below, as far as they are at hand. */
  readonly later?: () => readonly string[];
}

/** @param isMarkSaid  the user named the decimal mark: it holds for every column, readable or not. */
export function headColumns(
  rows: readonly (readonly string[])[],
  width: number,
  mark: DecimalMark,
  isMarkSaid = false,
): HeadColumn[] {
  const titles = plainTitles(width);
  const heads = Array.from({ length: width }, (_, i): HeadColumn => {
    const cells = rows.map((row) => row[i] ?? "");
    const own = isMarkSaid ? mark : markOf(cells, mark);
    return { title: titles[i]!, kind: mainKind(cells, own), mark: own, cells };
  });
  const [date, clock] = [heads.findIndex((head) => isBasic(head, 8)), heads.findIndex((head) => isBasic(head, 6))];
  if (date < 0 || clock < 0) return heads;
  return heads.map((head, i) =>
    i === date ? { ...head, kind: "date" } : i === clock ? { ...head, kind: "clock" } : head,
  );
}

/** A date of eight digits, or a clock of six: believed only of two columns side by side in one table. */
function isBasic(head: HeadColumn, digits: 6 | 8): boolean {
  const cells = filledCells(head);
  const [shape, means] =
    digits === 8
      ? [/^(19|20)\d{6}$/, (cell: string) => dayIn(cell, "ymd")]
      : [/^\d{6}([.,]\d+)?$/, (cell: string) => clockIn(cell)?.seconds];
  return (
    head.kind === "number" &&
    cells.length > 1 &&
    cells.every((cell) => shape.test(cell.trim()) && Number.isFinite(means(cell)))
  );
}

/** The usual mark, unless more cells are numbers under the other one: some programs mix both in one file. */
function markOf(cells: readonly string[], usual: DecimalMark): DecimalMark {
  const other = usual === "." ? "," : ".";
  if (areThousands(cells, usual)) return other;
  const numbersUnder = (mark: DecimalMark) => cells.filter((cell) => kindOf(cell, mark) === "number").length;
  const usually = numbersUnder(usual);
  return usually < cells.length && numbersUnder(other) > usually ? other : usual;
}

/**
 * Whether the mark stands for thousands in a column of whole numbers, "900" and then "1.000": read as a decimal mark it would make
 * them fall to a thousandth, read as thousands they go on.
 */
function areThousands(cells: readonly string[], mark: DecimalMark): boolean {
  const filled = filledCells({ cells }).map((cell) => cell.trim());
  const marked = filled.filter((cell) => cell.includes(mark));
  if (marked.length === 0 || marked.length === filled.length) return false;
  if (!filled.every((cell) => /^[+-]?(?:\d{1,3}|[1-9]\d{0,2}(?:[.,]\d{3})+)$/.test(cell))) return false;
  return longestJump(filled, mark === "." ? "," : ".") < 0.5 * longestJump(filled, mark);
}

/** The longest step from cell to cell, over their range. */
function longestJump(cells: readonly string[], mark: DecimalMark): number {
  const values = cells.map((cell) => numberIn(cell, mark));
  const steps = values.slice(1).map((value, i) => Math.abs(value - values[i]!));
  return Math.max(0, ...steps) / (Math.max(...values) - Math.min(...values) || 1);
}

function mainKind(cells: readonly string[], mark: DecimalMark): CellKind {
  const counts = new Map<CellKind, number>();
  for (const cell of cells) {
    const kind = kindOf(cell, mark);
    if (kind !== "missing") counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  const kind = [...counts].reduce<readonly [CellKind, number]>((a, b) => (b[1] > a[1] ? b : a), ["missing", 0])[0];
  if (kind === "number" && filledCells({ cells }).every(isBasicInstant)) return "instant";
  return kind === "date" && areClocks(cells) ? "clock" : kind;
}

/** Of the shape that dates share with clocks, but moving by less than an hour a row: as dates they would jump. */
function areClocks(cells: readonly string[]): boolean {
  const clocks = cells.filter((cell) => !isMissing(cell)).map((cell) => clockIn(cell)?.seconds ?? Number.NaN);
  const steps = clocks.slice(1).map((seconds, i) => seconds - clocks[i]!);
  return steps.some((step) => step > 0) && steps.every((step) => step >= 0 && step < 3600);
}

/** So many numbers below words show that the words only stand for none, and so few words. Own choice. */
const awaitedLeast = { numbers: 10, words: 3 } as const;

/**
 * A column that begins with words, as a sensor's does until it is warm: a number column, where numbers follow, or where one word fills it
 * and its name is that of a quantity.
 */
export function awaited(column: HeadColumn, usual: DecimalMark): HeadColumn {
  if (column.kind !== "text") return column;
  const below = column.later?.() ?? [];
  const all = [...column.cells, ...below];
  const mark = markOf(below.length > 0 ? below : column.cells, usual);
  const filled = filledCells({ cells: all });
  const words = new Set(
    filled.filter((cell) => kindOf(cell, mark) === "text").map((cell) => cell.trim().toLowerCase()),
  );
  const numbers = filled.filter((cell) => kindOf(cell, mark) === "number").length;
  const follow = numbers >= awaitedLeast.numbers && words.size <= awaitedLeast.words;
  const { role } = roleNamedBy(column.title.name, column.title.fileUnit);
  const isNamed = role !== "other" && role !== "fuel-status" && words.size === 1;
  return follow || isNamed ? { ...column, kind: "number", mark } : column;
}

/** A number column with few holes: settings beside the first rows are no time. */
export function isFull({ kind, cells }: HeadColumn): boolean {
  return kind === "number" && cells.filter((cell) => cell.trim() !== "").length >= 0.8 * cells.length;
}

/** The numbers of a column, those that are missing left out. */
export const numbersOf = ({ cells, mark }: HeadColumn): number[] =>
  cells.map((cell) => numberIn(cell, mark)).filter((value) => !Number.isNaN(value));

/** Whole numbers one apart. */
export function isCounter(column: HeadColumn): boolean {
  const values = numbersOf(column);
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  return values.length > 1 && values.every(Number.isInteger) && steps.every((step) => step === 1);
}

/** The cells that hold something. */
export const filledCells = ({ cells }: Pick<HeadColumn, "cells">): string[] => cells.filter((cell) => !isMissing(cell));
