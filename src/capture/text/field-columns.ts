// Which columns together are a time: side by side, named for a year, a month and so on.

import { wordsOf } from "../meaning/roles.ts";
import { type HeadColumn, numbersOf } from "./head-columns.ts";
import { numberIn } from "./numbers.ts";
import type { TimePlan } from "./plan.ts";
import { type FieldKind, fieldKinds, fieldsIn, type TimeField, type TimeFieldName, wrapOf } from "./time-fields.ts";

const order = Object.keys(fieldKinds) as TimeFieldName[];

/**
 * Columns side by side, named for a year, a month and so on, in that order, that together rise from row to row; null where
 * there are none. One field alone is an ordinary column of time.
 */
export function timeFieldsOf(columns: readonly HeadColumn[]): TimePlan | null {
  for (let from = 0; from < columns.length; from++) {
    const fields = runFrom(columns, from);
    if (fields.length > 1 && isRising(columns, fields)) return planOf(columns, fields);
  }
  return null;
}

function runFrom(columns: readonly HeadColumn[], from: number): TimeField[] {
  const fields: TimeField[] = [];
  let next = 0;
  for (let column = from; column < columns.length; column++) {
    const name = order.slice(next).find((one) => isField(columns[column]!, fieldKinds[one]));
    // Seconds beyond the minute beside minutes are the whole time over again.
    if (!name || (name === "second" && next > 0 && numbersOf(columns[column]!).some((value) => value >= 61))) break;
    fields.push({ name, column });
    next = order.indexOf(name) + 1;
  }
  return fields;
}

/** Whole numbers in range; the finest field may have decimals. */
function isField(column: HeadColumn, { names, least, most }: FieldKind): boolean {
  if (column.kind !== "number" || !names.test(wordsOf(column.title.name))) return false;
  return numbersOf(column).every((value) => value >= least && value < most + 1);
}

function isRising(columns: readonly HeadColumn[], fields: readonly TimeField[]): boolean {
  const coarse = fields.slice(0, -1);
  if (coarse.some(({ column }) => !numbersOf(columns[column]!).every(Number.isInteger))) return false;
  const times = columns[0]!.cells
    .map((_, row) => fieldsIn(fields, (i) => numberIn(columns[i]!.cells[row] ?? "", columns[i]!.mark)))
    .filter((time) => !Number.isNaN(time));
  const wrap = wrapOf(fields);
  const steps = times.slice(1).map((time, i) => time - times[i]!);
  return steps.some((step) => step > 0) && steps.every((step) => step >= 0 || (wrap > 0 && step < -wrap / 2));
}

function planOf(columns: readonly HeadColumn[], fields: readonly TimeField[]): TimePlan {
  const finest = fields[fields.length - 1]!;
  const values = numbersOf(columns[finest.column]!);
  const isEpoch = fields[0]!.name === "second" && (numbersOf(columns[fields[0]!.column]!)[0] ?? 0) > 8e8;
  const names = fields.map(({ column }) => columns[column]!.title.name);
  return {
    column: finest.column,
    form: { kind: "fields", fields, isAbsolute: fields[0]!.name === "year" || isEpoch, hasZone: isEpoch },
    resolution: Math.max(1e-6, (fieldKinds[finest.name].unit || 86_400) * gridOf(values)),
    sure: true,
    assumed: `time put together from ${names.join(", ")}`,
  };
}

/** The largest power of ten of which all values are multiples: 0.01, 1, 1000. */
function gridOf(values: readonly number[]): number {
  const isOn = (grid: number) => values.every((value) => Math.abs(value / grid - Math.round(value / grid)) < 1e-6);
  let grid = 1e-6;
  while (grid < 1e8 && isOn(grid * 10)) grid *= 10;
  return grid;
}
