// Raw times made usable: dropped where missing, turned round where they fall, spread where many share one, even where they are even.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { StampDoubt, TimeBase } from "../../signal/series/series.ts";
import type { Remark } from "../model/capture.ts";
import { StampPass, type StampRule } from "./stamp-pass.ts";

/** Times as a file writes them, in its own order. */
export interface WrittenStamps {
  /** NaN where a row has none. */
  readonly seconds: Float64Array;
  /** Finest difference they can show. */
  readonly resolution: Seconds;
  /** Counted from 1970-01-01. */
  readonly isAbsolute: boolean;
  /** A clock that starts anew every so many seconds; 0 for none. */
  readonly wrap: Seconds;
  /** The local clock of a wall: it is set back by an hour in autumn. */
  readonly isWallClock?: boolean;
  /** Rows without a stamp of which something else was said. */
  readonly told?: number;
  /** Of stamps that were spread already. */
  readonly doubt?: StampDoubt;
}

export interface OrderedStamps {
  /** Rising. */
  readonly seconds: Float64Array;
  /** Rows behind them; null for all, in the file's order. */
  readonly rows: Int32Array | null;
  readonly doubt: StampDoubt | null;
  readonly remarks: readonly Remark[];
  /** Where more rows fall out than may go without asking. */
  readonly lost?: LostRows;
}

/** Two readings of rows whose times do not rise; one, where all of them have none that can be read. */
export interface LostRows {
  readonly rows: number;
  /** Of these, the ones without a time that can be read: no order helps them. */
  readonly unreadable: number;
  readonly inAll: number;
  readonly first: number;
}

/** What to do with rows whose times do not rise: leave them out, or put all rows in the order of their times. */
export type Disorder = "leave-out" | "sort" | undefined;

/**
 * Turns written times into rising ones, and says what was left out or moved. Inputs stay as they are.
 *
 * @param disorder  as the user said; else rows that only were shuffled are put in order, and `lost` tells where it must be asked.
 */
export function orderStamps(written: WrittenStamps, disorder?: Disorder): OrderedStamps {
  if (isRising(written.seconds))
    return { seconds: written.seconds, rows: null, doubt: written.doubt ?? null, remarks: [] };
  const remarks: Remark[] = [];
  const seconds = new Float64Array(written.seconds.length);
  new Unwrapping(written.wrap).take(written.seconds, seconds);
  let rows = stampedRows(seconds);
  const inAll = seconds.length - (written.told ?? 0);
  if (rows.length < inAll) remarks.push(withoutTime(inAll - rows.length));
  const { up, down } = stepsOf(gatheredTimes(seconds, rows));
  if (down > up) {
    rows = rows.reverse();
    remarks.push({ text: "time runs from late to early; rows were turned round" });
  }
  const times = gatheredTimes(seconds, rows);
  const rule = stampRule(times, written.resolution, written.isWallClock);
  const pass = new StampPass(rule);
  const ordered = pass.take(times, rows, { before: 0, isLast: true });
  const plain = { ...ordered, doubt: doubtOf(rule), remarks: [...remarks, ...pass.remarks()] };
  const lost = inAll - ordered.rows.length;
  if (disorder === "leave-out" || (disorder === undefined && !isMuch(lost, inAll))) return plain;
  const sorted = sortedStamps(times, rows);
  if (disorder === "sort" || isShuffled(sorted, inAll))
    return { seconds: sorted.seconds, rows: sorted.rows, doubt: null, remarks: [wasSorted(sorted.moved)] };
  const unreadable = inAll - rows.length;
  return { ...plain, lost: { rows: lost, unreadable, inAll, first: firstLost(ordered.rows, seconds.length) } };
}

/** More than one row in twenty, and more than a hiccup. */
const isMuch = (lost: number, rows: number): boolean => lost > 4 && lost * 20 > rows;

const wasSorted = (count: number): Remark => ({
  text: "rows did not stand in the order of their times, and were put in it",
  count,
});

