// Rows in which every column repeats the row before: the recorder hung, and nothing was measured.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { Samples } from "../../signal/series/series.ts";
import { extremesOf } from "../../signal/statistics/extremes.ts";
import type { RemarkBook } from "../model/remarks.ts";
import type { Recorded } from "../time/recorded.ts";
import { roleNamedBy } from "./roles.ts";

/** So many rows alike, and so many times more than logs of its kind repeat otherwise, are no chance. Own choice. */
const least = { rows: 10, times: 5, columns: 2 };
/** Sensors without noise rest at their ends for a second or more while they switch: that is shorter than this, s. Own choice. */
const shortestHang: Seconds = 2;
/** Within this share of its range a column rests at an end of it, as both sensors do in a fuel cut. Own choice. */
const restShare = 0.04;
/**
 * Two columns alone may both stand at an end by chance, and the speed of a running engine never rests for long: beyond this, s, no
 * fuel cut keeps them there. Own choice.
 */
const longestRest: Seconds = 30;
/** A speed that is another in nearly every row rests for less than this even at the end of its range, s. Own choice. */
const restless = { share: 0.8, longest: 5 } as const;

interface Frozen {
  /** Row that is repeated, and the last that repeats it. */
  readonly from: number;
  readonly to: number;
}

/**
 * The columns with their frozen rows taken out (NaN), which is said.
 *
 * A log may write rows faster than it asks: the usual number of rows alike is that of all stands still, and only what exceeds
 * it by far is named. Columns that never change are no witnesses, and two at least must have changed as a rule. Where all of
 * them rest at an end of their range, or the engine stands, nothing need have hung.
 */
export function withoutFrozen(columns: readonly Recorded[], remarks: RemarkBook): readonly Recorded[] {
  const rows = columns[0]?.values.length ?? 0;
  const moving = columns.filter(({ values }) => values.length === rows && changes(values) >= least.rows);
  if (
    moving.length < least.columns ||
    columns.some(({ values, time }) => values.length !== rows || time !== columns[0]!.time)
  )
    return columns;
  const frozen = frozenIn(moving, rows);
  if (frozen.length === 0) return columns;
  for (const { from, to } of frozen)
    remarks.tally(
      "repeat the row before them in every column: the recorder hung, and nothing is judged by them",
      `data rows ${from + 2} to ${to + 1}`,
      to - from,
    );
  return columns.map((column) => ({ ...column, values: thawed(column.values, frozen), isFull: false }));
}

function frozenIn(columns: readonly Recorded[], rows: number): Frozen[] {
  const stays: Frozen[] = [];
  let from = 0;
  for (let row = 1; row <= rows; row++) {
    if (row < rows && columns.every(({ values }) => isSame(values[row]!, values[row - 1]!))) continue;
    if (row - 1 > from) stays.push({ from, to: row - 1 });
    from = row;
  }
  const lengths = stays.map((stay) => stay.to - stay.from).sort((a, b) => a - b);
  const others = lengths.filter((length) => length < least.rows);
  const usual = lengths.length < 4 ? (others.at(-1) ?? 0) : lengths[Math.floor(0.75 * (lengths.length - 1))]!;
  return stays.filter((stay) => {
    const isLong = stay.to - stay.from >= Math.max(least.rows, least.times * usual);
    return isLong && lengthOf(columns[0]!, stay) >= shortestHang && !rests(columns, stay);
  });
}

function rests(columns: readonly Recorded[], stay: Frozen): boolean {
  if (columns.some((column) => column.values[stay.from] === 0 && isEngineSpeed(column))) return true;
  const speed = columns.find(isEngineSpeed);
  const longest = speed && isRestless(speed.values, stay) ? restless.longest : longestRest;
  const isBrief = (columns.length > 2 && !speed) || lengthOf(columns[0]!, stay) < longest;
  return isBrief && columns.every(({ values }) => isAtEnd(values, values[stay.from]!));
}

/** Whether the values change in nearly every row outside the stay. */
function isRestless(values: Samples, { from, to }: Frozen): boolean {
  let changed = 0;
  for (let i = 1; i < values.length; i++) if ((i <= from || i > to) && !isSame(values[i]!, values[i - 1]!)) changed++;
  return changed > restless.share * (values.length - 1 - (to - from));
}

const isEngineSpeed = ({ name, fileUnit }: Recorded): boolean => roleNamedBy(name, fileUnit).role === "engine-speed";

/** At the usual step of the rows: a recorder that hung may have repeated its stamps as well. */
function lengthOf({ time, values }: Recorded, { from, to }: Frozen): Seconds {
  if ("rate" in time) return (to - from) / time.rate;
  const [first, last] = extremesOf(time.seconds);
  return ((to - from) * (last - first)) / (values.length - 1);
}

function isAtEnd(values: Samples, value: number): boolean {
  const [low, high] = extremesOf(values);
  return Math.min(value - low, high - value) <= restShare * (high - low);
}

const isSame = (a: number, b: number): boolean => a === b || (Number.isNaN(a) && Number.isNaN(b));

function changes(values: Samples): number {
  let count = 0;
  for (let i = 1; i < values.length && count < least.rows; i++) if (!isSame(values[i]!, values[i - 1]!)) count++;
  return count;
}

function thawed(values: Samples, frozen: readonly Frozen[]): Samples {
  const out = values.slice();
  for (const { from, to } of frozen) out.fill(Number.NaN, from + 1, to + 1);
  return out;
}
