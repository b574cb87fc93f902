// A table that lies on its side: one row for each channel, its name in front.

import { ProblemError } from "../../problem.ts";
import { kindOf } from "./kinds.ts";
import type { DecimalMark } from "./numbers.ts";

/** Own choice: so many times as many columns as rows, and so many values in each row, are no recording of instants. */
const wider = 4;
const leastValues = 20;

/** @throws ProblemError where every row is a name and many numbers, and there are few rows. */
export function refuseOnItsSide(rows: readonly (readonly string[])[], mark: DecimalMark): void {
  const filled = rows.filter((row) => row.some((cell) => cell.trim() !== ""));
  if (filled.length < 2 || !filled.every((row) => isChannel(row, filled.length, mark))) return;
  throw new ProblemError({
    code: "unclear",
    what: `The table lies on its side: each of its ${filled.length} rows is one channel, with its name in front.`,
    remedy: "Turn rows and columns over in a spreadsheet, or export it with one column per channel.",
  });
}

function isChannel(row: readonly string[], rows: number, mark: DecimalMark): boolean {
  const [name = "", ...cells] = row;
  if (cells.length < Math.max(leastValues, wider * rows) || kindOf(name, mark) !== "text") return false;
  const others = cells.filter((cell) => !["number", "clock", "missing"].includes(kindOf(cell, mark)));
  return others.length <= 1;
}
