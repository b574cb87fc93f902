// The one home for combining readings: difference, ratio, median over events, scaling, delay between two edges.
// Nothing is taken as independent unless the caller says so; an open bound stays open.

import type { Edge } from "../edges/edge.ts";
import { atLeast, atMost, measured, notResolvable, type Reading, type Remarks, type Unit } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";
import { runsOf } from "../series/runs.ts";
import { indexAt, type Series, type StampDoubt, timeAt } from "../series/series.ts";
import { medianOfNumbers, spreadOfMedian } from "../statistics/statistics.ts";

export interface DifferenceRule extends Remarks {
  /** The quantity cannot be negative (a delay, a duration): bounds are cut at 0. */
  readonly nonNegative?: boolean;
  /** The two readings err independently: half-widths add in squares instead of straight. */
  readonly independent?: boolean;
}

/** A range whose ends may be open, with the best value in it. */
interface Range {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Best estimate in a reading: its value, the middle of closed bounds where the value is only a bound, else null. */
function best({ grade, value, low, high }: Reading): number | null {
  if (grade === "measured") return value;
  return low !== null && high !== null ? (low + high) / 2 : null;
}

/**
 * a - b. Bounds by interval arithmetic unless the two are independent.
 *
 * @param a, b  readings in one unit; an open bound stays open.
 * @param unit  of the result.
 * @returns `at-least` or `at-most` where one side is open, `not-resolvable` where both are or no value is known.
 */
export function difference(a: Reading, b: Reading, unit: Unit, rule: DifferenceRule = {}): Reading {
  const [bestA, bestB] = [best(a), best(b)];
  const value = bestA !== null && bestB !== null ? bestA - bestB : null;
  const low = a.low !== null && b.high !== null ? a.low - b.high : null;
  const high = a.high !== null && b.low !== null ? a.high - b.low : null;
  const range = rule.independent ? inSquares(a, b, { value, low, high }) : { value, low, high };
  return graded(range, unit, { ...rule, because: rule.because ?? because(a, b) });
}

function inSquares(a: Reading, b: Reading, straight: Range): Range {
  const { value, low, high } = straight;
  if (value === null || low === null || high === null) return straight;
  return {
    value,
    low: value - Math.hypot(best(a)! - a.low!, b.high! - best(b)!),
    high: value + Math.hypot(a.high! - best(a)!, best(b)! - b.low!),
  };
}

export interface RatioRule extends Remarks {
  /** The two readings err independently: relative half-widths add in squares. */
  readonly independent?: boolean;
}

/**
 * a / b for quantities that are not negative, unit "1". Open above where b may be 0.
 *
 * @param a, b  readings in one unit, not negative.
 * @returns unit "1"; `at-least` where b may be 0, `not-resolvable` where it is.
 */
export function ratio(a: Reading, b: Reading, { independent = false, ...remarks }: RatioRule = {}): Reading {
  const [bestA, bestB] = [best(a), best(b)];
  if (b.high === 0 || bestB === 0) {
    return notResolvable("1", remarks.because ?? because(a, b) ?? "nothing to compare with: the divisor is zero");
  }
  const value = bestA !== null && bestB !== null ? bestA / bestB : null;
  const low = a.low !== null && b.high !== null ? Math.max(0, a.low / b.high) : null;
  const high = a.high !== null && b.low !== null && b.low > 0 ? a.high / b.low : null;
  const range = independent ? inRelativeSquares(a, b, { value, low, high }) : { value, low, high };
  return graded(range, "1", { nonNegative: true, because: because(a, b), ...dropEmpty(remarks) });
}

/** Half-widths of the logarithms added in squares, where all four bounds are above zero. */
function inRelativeSquares(a: Reading, b: Reading, straight: Range): Range {
  const { value } = straight;
  if (value === null || !(a.low! > 0 && b.low! > 0) || a.high === null || b.high === null) return straight;
  const [bestA, bestB] = [best(a)!, best(b)!];
  return {
    value,
    low: value * Math.exp(-Math.hypot(Math.log(bestA / a.low!), Math.log(b.high / bestB))),
    high: value * Math.exp(Math.hypot(Math.log(a.high / bestA), Math.log(bestB / b.low!))),
  };
}

/**
 * factor * a, in another unit; `tolerance` is the factor's own relative 95 % half-width, independent of the reading.
 *
 * @param a  any reading. @param factor  in `unit` over the unit of a; a negative one exchanges the bounds.
 * @returns `measured` where both bounds are known, else `at-least` or `at-most`; `not-resolvable` without any.
 * @throws RangeError for a factor that is not finite or a negative tolerance (a caller's bug).
 */
export function scaled(a: Reading, factor: number, unit: Unit, { tolerance = 0 } = {}): Reading {
  if (!(Number.isFinite(factor) && tolerance >= 0)) throw new RangeError(`factor ${factor}, tolerance ${tolerance}`);
  const ends = factor < 0 ? { low: a.high, high: a.low } : { low: a.low, high: a.high };
  const times = (n: number | null) => (n === null ? null : n * factor);
  const range = widened({ value: times(best(a)), low: times(ends.low), high: times(ends.high) }, tolerance);
  return graded(range, unit, { because: a.because, ...(a.count === undefined ? {} : { count: a.count }) });
}

/** Adds a relative half-width in squares to each side; an open side stays open, one without a value is stretched. */
function widened({ value, low, high }: Range, tolerance: number): Range {
  if (value === null) {
    const by = (n: number | null, sign: number) => (n === null ? null : n + sign * Math.abs(n) * tolerance);
    return { value, low: by(low, -1), high: by(high, 1) };
  }
  const own = Math.abs(value) * tolerance;
  return {
    value,
    low: low === null ? null : value - Math.hypot(value - low, own),
    high: high === null ? null : value + Math.hypot(high - value, own),
  };
}

/**
 * Median over events.
 *
 * @param readings  same unit. Those without any bound are left out; one that is `at-least` counts as open above.
 * @returns bounds of the median, not the spread: the medians of the lower and of the upper bounds (they hold whatever the
 *          events have in common), widened to what the spread between the values leaves open for their median, but never
 *          beyond the outermost bounds. Where some values are known and others open on a side: `medianWithOpen`.
 */
export function medianOf(readings: readonly Reading[], unit: Unit, remarks: Remarks = {}): Reading {
  const usable = readings.filter((r) => r.low !== null || r.high !== null);
  const count = remarks.count ?? usable.length;
  if (usable.length === 0) return notResolvable(unit, remarks.because ?? "no event could be measured", { count });
  const lows = usable.map((r) => r.low ?? -Infinity);
  const highs = usable.map((r) => r.high ?? Infinity);
  const values = usable.map(best).filter((v) => v !== null);
  const isKnown = values.length === usable.length;
  if (!isKnown && values.length > 0) return medianWithOpen(usable, unit, { ...remarks, count });
  const middle = isKnown ? medianOfNumbers(values) : null;
  const half = isKnown ? spreadOfMedian(Float64Array.from(values)) : 0;
  const low = Math.max(Math.min(...lows), Math.min(medianOfNumbers(lows), (middle ?? Infinity) - half));
  const high = Math.min(Math.max(...highs), Math.max(medianOfNumbers(highs), (middle ?? -Infinity) + half));
  const open = (n: number) => (Number.isFinite(n) ? n : null);
  const reason = remarks.because ?? usable.find((r) => r.grade !== "measured")?.because;
  const nonNegative = lows.every((bound) => bound >= 0);
  return graded({ value: middle, low: open(low), high: open(high) }, unit, { count, because: reason, nonNegative });
}

/** Spacings of the two outermost of 2, 3, 4 events that reach from the outermost to the median in 95 % of draws, see below. */
const reaches = [5.5, 1.5, 0.27];

/**
 * Median over events of which some are known on one side only: an open one may lie anywhere beyond its bound, so its size says nothing
 * of the spread, and only the order of the events counts.
 *
 * @returns the events of rank l from either end, l the largest for which at most 2.5 % of draws put the median beyond it (sign test:
 *          from six events on; Conover, Practical Nonparametric Statistics, 3.1, from memory). Fewer leave the open side open; the
 *          other end is then the outermost event, moved out by a multiple of its distance to the next one, which holds 95 % of the
 *          medians of normal, uniform, exponential and lognormal events, the next one open or not (own simulation; of two normal ones
 *          both known it is (6.314 - 1) / 2 = 2.66 in closed form).
 */
function medianWithOpen(usable: readonly Reading[], unit: Unit, { count, because: said }: Remarks): Reading {
  const n = usable.length;
  const lows = Float64Array.from(usable, (r) => r.low ?? -Infinity).sort();
  const highs = Float64Array.from(usable, (r) => r.high ?? Infinity).sort();
  const rank = signRank(n);
  const outward = n <= reaches.length + 1 ? reaches[n - 2]! : 0;
  const low = rank > 0 ? lows[rank - 1]! : lows[0]! - outward * (lows[1]! - lows[0]!);
  const high = rank > 0 ? highs[n - rank]! : highs[n - 1]! + outward * (highs[n - 1]! - highs[n - 2]!);
  const known = (r: Reading) => best(r) ?? (r.high === null ? Infinity : -Infinity);
  const open = (bound: number) => (Number.isFinite(bound) ? bound : null);
  const range = { value: open(medianOfNumbers(usable.map(known))), low: open(low), high: open(high) };
  const reason = said ?? usable.find((r) => r.grade !== "measured")?.because;
  return graded(range, unit, {
    ...(count === undefined ? {} : { count }),
    because: reason,
    nonNegative: lows[0]! >= 0,
  });
}

/** Largest rank from an end beyond which the median of n events lies in at most 2.5 % of draws; 0 where there is none. */
function signRank(n: number): number {
  let rank = 0;
  let term = 0.5 ** n;
  let sum = 0.5 ** n;
  while (sum <= 0.025) {
    rank++;
    term *= (n - rank + 1) / rank;
    sum += term;
  }
  return rank;
}

/** Doubts of the two channels' stamps; absent where the two are sampled at the same instants. */
export interface StampDoubts {
  readonly a?: StampDoubt | undefined;
  readonly b?: StampDoubt | undefined;
}

/**
 * Delay from an edge of one channel to an edge of another, s.
 *
 * @param a, b  s, low <= time <= high. @param doubts  of the two channels' stamps; taken off and added in full.
 * @returns bounds [lowB - earlyB - (highA + lateA), highB + lateB - (lowA - earlyA)]: what sampling and stamps leave open
 *          is not taken as independent. Only the noise of the two edges is (where they tell it): it adds in squares.
 *          `at-most` when zero lies inside: a delay that may be none at all.
 */
export function delayBetween(a: Edge, b: Edge, doubts: StampDoubts = {}, remarks: Remarks = {}): Reading {
  const none: StampDoubt = { early: 0, late: 0 };
  const [doubtA, doubtB] = [doubts.a ?? none, doubts.b ?? none];
  const saved = coverage * ((a.deviation ?? 0) + (b.deviation ?? 0) - Math.hypot(a.deviation ?? 0, b.deviation ?? 0));
  const value = b.time - a.time;
  const range = {
    value,
    low: Math.min(value, b.low - a.high + saved) - doubtB.early - doubtA.late,
    high: Math.max(value, b.high - a.low - saved) + doubtB.late + doubtA.early,
  };
  const reason = remarks.because ?? "the samples leave open which of the two came first, and by how much";
  return graded(range, "s", { ...remarks, nonNegative: true, ...(range.low <= 0 ? { because: reason } : {}) });
}

export interface IntegralRule {
  /** Multiplies the integral. */
  readonly factor: number;
  /** Relative 95 % half-width of the rate (an air-flow meter: 0.1), independent of the instants. */
  readonly tolerance: number;
  readonly unit: Unit;
}

/**
 * What flowed during a delay: factor times the integral of a rate over a span of that length.
 *
 * @param flow   rate per s, not negative; linear between samples, its first or last value beyond its ends.
 * @param start  where the span begins, s (its own doubt shifts both ends together and hardly matters).
 * @param delay  its length; an open or missing end stays so.
 * @returns bounds from those of the delay and, in squares, from the tolerance. `not-resolvable` where the flow has no
 *          sample around the span.
 */
export function integralTimes(flow: Series, start: Seconds, delay: Reading, rule: IntegralRule): Reading {
  const { factor, tolerance, unit } = rule;
  const until = (length: number | null) => (length === null ? null : factor * integralOf(flow, start, start + length));
  const range = { value: until(best(delay)), low: until(delay.low), high: until(delay.high) };
  if ([range.value, range.low, range.high].some(Number.isNaN)) {
    return notResolvable(unit, "no sample of the flow hangs together over this span");
  }
  const remarks = { because: delay.because, ...(delay.count === undefined ? {} : { count: delay.count }) };
  return graded(widened(range, tolerance), unit, { nonNegative: true, ...remarks });
}

/**
 * Integral of a series from one instant to another by trapezoids, unit of the samples times s.
 *
 * @param series  linear between samples; outside its only run it keeps its end values.
 * @param from, to  s, from <= to.
 * @returns NaN where the span meets a gap, or no sample is there.
 */
export function integralOf(series: Series, from: Seconds, to: Seconds): number {
  const runs = runsOf(series);
  const { time } = series;
  for (let r = 0; r < runs.length; r += 2) {
    const [first, end] = [runs[r]!, runs[r + 1]!];
    const isHere = runs.length === 2 || (timeAt(time, first) <= from && to <= timeAt(time, end - 1));
    if (isHere) return integralOfRun(series, [first, end], [from, to]);
  }
  return NaN;
}

function integralOfRun(
  { samples, time }: Series,
  run: readonly [number, number],
  span: readonly [Seconds, Seconds],
): number {
  const [first, end] = run;
  const [from, to] = span;
  const begin = timeAt(time, first);
  const finish = timeAt(time, end - 1);
  let sum = samples[first]! * Math.max(0, Math.min(to, begin) - from);
  sum += samples[end - 1]! * Math.max(0, to - Math.max(from, finish));
  for (let i = Math.max(first + 1, indexAt(time, from)); i < end && timeAt(time, i - 1) < to; i++) {
    const [t0, t1] = [timeAt(time, i - 1), timeAt(time, i)];
    const [a, b] = [Math.max(t0, from), Math.min(t1, to)];
    if (!(b > a)) continue;
    const rise = (samples[i]! - samples[i - 1]!) / (t1 - t0);
    sum += (b - a) * (samples[i - 1]! + rise * ((a + b) / 2 - t0));
  }
  return sum;
}

interface GradeRule {
  readonly nonNegative?: boolean;
  readonly because?: string | undefined;
  readonly count?: number;
}

/** The grade that a range deserves; see design of the reading type. */
function graded(range: Range, unit: Unit, { nonNegative = false, because: reason, count }: GradeRule): Reading {
  const remarks = { ...(reason === undefined ? {} : { because: reason }), ...(count === undefined ? {} : { count }) };
  const cut = (n: number | null) => (n !== null && nonNegative ? Math.max(0, n) : n);
  const isAllBelow = range.high !== null && range.high < 0;
  const [low, high] = isAllBelow ? [range.low, range.high] : [cut(range.low), range.high];
  if (low === null && high === null) return notResolvable(unit, reason ?? "neither bound is known", remarks);
  if (high === null) return atLeast(low!, unit, remarks);
  if (low === null) return atMost(high, unit, { ...remarks, low: nonNegative ? 0 : null });
  if (nonNegative && low <= 0 && high >= 0) return atMost(high, unit, remarks);
  if (range.value === null) return notResolvable(unit, reason ?? "no best value", { low, high, ...remarks });
  return measured(Math.min(Math.max(range.value, low), high), [low, high], unit, remarks);
}

function because(...readings: readonly Reading[]): string | undefined {
  return readings.find((r) => r.grade !== "measured")?.because;
}

function dropEmpty(remarks: Remarks): Remarks {
  return Object.fromEntries(Object.entries(remarks).filter(([, value]) => value !== undefined));
}
