// One passage of a signal through a level: when, and between which bounds.

import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";
import { type Part, partOver } from "../series/reel.ts";
import { type AnySeries, type Samples, type Series, timeAt } from "../series/series.ts";
import type { ValueLimits } from "../statistics/value-limits.ts";
import { biasAware, type SmoothCourse, smoothCourse } from "./smooth-course.ts";

/** An instant with bounds that hold the truth in at least 95 % of cases. */
export interface Edge {
  readonly time: Seconds;
  readonly low: Seconds;
  readonly high: Seconds;
  /** Standard deviation of that part of the bounds which noise makes, s: independent between edges, unlike the rest. */
  readonly deviation?: Seconds;
}

/** An edge found in samples: the part of noise is always told apart. */
export type FoundEdge = Required<Edge>;

export interface Passage extends ValueLimits {
  readonly level: number;
  /** Samples [first, last]: the signal is surely on the old side at `first` and on the new side at `last`. */
  readonly first: number;
  readonly last: number;
  /** Samples that may be used around it, half-open. */
  readonly from: number;
  readonly to: number;
}

/** Last sample before the passage and first after it; some in between where noise crosses the level more than once. */
type Stay = readonly [before: number, after: number];

/** A sample lies surely on its side of the level when it is this many sigma away. */
const sureSigmas = 3;

/**
 * Where the signal meets the level between `first` and `last`.
 *
 * @param series   read only; finite over the samples of the passage.
 * @param passage  level and sigma in the unit of the samples; from <= first < last < to.
 * @returns s, low <= time <= high. Never NaN; as wide as the sure samples on either side where nothing tells more.
 *
 * Two regimes. Where the signal moves more per sample than the noise, the time is interpolated and the bounds are those
 * of `bracket`. Where noise is larger, the first sample beyond the level comes early; there the time comes from a smooth
 * course fitted around it (`smoothCourse`), and the bounds are its 95 % interval. Where no course can be fitted and a
 * sample happens to lie so near the level that noise leaves its side open, the passage is close beside it
 * (`besideSample`), or, where noise is too large for that, anywhere between the sure samples around it (`wideBracket`).
 */
export function locateEdge(series: Series, passage: Passage): FoundEdge {
  const stay = lastStay(series, passage);
  const course = smoothCourse(series, { ...passage, levels: [passage.level], core: stay });
  const isSure = stay.every((i) => Math.abs(series.samples[i]! - passage.level) > sureSigmas * passage.sigma);
  if (!isSure && course === null) return besideSample(series, passage, stay) ?? wideBracket(series, passage, stay);
  const between = isSure ? bracket(series, passage, stay) : null;
  if (course === null || (between !== null && between.high - between.low < 2 * biasAware * course.deviation)) {
    return between!;
  }
  return edgeOf(course);
}

/** No edge needs more samples on either side of it. */
export const mostBeside = 1 << 20;

/** A part in memory for an edge whose passage uses samples [from, to). */
export function partAround(series: AnySeries, from: number, to: number): Part {
  return partOver(series, Math.max(0, from - samplesSeen), to);
}

function edgeOf({ time, deviation }: SmoothCourse): FoundEdge {
  const half = biasAware * deviation;
  return { time, low: time - half, high: time + half, deviation };
}

/** First index after which the signal has been beyond the level, and the last from which it still went there. */
function lastStay({ samples }: Series, { level, first, last }: Passage): Stay {
  const rising = samples[last]! > samples[first]!;
  const isBeyond = (i: number) => (rising ? samples[i]! > level : samples[i]! < level);
  let after = first + 1;
  while (after < last && !isBeyond(after)) after++;
  let before = last - 1;
  while (before > first && isBeyond(before)) before--;
  return before < after ? [before, after] : [after - 1, before + 1];
}

/**
 * Bounds from the samples on either side: the truth lies between them. Where the neighbours tell more, the bounds are
 * the hull of three straight lines: the chord, and the lines through the two samples before and the two after. A course
 * that does not change the sense of its curvature in between lies inside that hull (a convex arc lies between its chord
 * and the continuations of the neighbouring chords); one that starts with a kink does so too, since the flat line before
 * it never meets the level, which leaves the bracket itself. Noise moves each line by about sigma over slope.
 */
function bracket(series: Series, passage: Passage, [a, b]: Stay): FoundEdge {
  const { level, sigma, from, to } = passage;
  const { samples, time } = series;
  const [ta, tb] = [timeAt(time, a), timeAt(time, b)];
  const slope = (samples[b]! - samples[a]!) / (tb - ta);
  const isPlain = b === a + 1;
  const clamp = (t: Seconds) => Math.min(Math.max(t, ta), tb);
  const line = (i: number, open: Seconds) => {
    if (i < from || i + 1 >= to || !isPlain) return open;
    const rise = (samples[i + 1]! - samples[i]!) / (timeAt(time, i + 1) - timeAt(time, i));
    return rise * slope > 0 ? clamp(timeAt(time, i) + (level - samples[i]!) / rise) : open;
  };
  const value = clamp(ta + (level - samples[a]!) / slope);
  const lines = [value, line(a - 1, tb), line(b, ta)];
  const half = (coverage * sigma) / Math.abs(slope);
  const [first, last] = isPlain ? [Math.min(...lines), Math.max(...lines)] : [ta, tb];
  const [low, high] = [clamp(first - half), clamp(last + half)];
  const fresh = freshSample(series, passage, a);
  return {
    time: value,
    low: fresh < a ? timeAt(time, fresh) : low,
    high,
    // What of the noise the samples on either side leave room for.
    deviation: Math.min(first - low, high - last) / coverage,
  };
}

