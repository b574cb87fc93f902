// Reads the time of a row in the form the plan found.

import { clockIn, dayIn, instantIn } from "./clock.ts";
import { numberIn } from "./numbers.ts";
import type { TablePlan } from "./plan.ts";
import { fieldsIn } from "./time-fields.ts";

/** Time of a row from its time column `i`: s, or for plain numbers as written. NaN where there is none. */
export type CellTime = (cells: readonly string[], i: number) => number;

export function cellTime(table: TablePlan): CellTime {
  const { parts } = table.time;
  const whole = wholeTime(table);
  if (!parts) return whole;
  const mark = table.columns[parts.column]!.decimalMark;
  return (cells, i) => whole(cells, i) + parts.unit * numberIn(cells[parts.column] ?? "", mark);
}

function wholeTime({ time: { form }, columns }: TablePlan): CellTime {
  if (form.kind === "clock" && form.isPacked)
    return (cells, i) => clockIn(padded(cells[i] ?? ""))?.seconds ?? Number.NaN;
  if (form.kind === "clock") return (cells, i) => clockSeconds(cells[i] ?? "", form.parts);
  if (form.kind === "fields") {
    return (cells) => fieldsIn(form.fields, (column) => numberIn(cells[column] ?? "", columns[column]!.decimalMark));
  }
  if (form.kind !== "instant") return (cells, i) => numberIn(cells[i] ?? "", columns[i]!.decimalMark);
  const { order, dateColumn } = form;
  if (dateColumn === null) return (cells, i) => instantIn(cells[i] ?? "", order)?.seconds ?? Number.NaN;
  return (cells, i) => dayIn(cells[dateColumn] ?? "", order) * 86400 + clockSeconds(cells[i] ?? "", 3);
}

/** Epochs count in UTC; days of spreadsheets, calendars and clocks are the recorder's own. */
export function hasZone({ time: { form } }: Pick<TablePlan, "time">): boolean {
  if (form.kind === "number") return form.zero === 0;
  return (form.kind === "instant" || form.kind === "fields") && form.hasZone;
}

/** Two parts among clocks of three are hours and minutes. */
function clockSeconds(cell: string, parts: 2 | 3): number {
  const clock = clockIn(cell);
  if (!clock) return Number.NaN;
  return parts === 3 && clock.parts === 2 && clock.decimals === 0 ? clock.seconds * 60 : clock.seconds;
}

/** A packed clock with the zeros that a number loses in front: "95800" is 09:58:00. */
export const padded = (cell: string): string =>
  cell.trim().replace(/^\d{1,5}(?=$|[.,])/, (digits) => digits.padStart(6, "0"));
