// Raw times made usable: dropped where missing, turned round where they fall, spread where many share one, even where they are even.

import type { StampDoubt, TimeBase } from "../signal/series.ts";
import type { Seconds } from "../signal/units.ts";
import type { Remark } from "./capture.ts";

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
}

export interface OrderedStamps {
  /** Rising. */
  readonly seconds: Float64Array;
  /** Rows behind them; null for all, in the file's order. */
  readonly rows: Int32Array | null;
  readonly doubt: StampDoubt | null;
  readonly remarks: readonly Remark[];
}

/** Turns written times into rising ones, and says what was left out or moved. Inputs stay as they are. */
export function orderStamps(written: WrittenStamps): OrderedStamps {
  if (isRising(written.seconds)) return { seconds: written.seconds, rows: null, doubt: null, remarks: [] };
  const remarks: Remark[] = [];
  const seconds = written.wrap > 0 ? unwrapped(written.seconds, written.wrap) : written.seconds;
  let rows = stampedRows(seconds, remarks);
  if (fallsMostly(seconds, rows)) {
    rows = rows.reverse();
    remarks.push({ text: "time runs from late to early; rows were turned round" });
  }
  const times = Float64Array.from(rows, (row) => seconds[row]!);
  const shares = shareOfRepeats(times);
  joinRestarts(times, rows, remarks);
  const step = coarseStep(times);
  if (shares > 0.2 && step > 0) return spread(times, rows, step, remarks);
  return withoutRepeats(times, rows, remarks);
}

export function isRising(seconds: Float64Array): boolean {
  if (Number.isNaN(seconds[0] ?? 0)) return false;
  for (let i = 1; i < seconds.length; i++) if (!(seconds[i]! > seconds[i - 1]!)) return false;
  return true;
}

/** A clock past midnight, or minutes past the hour: a jump of more than half the wrap is a new round. */
function unwrapped(seconds: Float64Array, wrap: Seconds): Float64Array {
  const out = new Float64Array(seconds.length);
  let [round, last] = [0, Number.NaN];
  seconds.forEach((second, i) => {
    if (second - last < -wrap / 2) round += wrap;
    else if (second - last > wrap / 2) round -= wrap;
    if (!Number.isNaN(second)) last = second;
    out[i] = second + round;
  });
  return out;
}

function stampedRows(seconds: Float64Array, remarks: Remark[]): Int32Array {
  const rows = new Int32Array(seconds.length);
  let count = 0;
  for (let i = 0; i < seconds.length; i++) if (!Number.isNaN(seconds[i]!)) rows[count++] = i;
  if (count < seconds.length)
    remarks.push({ text: "rows without a readable time were left out", count: seconds.length - count });
  return rows.slice(0, count);
}

function fallsMostly(seconds: Float64Array, rows: Int32Array): boolean {
  let [up, down] = [0, 0];
  for (let i = 1; i < rows.length; i++) {
    const step = seconds[rows[i]!]! - seconds[rows[i - 1]!]!;
    if (step > 0) up++;
    else if (step < 0) down++;
  }
  return down > up;
}

function shareOfRepeats(times: Float64Array): number {
  let repeats = 0;
  for (let i = 1; i < times.length; i++) if (times[i] === times[i - 1]) repeats++;
  return times.length < 2 ? 0 : repeats / (times.length - 1);
}

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

const restartAfter = 5; // rows that must go on from an earlier time before it counts as a new start of the clock

/** Where time falls back and goes on from there, the rest is moved behind what was, with a gap. Changes `times`. */
function joinRestarts(times: Float64Array, rows: Int32Array, remarks: Remark[]): void {
  const gap = Math.max(1, 10 * coarseStep(times));
  let [shift, restarts, first] = [0, 0, -1];
  let last = times[0] ?? 0;
  for (let i = 1; i < times.length; i++) {
    const time = times[i]! + shift;
    if (time < last && goesOn(times, i, last - shift)) {
      if (first < 0) first = rows[i]!;
      shift = last + gap - times[i]!;
      restarts++;
    }
    times[i] = times[i]! + shift;
    last = Math.max(last, times[i]!);
  }
  if (restarts === 0) return;
  const where = `row ${first + 1}`;
  remarks.push({
    text: "time starts again inside the file; what follows was put behind what was, after a gap",
    where,
    count: restarts,
  });
}

/** From `at` on, the next rows rise and stay below what was reached before. */
function goesOn(times: Float64Array, at: number, reached: Seconds): boolean {
  const end = Math.min(times.length, at + restartAfter);
  if (end - at < restartAfter) return false;
  for (let i = at + 1; i < end; i++) if (times[i]! < times[i - 1]! || times[i]! >= reached) return false;
  return true;
}

/** Rows that share a coarse stamp are spread evenly up to the next stamp, at most one usual step. */
function spread(times: Float64Array, rows: Int32Array, step: Seconds, remarks: Remark[]): OrderedStamps {
  const kept = rising(times, rows, true, remarks);
  const seconds = Float64Array.from(kept.seconds);
  for (let from = 0; from < seconds.length; ) {
    let to = from + 1;
    while (to < seconds.length && kept.seconds[to] === kept.seconds[from]) to++;
    const room = to < seconds.length ? Math.min(step, kept.seconds[to]! - kept.seconds[from]!) : step;
    for (let i = from; i < to; i++) seconds[i] = kept.seconds[from]! + ((i - from) * room) / (to - from);
    from = to;
  }
  const text = `several rows share one stamp (stamps are ${round(step)} s apart); they were spread evenly, and each may be off by up to that much`;
  remarks.push({ text, count: seconds.length });
  return { seconds, rows: kept.rows, doubt: { early: step, late: step }, remarks };
}

function withoutRepeats(times: Float64Array, rows: Int32Array, remarks: Remark[]): OrderedStamps {
  const { seconds, rows: kept } = rising(times, rows, false, remarks);
  return { seconds, rows: kept, doubt: null, remarks };
}

function rising(
  times: Float64Array,
  rows: Int32Array,
  repeatsToo: boolean,
  remarks: Remark[],
): { seconds: Float64Array; rows: Int32Array } {
  const [seconds, kept] = [new Float64Array(times.length), new Int32Array(times.length)];
  let [count, back, repeats, firstBack, firstRepeat] = [0, 0, 0, -1, -1];
  let last = Number.NEGATIVE_INFINITY;
  times.forEach((time, i) => {
    if (time > last || (repeatsToo && time === last)) {
      [seconds[count], kept[count], last] = [time, rows[i]!, time];
      count++;
    } else if (time < last) {
      if (back++ === 0) firstBack = rows[i]!;
    } else if (repeats++ === 0) firstRepeat = rows[i]!;
  });
  if (back > 0)
    remarks.push({ text: "rows whose time runs backwards were left out", where: `row ${firstBack + 1}`, count: back });
  if (repeats > 0)
    remarks.push({
      text: "rows that repeat the stamp before were left out",
      where: `row ${firstRepeat + 1}`,
      count: repeats,
    });
  return { seconds: seconds.slice(0, count), rows: kept.slice(0, count) };
}

const round = (value: number): number => Number(value.toPrecision(6));

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
  for (let i = 0; i < seconds.length; i++) {
    const tolerance = slack + 1e-9 * step + 4e-16 * Math.abs(seconds[i]!);
    if (Math.abs(seconds[i]! - (start + i * step)) > tolerance) return false;
  }
  return true;
}

/** Usual step, s. */
export function usualStep(time: TimeBase): Seconds {
  return time.kind === "even" ? time.step : coarseStep(time.stamps);
}