/** All rows in the order of their times; of those that share one, the first. */
function sortedStamps(times: Float64Array, rows: Int32Array) {
  const order = Array.from(times.keys()).sort((a, b) => times[a]! - times[b]! || a - b);
  const kept = order.filter((k, place) => place === 0 || times[k]! > times[order[place - 1]!]!);
  return {
    seconds: Float64Array.from(kept, (k) => times[k]!),
    rows: Int32Array.from(kept, (k) => rows[k]!),
    moved: stepsOf(times).down,
  };
}

/** So many of the steps between sorted stamps are about the usual one: the rows were written evenly, and shuffled later. Own choice. */
const evenShare = 0.9;

function isShuffled(
  { seconds, rows }: { readonly seconds: Float64Array; readonly rows: Int32Array },
  inAll: number,
): boolean {
  const usual = coarseStep(seconds);
  let even = 0;
  for (let i = 1; i < seconds.length; i++) {
    const step = seconds[i]! - seconds[i - 1]!;
    if (step > 0.5 * usual && step < 1.5 * usual) even++;
  }
  return !isMuch(inAll - rows.length, inAll) && even >= evenShare * (seconds.length - 1);
}

/** The first row that is not among those that are kept, which rise. */
function firstLost(kept: Int32Array, inAll: number): number {
  const there = new Set(kept);
  for (let row = 0; row < inAll; row++) if (!there.has(row)) return row;
  return inAll;
}

export function isRising(seconds: Float64Array): boolean {
  if (Number.isNaN(seconds[0] ?? 0)) return false;
  for (let i = 1; i < seconds.length; i++) if (!(seconds[i]! > seconds[i - 1]!)) return false;
  return true;
}

/** A clock past midnight, or minutes past the hour: a jump of more than half the wrap is a new round. */
export class Unwrapping {
  round = 0;
  /** As it was written. */
  last: Seconds = Number.NaN;
  private readonly wrap: Seconds;

  /** @param wrap  s; 0 where the clock never starts anew. */
  constructor(wrap: Seconds) {
    this.wrap = wrap;
  }

  /** @param into  takes as many times as there are `seconds`. */
  take(seconds: Float64Array, into: Float64Array): void {
    const half = this.wrap > 0 ? this.wrap / 2 : Number.POSITIVE_INFINITY;
    for (let i = 0; i < seconds.length; i++) {
      const second = seconds[i]!;
      if (second - this.last < -half) this.round += this.wrap;
      else if (second - this.last > half) this.round -= this.wrap;
      if (!Number.isNaN(second)) this.last = second;
      into[i] = second + this.round;
    }
  }

  copy(): Unwrapping {
    const copy = new Unwrapping(this.wrap);
    copy.round = this.round;
    copy.last = this.last;
    return copy;
  }
}

/** Rows that have a time. */
export function stampedRows(seconds: Float64Array): Int32Array {
  const rows = new Int32Array(seconds.length);
  let count = 0;
  for (let i = 0; i < seconds.length; i++) if (!Number.isNaN(seconds[i]!)) rows[count++] = i;
  return rows.subarray(0, count);
}

export const withoutTime = (count: number): Remark => ({ text: "rows without a readable time were left out", count });

export function gatheredTimes(seconds: Float64Array, rows: Int32Array): Float64Array {
  return Float64Array.from(rows, (row) => seconds[row]!);
}

/** How many stamps lie above, below and at the one before. */
export function stepsOf(times: Float64Array): { readonly up: number; readonly down: number; readonly repeats: number } {
  let up = 0;
  let down = 0;
  let repeats = 0;
  for (let i = 1; i < times.length; i++) {
    const step = times[i]! - times[i - 1]!;
    if (step > 0) up++;
    else if (step < 0) down++;
    else repeats++;
  }
  return { up, down, repeats };
}

/** From this share of stamps on that repeat the one before, the clock is coarser than the rows. */
const coarseFrom = 0.05;
/** So few repeats are a hiccup, unless they are as many as one in five. */
const fewRepeats = 10;

