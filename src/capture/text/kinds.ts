// What a cell looks like: number, clock, date, both, nothing, or text.

import { clockIn, type DateOrder, dateFields, dayIn, instantIn } from "./clock.ts";
import { type DecimalMark, isMissing, numberIn, writtenNumber } from "./numbers.ts";

export type CellKind = "number" | "clock" | "date" | "instant" | "missing" | "text";

/** What most cells are, told at once: no date, no clock and no word for a missing value is written so. */
const isPlain = (cell: string, mark: DecimalMark): boolean => mark === "." && plainShape.test(cell);
const plainShape = /^-?\d{1,15}(?:\.\d{1,15})?$/;

export function kindOf(cell: string, mark: DecimalMark): CellKind {
  if (isPlain(cell, mark)) return "number";
  if (isMissing(cell)) return "missing";
  if (!Number.isNaN(numberIn(cell, mark))) return "number";
  if (cell.length > 64) return "text";
  const isDate = orders.some((order) => !Number.isNaN(dayIn(cell, order)));
  if (!isDate && clockIn(cell)) return "clock";
  if (orders.some((order) => instantIn(cell, order))) return "instant";
  return isDate || dateFields(cell) ? "date" : "text";
}

const orders: readonly DateOrder[] = ["ymd", "dmy", "mdy"];

export const isValueKind = (kind: CellKind): boolean => kind !== "missing" && kind !== "text";

/** A row that can stand in the body: some value, under whichever decimal mark, and not mostly words. */
export function isDataRow(row: readonly string[], mark: DecimalMark): boolean {
  let [values, filled] = [0, 0];
  for (const cell of row) {
    const kind = kindOf(cell, mark);
    if (isValueKind(kind) || kindOf(cell, mark === "." ? "," : ".") === "number") values++;
    if (kind !== "missing") filled++;
  }
  return values > 0 && values * 3 >= filled;
}

/** How well a row reads under a decimal mark: 1 for a value, half for one with thousands marks, over the filled cells. */
export function valueShare(
  row: readonly string[],
  mark: DecimalMark,
): { readonly share: number; readonly values: number } {
  let [worth, values, filled] = [0, 0, 0];
  for (const cell of row) {
    const kind = kindOf(cell, mark);
    if (kind === "missing") continue;
    filled++;
    if (kind === "text") continue;
    values++;
    worth += kind === "number" && !isPlain(cell, mark) && writtenNumber(cell, mark)?.grouped ? 0.5 : 1;
  }
  return { share: filled === 0 ? 0 : worth / filled, values };
}
