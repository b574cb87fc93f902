// Suspect less reference, and the band that several events keep to: lines for the eye, not for measuring.

import type { Polyline } from "../../drawing/paths.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";

/**
 * a - b at the instants of `a`.
 *
 * Where both are samples, `b` is taken on the straight line between its two neighbours. Where either is drawn as lowest
 * and highest of a column, the difference is known only to lie between a.low - b.high and a.high - b.low, and both are
 * drawn. NaN where one of the two has no value.
 */
export function differenceLine(a: Polyline, b: Polyline): Polyline {
  if (!a.dense && !b.dense) {
    return { times: a.times, values: a.values.map((value, i) => value - valueAt(b, a.times[i]!)), dense: false };
  }
  const columns = columnTimes(a);
  const times = new Float64Array(2 * columns.length);
  const values = new Float64Array(2 * columns.length);
  columns.forEach(([from, to], k) => {
    const [mine, theirs] = [extentOf(a, from, to), extentOf(b, from, to)];
    times.fill(from, 2 * k, 2 * k + 2);
    values[2 * k] = mine[0] - theirs[1];
    values[2 * k + 1] = mine[1] - theirs[0];
  });
  return { times, values, dense: true };
}

/** Instants of the columns, or of the samples, of a line: each with the next. */
function columnTimes({ times }: Polyline): [from: number, to: number][] {
  const distinct = [...times].filter((time, i) => i === 0 || time !== times[i - 1]);
  return distinct.map((time, i) => [time, distinct[i + 1] ?? time]);
}

/** Lowest and highest of a line from one instant to another, both included; NaN where it has no value there. */
function extentOf(line: Polyline, from: number, to: number): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = firstAt(line.times, from); i < line.times.length && line.times[i]! <= to; i++) {
    if (Number.isNaN(line.values[i]!)) return [NaN, NaN];
    low = Math.min(low, line.values[i]!);
    high = Math.max(high, line.values[i]!);
  }
  if (low <= high) return [low, high];
  const between = valueAt(line, from);
  return [between, between];
}

/** On the straight line between two points; NaN outside and over a gap. */
function valueAt({ times, values }: Polyline, time: number): number {
  const i = firstAt(times, time);
  if (times[i] === time) return values[i]!;
  if (i === 0 || i === times.length) return NaN;
  const share = (time - times[i - 1]!) / (times[i]! - times[i - 1]!);
  return values[i - 1]! + share * (values[i]! - values[i - 1]!);
}

function firstAt(times: Float64Array, time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

export interface Band {
  readonly times: Float64Array;
  readonly low: Float64Array;
  readonly middle: Float64Array;
  readonly high: Float64Array;
}

/** The middle between lowest and highest of each column; samples as they are. */
export function middleLine({ times, values, dense }: Polyline): Polyline {
  if (!dense) return { times, values, dense };
  const half = Math.floor(times.length / 2);
  return {
    times: Float64Array.from({ length: half }, (_, k) => times[2 * k]!),
    values: Float64Array.from({ length: half }, (_, k) => (values[2 * k]! + values[2 * k + 1]!) / 2),
    dense: false,
  };
}

/** Median and 5 to 95 % of several lines at `count` instants from one time to another; NaN where fewer than two have a value. */
export function bandOf(lines: readonly Polyline[], [from, to]: readonly [number, number], count: number): Band {
  const times = Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
  const at = [...times].map((time) => Float64Array.from(lines, (line) => valueAt(line, time)));
  const spread = at.map((values) => {
    const isKnown = values.filter((value) => !Number.isNaN(value)).length >= 2;
    return isKnown ? percentiles(values, [0.05, 0.5, 0.95]) : [NaN, NaN, NaN];
  });
  const [low, middle, high] = [0, 1, 2].map((k) => Float64Array.from(spread, (one) => one[k]!));
  return { times, low: low!, middle: middle!, high: high! };
}