export const isCoarse = (repeats: number, steps: number): boolean =>
  repeats > (repeats > fewRepeats ? coarseFrom : 0.2) * steps;

/**
 * What is decided of all stamps together.
 *
 * @param times  in the order of their rows, none NaN.
 * @param resolution  s: the usual step has no more digits, as it would from the rounding of differences.
 */
export function stampRule(times: Float64Array, resolution: Seconds, isWallClock = false): StampRule {
  const usual = coarseStep(times);
  const step = inItsDigits(usual, resolution) || usual;
  const { repeats } = stepsOf(times);
  const steps = times.length - 1;
  // A clock that shows no less than the rows' own step repeats itself by nature, however few rows there are.
  const isAsCoarse = resolution > 0.9 * usual && repeats > 3 && repeats > coarseFrom * steps;
  return {
    gap: Math.max(1, 10 * step),
    spread: (isAsCoarse || isCoarse(repeats, steps)) && step > 0 ? step : null,
    setBackBy: isWallClock ? { least: hour - Math.max(2, 3 * step), most: hour } : null,
  };
}

/** By which clocks are set back when summer time ends, s. */
const hour: Seconds = 3600;

export const doubtOf = ({ spread }: StampRule): StampDoubt | null =>
  spread === null ? null : { early: spread, late: spread };

/** Usual step between stamps that differ: the median of the rising ones. */
function coarseStep(times: Float64Array): Seconds {
  const steps: number[] = [];
  const stride = Math.max(1, Math.floor(times.length / 20_000));
  for (let i = 1; i < times.length; i += stride) {
    const step = times[i]! - times[i - 1]!;
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  return steps[steps.length >> 1] ?? 0;
}

/** The time with no more digits than a decimal `grid` has; as it is where the grid is none. */
export function inItsDigits(time: Seconds, grid: Seconds): Seconds {
  const parts = Math.round(1 / grid);
  return grid >= 1e-9 && grid < 1 && Math.abs(parts * grid - 1) < 1e-9 ? Math.round(time * parts) / parts : time;
}

/** Stamps that were spread lie on no decimal grid, and are even only where they are so exactly. */
export function digitsOf(resolution: Seconds, doubt: StampDoubt | null | undefined) {
  return doubt ? { grid: 0, resolution: 1e-9 } : { grid: resolution, resolution };
}

/**
 * The time base of rising stamps: even where every stamp lies on one grid within what its digits can show.
 *
 * @param resolution  s; where it is coarser than half a step only an exact grid is even.
 */
export function timeBaseOf(seconds: Float64Array, resolution: Seconds): TimeBase {
  const count = seconds.length;
  if (count < 3) return { kind: "stamped", stamps: seconds };
  const start = seconds[0]!;
  const mean = (seconds[count - 1]! - start) / (count - 1);
  const slack = resolution > mean / 2 ? 0 : resolution * 1.01;
  for (const step of candidates(mean)) {
    if (isEven(seconds, start, step, slack)) return { kind: "even", start, step, count };
  }
  return { kind: "stamped", stamps: seconds };
}

/** Round steps and round rates first: the mean carries the rounding of the last stamp. */
function candidates(mean: number): number[] {
  const rounded = [3, 4, 6, 9].flatMap((digits) => [
    Number(mean.toPrecision(digits)),
    1 / Number((1 / mean).toPrecision(digits)),
  ]);
  return [...rounded, Number(mean.toPrecision(12)), mean];
}

export function isEven(seconds: Float64Array, start: Seconds, step: Seconds, slack: Seconds): boolean {
  const tight = slack + 1e-9 * step;
  for (let i = 0; i < seconds.length; i++) {
    const off = Math.abs(seconds[i]! - (start + i * step));
    if (off > tight && off > tight + 4e-16 * Math.abs(seconds[i]!)) return false;
  }
  return true;
}

/** Usual step of stamps that rise, s; those that do not are passed over. */
export function risingStep(time: TimeBase): Seconds {
  return time.kind === "even" ? time.step : coarseStep(time.stamps);
}
