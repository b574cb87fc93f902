// Where a line swings to and fro faster than the paper can show, it becomes an envelope: a hatched band between the levels that
// it reaches, so that a line under another one is seen, and no one counts strokes that are none.

import type { BandLayer } from "../../drawing/layer.ts";
import { type Mapping, toPixel } from "../../drawing/paths.ts";
import type { SheetLine } from "./sheet.ts";

/** mm to either side over which a line is looked at. */
const reach = 1.2;
/** Strokes across the whole swing within that room; more cannot be told apart by eye. */
const mostStrokes = 4;
/** mm: what swings less is a thick line at most. */
const leastSwing = 3;
/** mm: a shorter busy piece stays a line, a shorter calm one between two busy ones becomes part of them. */
const shortest = { busy: 2, calm: 0.8 } as const;

export interface Parted {
  /** The line, with gaps where an envelope stands. */
  readonly line: SheetLine;
  readonly envelopes: readonly BandLayer[];
}

/** Only a dense line, lowest and highest of each column, is parted; one with samples of its own stays as it is. */
export function partedLine(trace: SheetLine, x: Mapping, y: Mapping): Parted {
  if (!trace.dense) return { line: trace, envelopes: [] };
  const columns = columnsOf(trace, x, y);
  const runs = busyRuns(columns);
  if (runs.length === 0) return { line: trace, envelopes: [] };
  const values = trace.values.slice();
  for (const { from, to } of runs) values.fill(NaN, 2 * (from + 1), 2 * (to - 1));
  return { line: { ...trace, values }, envelopes: runs.map((run) => envelopeOf(trace, columns, run)) };
}

interface Columns {
  /** mm */
  readonly x: Float64Array;
  /** mm down the paper: `top` is the smaller. */
  readonly top: Float64Array;
  readonly foot: Float64Array;
}

interface Run {
  readonly from: number;
  /** One past its last column. */
  readonly to: number;
}

function columnsOf({ times, values }: SheetLine, x: Mapping, y: Mapping): Columns {
  const count = values.length >> 1;
  const make = (of: (i: number) => number) => Float64Array.from({ length: count }, (_, i) => of(2 * i));
  return {
    x: make((i) => toPixel(x, times[i]!)),
    top: make((i) => Math.min(toPixel(y, values[i]!), toPixel(y, values[i + 1]!))),
    foot: make((i) => Math.max(toPixel(y, values[i]!), toPixel(y, values[i + 1]!))),
  };
}

/** Busy columns, short pieces of either kind given to their neighbours. */
function busyRuns(columns: Columns): readonly Run[] {
  const { x, top, foot } = columns;
  const runs: { from: number; to: number }[] = [];
  let [first, last] = [0, 0];
  for (let i = 0; i < x.length; i++) {
    if (Number.isNaN(top[i]!)) continue;
    while (x[first]! < x[i]! - reach) first++;
    while (last < x.length && x[last]! <= x[i]! + reach) last++;
    if (!isBusy({ top, foot }, first, i, last)) continue;
    const before = runs.at(-1);
    if (before && x[i]! - x[before.to - 1]! < shortest.calm && isWhole(top, before.to, i)) before.to = i + 1;
    else runs.push({ from: i, to: i + 1 });
  }
  return runs.filter(({ from, to }) => x[to - 1]! - x[from]! >= shortest.busy);
}

const isWhole = (top: Float64Array, from: number, to: number): boolean =>
  top.subarray(from, to).every((level) => !Number.isNaN(level));

/** Whether the line's way up and down is many times its swing, on both sides of a column: a lone step has but one. */
function isBusy(columns: Pick<Columns, "top" | "foot">, from: number, at: number, to: number): boolean {
  const [highest, lowest] = [least(columns.top, from, to), -least(columns.foot, from, to, -1)];
  const swing = lowest - highest;
  const half = (mostStrokes * swing) / 2;
  return swing >= leastSwing && wayOf(columns, from, at + 1) >= half && wayOf(columns, at, to) >= half;
}

function least(values: Float64Array, from: number, to: number, sign = 1): number {
  let found = Infinity;
  for (let i = from; i < to; i++) if (sign * values[i]! < found) found = sign * values[i]!;
  return found;
}

/** mm up and down, within columns and from one to the next; nothing across a gap. */
function wayOf({ top, foot }: Pick<Columns, "top" | "foot">, from: number, to: number): number {
  let way = 0;
  for (let i = from; i < to; i++) {
    if (Number.isNaN(top[i]!)) continue;
    way += foot[i]! - top[i]!;
    if (i > from && !Number.isNaN(top[i - 1]!)) way += Math.max(top[i]! - foot[i - 1]!, top[i - 1]! - foot[i]!, 0);
  }
  return way;
}

/** From the lowest to the highest that the line reaches near each column of the run. */
function envelopeOf({ times, values, look, label, source }: SheetLine, { x }: Columns, { from, to }: Run): BandLayer {
  const count = to - from;
  const [low, high] = [new Float64Array(count), new Float64Array(count)];
  let [first, last] = [from, from];
  for (let i = from; i < to; i++) {
    while (x[first]! < x[i]! - reach) first++;
    while (last < to && x[last]! <= x[i]! + reach) last++;
    low[i - from] = least(values, 2 * first, 2 * last);
    high[i - from] = -least(values, 2 * first, 2 * last, -1);
  }
  return {
    form: "band",
    source,
    label,
    look,
    times: Float64Array.from({ length: count }, (_, i) => times[2 * (from + i)]!),
    low,
    high,
  };
}
