// Settings of a recorder at the right of the columns: names and values that stand beside the first rows only, or never change.

import { conversionOf } from "../meaning/quantities.ts";
import { filledCells, type HeadColumn } from "./head-columns.ts";
import { kindOf } from "./kinds.ts";
import { isMissing } from "./numbers.ts";
import { lineOf } from "./stated-rate.ts";

/** Fewer rows tell nothing, and settings fill at most this many of the first ones. */
const leastRows = 20;
const mostSettings = 12;

/** For each column whether it holds settings: words or numbers beside the first rows only, with nothing but the like at its right. */
export function besideRows(columns: readonly HeadColumn[]): boolean[] {
  const out = columns.map(() => false);
  for (let i = columns.length - 1; i > 0; i--) {
    if (!endsSoon(columns[i]!)) break;
    out[i] = filledCells(columns[i]!).length > 0;
  }
  return out;
}

/** What is filled again further down is a channel that is seldom asked for. */
function endsSoon({ cells, later }: HeadColumn): boolean {
  const last = cells.findLastIndex((cell) => !isMissing(cell));
  const isShort = cells.length >= leastRows && last < Math.min(mostSettings, cells.length / 4);
  return isShort && (later?.() ?? []).every(isMissing);
}

/** What the settings say, a line each: "name value unit", by row where names stand in the rows, by column where they stand above. */
export function settingsBeside(columns: readonly HeadColumn[]): string {
  const beside = besideRows(columns);
  const settings = columns.filter((_, i) => beside[i]);
  const inRows = Array.from({ length: settings.length > 0 ? mostSettings : 0 }, (_, r) =>
    lineOf(settings.map(({ cells }) => cells[r] ?? "")),
  );
  const alone = columns.filter((column, i) => i > 0 && isOneNumber(column));
  return [...inRows, ...alone.map(({ title, cells }) => `${title.name} ${filledCells({ cells })[0]} ${title.fileUnit}`)]
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .join("\n");
}

/** One number, in one row or in all of them, below a name that is none of a quantity with a unit of its own. */
function isOneNumber({ title, cells, mark }: HeadColumn): boolean {
  const filled = new Set(filledCells({ cells }).map((cell) => cell.trim()));
  const isPace = title.fileUnit === "" || ["s", "Hz"].includes(conversionOf(title.fileUnit).unit);
  return isPace && filled.size === 1 && kindOf([...filled][0]!, mark) === "number";
}
