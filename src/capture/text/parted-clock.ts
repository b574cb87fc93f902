// A clock, or a count of whole seconds, whose parts of a second stand in the column beside it.

import type { Seconds } from "../../signal/numbers/units.ts";
import { conversionOf } from "../meaning/quantities.ts";
import { wordsOf } from "../meaning/roles.ts";
import { clockIn, dateOrderOf, instantIn } from "./clock.ts";
import { type HeadColumn, numbersOf } from "./head-columns.ts";
import { numberIn } from "./numbers.ts";

export interface SecondParts {
  readonly column: number;
  /** Of one of them, s. */
  readonly unit: Seconds;
}

const kinds: readonly (readonly [names: RegExp, perSecond: number])[] = [
  [/^(ms|msecs?|milli ?s\w*|millis)$/, 1e3],
  [/^(us|usecs?|micro ?s\w*|micros)$/, 1e6],
  [/^(ns|nsecs?|nano ?s\w*|nanos)$/, 1e9],
];

/** The clock and the parts right of it that together never run back and mostly go on; null where there are none. */
export function partedClockOf(columns: readonly HeadColumn[]): (SecondParts & { readonly clock: number }) | null {
  for (let clock = 0; clock + 1 < columns.length; clock++) {
    const unit = unitOf(columns[clock + 1]!);
    if (unit !== null && goesOn(columns[clock]!, columns[clock + 1]!, unit)) return { clock, column: clock + 1, unit };
  }
  return null;
}

/** Whole parts of a second by its name and its numbers; null for any other column. */
function unitOf(column: HeadColumn): Seconds | null {
  if (column.kind !== "number") return null;
  const kind = kinds.find(([names]) => names.test(wordsOf(column.title.name || column.title.header)));
  if (!kind) return null;
  const [, perSecond] = kind;
  return numbersOf(column).every((value) => Number.isInteger(value) && value >= 0 && value < perSecond)
    ? 1 / perSecond
    : null;
}

const day = 86_400;

function goesOn(column: HeadColumn, parts: HeadColumn, unit: Seconds): boolean {
  const whole = wholeSeconds(column);
  if (!whole) return false;
  const times = whole
    .map((seconds, row) => seconds + unit * numberIn(parts.cells[row] ?? "", parts.mark))
    .filter((time) => !Number.isNaN(time));
  const steps = times.slice(1).map((time, i) => time - times[i]!);
  const forward = steps.filter((step) => step > 0).length;
  return forward > 0.9 * steps.length && steps.every((step) => step >= 0 || step < -day / 2);
}

/** A row's clock or count in s, NaN where there is none; null where it has decimals of its own or is none. */
function wholeSeconds({ kind, cells, mark, title }: HeadColumn): number[] | null {
  if (kind === "number") {
    const { unit, times, over } = conversionOf(title.fileUnit);
    if (unit !== "s" || times !== 1 || over !== 1) return null;
    const values = cells.map((cell) => numberIn(cell, mark));
    return values.every((value) => Number.isNaN(value) || Number.isInteger(value)) ? values : null;
  }
  if (kind !== "clock" && kind !== "instant") return null;
  const { order } = dateOrderOf(cells);
  const clocks = cells.map((cell) => (kind === "clock" ? clockIn(cell) : instantIn(cell, order)));
  return clocks.some((clock) => clock && clock.decimals > 0)
    ? null
    : clocks.map((clock) => clock?.seconds ?? Number.NaN);
}
