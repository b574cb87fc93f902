// Passages from one level to another: how long each took.

import { NumberList } from "../numbers/lists.ts";
import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";
import { type BlockBounds, blockAt, blockBoundsOf, blockLength } from "../series/block-bounds.ts";
import { onceWith } from "../series/once.ts";
import { type Stretch, stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import { type AnySeries, stampSlack } from "../series/series.ts";
import { noiseOf } from "../statistics/noise.ts";
import { type ValueLimits, valueLimitsOf } from "../statistics/value-limits.ts";
import { type FoundEdge, locateEdge, mostBeside, partAround } from "./edge.ts";
import { biasAware, type SmoothCourse, smoothCourse } from "./smooth-course.ts";

export interface TransitionRule {
  /** Level the signal leaves, and level it reaches; unit of the samples. */
  readonly from: number;
  readonly to: number;
  /** Standard deviation of the noise; estimated from the samples where absent. */
  readonly noise?: number;
}

/** Complete transitions in the order of time; entry k of each array belongs to the same one. All in s. */
export interface Transitions {
  readonly durations: Float64Array;
  /** Bounds of each duration. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Where the signal left the first level for good, and where it reached the second. */
  readonly starts: Float64Array;
  readonly ends: Float64Array;
  /** Standard deviation of that part of the bounds which noise makes: it averages out over events. */
  readonly deviations: Float64Array;
  /** Left the first level and came back without reaching the second. */
  readonly partial: number;
  /** Reached the second level, but turned back by more than noise on the way. */
  readonly ragged: number;
  /** What coarse stamps add to the bounds at each side, s; see `stampSlack`. */
  readonly slack: Seconds;
}

/** A turn back on the way of more than this many sigma, or this share of the way, makes a transition ragged. */
const raggedSigmas = 7;
const raggedShare = 0.15;

/** The signal has surely left or come back when it is this many sigma past the level. */
const sureSigmas = 3;

/**
 * All transitions between two fixed levels, in the one direction.
 *
 * @param series  any length, one unit; read only. NaN and gaps end a run.
 * @param rule    levels in the unit of the samples; from < to for rising ones.
 * @returns durations >= 0 with bounds; partial and ragged ones are counted apart. Nothing is timed across NaN or a gap.
 * @throws RangeError if the levels are equal or not finite (a caller's bug).
 *
 * The bounds of a duration are those of its two ends: the parts from sampling add up, the parts from noise add in
 * squares; stamps that were spread add what they may be off. Where both ends lie between the same two samples the transition may have been instant: low is 0. Where one
 * smooth course through the whole edge tells the time between the levels more closely, duration and bounds are its own
 * (`smoothCourse`); the ends stay those of each level by itself.
 */
export function findTransitions(series: AnySeries, rule: TransitionRule): Transitions {
  const { from, to, noise = noiseOf(series.samples) } = rule;
  return timed(series, from, to, noise);
}

const timed = onceWith((series: AnySeries, from, to, noise): Transitions => {
  if (!(Math.abs(to - from) > 0 && Number.isFinite(to - from))) {
    throw new RangeError(`want two different finite levels, got ${from} and ${to}`);
  }
  const limits = valueLimitsOf(series, noise);
  const list = new TransitionList();
  const walk = new Walk(series, { from, to, ...limits }, list);
  for (const stretch of stretchesOf(series, runsOf(series))) walk.take(stretch);
  return list.done(stampSlack(series.time));
});

interface Levels extends ValueLimits {
  readonly from: number;
  readonly to: number;
}

/** How far a transition has got. Indices of samples in the whole; -1 is not yet. */
interface Way {
  /** Last sample surely before the first level, and last one on or before it. */
  sureHome: number;
  home: number;
  /** First and last sample on or past the second level. */
  reached: number;
  lastPast: number;
  hasLeft: boolean;
  peak: number;
  turnedBack: number;
}

/** Nothing is under way. */
function rest(way: Way, home: number, peak: number): void {
  way.home = home;
  way.reached = -1;
  way.lastPast = -1;
  way.hasLeft = false;
  way.peak = peak;
  way.turnedBack = 0;
}

/** Works on the signal turned so that every wanted transition rises from `start` to `end`. */
class Walk {
  readonly #series: AnySeries;
  readonly #levels: Levels;
  readonly #list: TransitionList;
  readonly #most: number;
  readonly #bounds: BlockBounds;
  readonly #way: Way = { sureHome: -1, home: -1, reached: -1, lastPast: -1, hasLeft: false, peak: 0, turnedBack: 0 };
  #previous = 0;

  constructor(series: AnySeries, levels: Levels, list: TransitionList) {
    this.#series = series;
    this.#levels = levels;
    this.#list = list;
    this.#bounds = blockBoundsOf(series.samples);
    this.#most = Math.max(raggedSigmas * levels.sigma, raggedShare * Math.abs(levels.to - levels.from));
  }

  /** Stretches of one run come in order. */
  take({ series: { samples }, at, from, to, end: stop, isStart }: Stretch): void {
    const levels = this.#levels;
    const sign = levels.to > levels.from ? 1 : -1;
    const [start, end] = [sign * levels.from, sign * levels.to];
    const margin = Math.min(sureSigmas * levels.sigma, 0.4 * (end - start));
    const most = this.#most;
    const way = this.#way;
    if (isStart) this.#begin(at + from);
    for (let i = from; i < to; i++) {
      const block = way.reached < 0 && !way.hasLeft ? blockAt(at + i, at + to) : -1;
      if (block >= 0) {
        // All of it surely before the first level, or all past it with nothing begun: the last sample tells what is left.
        const [lowest, highest] = this.#boundsOf(block, sign);
        const isHome = highest <= start - margin;
        if (isHome || (way.home < 0 && lowest > start)) {
          i += blockLength - 1;
          if (!isHome) continue;
          way.sureHome = at + i;
          rest(way, at + i, sign * samples[i]!);
          continue;
        }
      }
      const value = sign * samples[i]!;
      if (way.reached >= 0) {
        // Never surely past, but clearly on the way back: the last sample past the level has to do.
        if (value >= end + margin) this.#finish(at + i, stop);
        else if (value < end - most) this.#finish(way.lastPast, stop);
        else if (value >= end) way.lastPast = at + i;
      } else if (value <= start && !(way.hasLeft && value > start - margin)) {
        if (way.hasLeft) this.#list.partial++;
        if (value <= start - margin || way.sureHome < 0) way.sureHome = at + i;
        rest(way, at + i, value);
        continue;
      }
      if (way.home < 0) continue;
      if (value > start + margin) way.hasLeft = true;
      way.peak = Math.max(way.peak, value);
      way.turnedBack = Math.max(way.turnedBack, way.peak - value);
      if (way.reached < 0 && value >= end) {
        way.reached = at + i;
        way.lastPast = at + i;
        if (value >= end + margin) this.#finish(at + i, stop);
      }
    }
    if (at + to === stop && way.reached >= 0) this.#finish(way.lastPast, stop);
  }

  /** Of a block of the turned signal. */
  #boundsOf(block: number, sign: 1 | -1): readonly [lowest: number, highest: number] {
    const { low, high } = this.#bounds;
    return sign > 0 ? [low[block]!, high[block]!] : [-high[block]!, -low[block]!];
  }

  #begin(first: number): void {
    rest(this.#way, -1, 0);
    this.#way.sureHome = -1;
    this.#previous = first;
  }

  #finish(last: number, stop: number): void {
    const room = { last, from: this.#previous, to: stop };
    if (this.#way.turnedBack > this.#most) this.#list.ragged++;
    else this.#list.add(timeTransition(this.#series, this.#levels, this.#way, room));
    this.#begin(last);
  }
}

interface Room {
  /** Sample from which on the signal is past the second level. */
  readonly last: number;
  /** Samples that may be used, half-open. */
  readonly from: number;
  readonly to: number;
}

interface Timed {
  readonly ends: readonly [FoundEdge, FoundEdge];
  /** One course through both levels; null where none fits. */
  readonly whole: SmoothCourse | null;
}

/** The two ends of a transition, and the whole. Its samples between the levels, and as many again outside, may be used for either. */
function timeTransition(whole: AnySeries, { from, to, ...limits }: Levels, way: Way, room: Room): Timed {
  const stop = Math.min(room.to, 2 * room.last - room.from + 1, room.last + mostBeside);
  const begin = Math.max(room.from, way.home - mostBeside);
  const { series, at } = partAround(whole, begin, stop);
  const { samples } = series;
  const [home, reached, last] = [way.home - at, way.reached - at, room.last - at];
  const sureHome = Math.max(way.sureHome, begin) - at;
  const isPast = (i: number, level: number) => (to > from ? samples[i]! > level : samples[i]! < level);
  const width = Math.min((sureSigmas + 1) * limits.sigma, Math.abs(to - from) / 3);
  const inner = (level: number, towards: number) => level + Math.sign(towards - level) * width;
  let sureStart = home + 1;
  while (sureStart < last && !isPast(sureStart, inner(from, to))) sureStart++;
  let sureEnd = reached - 1;
  while (sureEnd > sureHome && isPast(sureEnd, inner(to, from))) sureEnd--;
  const range = { ...limits, from: begin - at, to: stop - at };
  return {
    ends: [
      locateEdge(series, { level: from, first: sureHome, last: sureStart, ...range }),
      locateEdge(series, { level: to, first: sureEnd, last, ...range }),
    ],
    whole: smoothCourse(series, { levels: [from, to], core: [home, reached], ...range }),
  };
}

/** A duration with its bounds, and that part of them which noise makes; all in s. */
interface Duration {
  readonly duration: Seconds;
  readonly low: Seconds;
  readonly high: Seconds;
  readonly deviation: Seconds;
}

function timeThrough({ time, deviation }: SmoothCourse): Duration {
  const half = biasAware * deviation;
  return { duration: time, low: Math.max(0, time - half), high: time + half, deviation };
}

/** The time from one end to the other, each known by itself. */
function timeBetween(start: FoundEdge, end: FoundEdge): Duration {
  const duration = Math.max(0, end.time - start.time);
  const deviation = Math.hypot(start.deviation, end.deviation);
  const firm = (edge: FoundEdge) => coverage * edge.deviation;
  const early = end.time - end.low - firm(end) + (start.high - start.time - firm(start));
  const late = end.high - end.time - firm(end) + (start.time - start.low - firm(start));
  const low = Math.max(0, duration - Math.max(0, early) - coverage * deviation);
  const high = duration + Math.max(0, late) + coverage * deviation;
  return { duration, low, high, deviation };
}

class TransitionList {
  readonly #columns = Array.from({ length: 6 }, () => new NumberList());
  partial = 0;
  ragged = 0;

  add({ ends: [start, end], whole }: Timed): void {
    const apart = timeBetween(start, end);
    const isWhole = whole !== null && 2 * biasAware * whole.deviation < apart.high - apart.low;
    const { duration, low, high, deviation } = isWhole ? timeThrough(whole) : apart;
    [duration, low, high, start.time, end.time, deviation].forEach((value, k) => {
      this.#columns[k]!.push(value);
    });
  }

  done(slack: Seconds): Transitions {
    const [durations, low, high, starts, ends, deviations] = this.#columns.map((column) => column.toArray());
    return {
      durations: durations!,
      low: low!.map((bound) => Math.max(0, bound - slack)),
      high: high!.map((bound) => bound + slack),
      starts: starts!,
      ends: ends!,
      deviations: deviations!,
      partial: this.partial,
      ragged: this.ragged,
      slack,
    };
  }
}