/**
 * The sample that was really taken when `i` repeats the one before: everywhere in a channel known to repeat values, else
 * where the signal moved by more than noise up to the equal ones, and so has hardly stood still since; there no further
 * back than twice as long as the shortest of the values before them stayed: what stands longer is a plateau, no repeat.
 */
function freshSample({ samples }: Series, { isStale, from, sigma }: Passage, i: number): number {
  const fresh = firstEqual(samples, i, from);
  if (isStale) return fresh;
  const isAmidMovement = fresh > from && Math.abs(samples[fresh]! - samples[fresh - 1]!) > 2 * sureSigmas * sigma;
  return isAmidMovement ? Math.max(fresh, i - 2 * shortestStay(samples, fresh)) : i;
}

/** First of the equal samples that end at `i`. */
function firstEqual(samples: Samples, i: number, from: number): number {
  let first = i;
  while (first > from && samples[first - 1] === samples[i]) first--;
  return first;
}

/** So many values before an edge tell how long values stay, no more than so many samples back. */
const staysSeen = 8;
const samplesSeen = 4096;

/** Samples that the shortest of the last values before `end` stayed; Infinity where none began in reach. */
function shortestStay(samples: Samples, end: number): number {
  const from = Math.max(0, end - samplesSeen);
  let shortest = Infinity;
  for (let k = 0, next = end; k < staysSeen && next > from; k++) {
    const first = firstEqual(samples, next - 1, from);
    if (first === from) break;
    shortest = Math.min(shortest, next - first);
    next = first;
  }
  return shortest;
}

/** The signal must move by so many sigma from a sample to each neighbour, for the slope there to be known well enough. */
const plainSigmas = 6;

/**
 * One sample lies too near the level to tell its side, in a signal that moves on by much more than noise on either side of
 * it. Up to the sample the bounds are those of `bracket`. Beyond it the signal may still lie short of the level by what
 * noise hides, 1.96 sigma less the distance seen; it makes up for that with the lesser of the slopes to the neighbours, each
 * taken 1.96 sigma less than seen: a course that does not change the sense of its curvature has its slope at a sample
 * between the two. Null where this does not apply.
 */
function besideSample(series: Series, passage: Passage, [a, b]: Stay): FoundEdge | null {
  const { samples, time } = series;
  const { level, sigma, from, to } = passage;
  const off = (i: number) => Math.abs(samples[i]! - level);
  const isAfter = off(b) < off(a);
  const [near, far] = isAfter ? [b, a] : [a, b];
  const beyond = 2 * near - far;
  if (b !== a + 1 || beyond < from || beyond >= to || Math.min(off(far), off(beyond)) <= sureSigmas * sigma)
    return null;
  const rises = [samples[near]! - samples[far]!, samples[beyond]! - samples[near]!] as const;
  if (!(rises[0] * rises[1] > 0 && Math.min(...rises.map(Math.abs)) > plainSigmas * sigma)) return null;
  const slowness = (i: number, rise: number) =>
    Math.abs(timeAt(time, i) - timeAt(time, near)) / (Math.abs(rise) - coverage * sigma);
  const past =
    Math.max(0, coverage * sigma - off(near)) * Math.max(slowness(far, rises[0]), slowness(beyond, rises[1]));
  const between = bracket(series, passage, [a, b]);
  if (isAfter) return { ...between, high: Math.max(between.high, timeAt(time, near) + past) };
  const fresh = timeAt(time, freshSample(series, passage, near));
  return { ...between, low: Math.min(between.low, fresh - past) };
}

/** A sample next to the level may lie on either side: from the last sure one before to the first sure one after. */
function wideBracket(series: Series, passage: Passage, [a, b]: Stay): FoundEdge {
  const { samples, time } = series;
  const { level, sigma, first, last } = passage;
  const isUnsure = (i: number) => Math.abs(samples[i]! - level) <= sureSigmas * sigma;
  let before = a;
  while (before > first && isUnsure(before)) before--;
  let after = b;
  while (after < last && isUnsure(after)) after++;
  const [low, high] = [timeAt(time, freshSample(series, passage, before)), timeAt(time, after)];
  const [ta, tb] = [timeAt(time, a), timeAt(time, b)];
  const middle = ta + ((tb - ta) * (level - samples[a]!)) / (samples[b]! - samples[a]!);
  const value = middle >= low && middle <= high ? middle : (ta + tb) / 2;
  return { time: value, low, high, deviation: 0 };
}
