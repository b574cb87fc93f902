// Passages of a signal through a level, with hysteresis, each with its time and bounds.

import { NumberList } from "../numbers/lists.ts";
import type { Seconds } from "../numbers/units.ts";
import { type BlockBounds, blockAt, blockBoundsOf, blockLength } from "../series/block-bounds.ts";
import { onceWith } from "../series/once.ts";
import { partOver, stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import { type AnySeries, type Samples, stampSlack, timeAt } from "../series/series.ts";
import { usualStep } from "../series/usual-step.ts";
import { noiseOf } from "../statistics/noise.ts";
import { valueLimitsOf } from "../statistics/value-limits.ts";
import { type FoundEdge, locateEdge, mostBeside, type Passage, partAround } from "./edge.ts";

export interface CrossingRule {
  /** Unit of the samples. */
  readonly level: number;
  /** The signal must pass from one side of level ± hysteresis to the other; >= 0. */
  readonly hysteresis: number;
  /** Standard deviation of the noise; estimated from the samples where absent. */
  readonly noise?: number;
}

/** Crossings in the order of time; entry k of each array belongs to the same crossing. */
export interface Crossings {
  /** Where the level itself is crossed, s. */
  readonly times: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** 1 where the signal rises through the level, 0 where it falls. */
  readonly rising: Uint8Array;
  /** First sample that lies on the new side of level ± hysteresis. */
  readonly indices: Float64Array;
  /** Standard deviation of that part of the bounds which noise makes, s: it averages out over events. */
  readonly deviations: Float64Array;
  /** Number of the gap-free run each crossing lies in: nothing is counted or timed from one run into the next. */
  readonly runs: Int32Array;
  /** Usual step between samples, s: what the crossings cannot be resolved below. NaN below two samples. */
  readonly step: Seconds;
  /** How far two of the times may be off against each other beyond their bounds, s; see `stampSlack`. */
  readonly slack: Seconds;
}

/**
 * All crossings of a level.
 *
 * @param series  any length; NaN and gaps end a run, and no crossing is counted across either.
 * @returns times with bounds that hold the truth in at least 95 % of cases. The doubt of the stamps is not in them: it is
 *          added where two channels are compared (`delayBetween`), and where two times of one are (`slack`).
 * @throws RangeError if the hysteresis or the noise is negative or NaN (a caller's bug).
 *
 * A sample exactly on level ± hysteresis counts as between. For the bounds see `locateEdge`.
 */
export function findCrossings(series: AnySeries, rule: CrossingRule): Crossings {
  const { level, hysteresis, noise = noiseOf(series.samples) } = rule;
  return located(series, level, hysteresis, noise);
}

const located = onceWith((series: AnySeries, level, hysteresis, noise): Crossings => {
  if (!(noise >= 0)) throw new RangeError(`noise must be >= 0, got ${noise}`);
  const limits = valueLimitsOf(series, noise);
  const found = new CrossingList();
  eachCrossing(series, { level, hysteresis }, ({ isRising, run, ...seen }) => {
    found.add(locate(series, { ...limits, ...seen, level }), isRising, seen.last, run);
  });
  return found.done(usualStep(series.time), stampSlack(series.time));
});

/**
 * The crossings that `findCrossings` would find, each where the chord between the samples on either side meets the level: for
 * what is counted, and timed to a sample. The bounds are the two samples.
 *
 * @throws RangeError if the hysteresis is negative or NaN (a caller's bug).
 */
export function roughCrossings(series: AnySeries, { level, hysteresis }: Omit<CrossingRule, "noise">): Crossings {
  const found = new CrossingList();
  eachCrossing(series, { level, hysteresis }, ({ first, last, isRising, run }) => {
    found.add(onChord(series, level, first, last), isRising, last, run);
  });
  return found.done(usualStep(series.time), stampSlack(series.time));
}

function onChord(series: AnySeries, level: number, first: number, last: number): FoundEdge {
  const { series: part, at } = partOver(series, first, last + 1);
  const [before, after] = [part.samples[first - at]!, part.samples[last - at]!];
  const [low, high] = [timeAt(part.time, first - at), timeAt(part.time, last - at)];
  return { time: low + ((level - before) / (after - before)) * (high - low), low, high, deviation: 0 };
}

/**
 * How many crossings `findCrossings` would find, without looking for their times.
 *
 * @throws RangeError if the hysteresis is negative or NaN (a caller's bug).
 */
export function crossingCount(series: AnySeries, rule: Pick<CrossingRule, "level" | "hysteresis">): number {
  let count = 0;
  eachCrossing(series, rule, () => count++);
  return count;
}

/** A crossing as the walk along the samples sees it; places are those of `Passage`. */
interface Seen {
  readonly first: number;
  readonly last: number;
  readonly from: number;
  readonly to: number;
  readonly run: number;
  readonly isRising: boolean;
}

function eachCrossing(
  series: AnySeries,
  { level, hysteresis }: Pick<CrossingRule, "level" | "hysteresis">,
  found: (seen: Seen) => void,
): void {
  if (!(hysteresis >= 0)) throw new RangeError(`hysteresis must be >= 0, got ${hysteresis}`);
  const way: Way = { side: 0, last: 0, previous: 0 };
  const bounds = blockBoundsOf(series.samples);
  for (const { series: part, at, from, to, run, end, isStart } of stretchesOf(series, runsOf(series))) {
    if (isStart) Object.assign(way, { side: 0, last: at + from, previous: at + from });
    walk({ samples: part.samples, at, from, to, bounds }, { level, hysteresis }, way, (first, last, previous) => {
      const range = { from: previous, to: Math.min(end, 2 * last - previous) };
      found({ first, last, ...range, run, isRising: way.side < 0 });
    });
  }
}

/** How far the samples have been walked through. */
interface Way {
  /** 1 above, -1 below; 0 where neither was reached yet. */
  side: -1 | 0 | 1;
  /** Last sample beyond that side, and first beyond it. */
  last: number;
  previous: number;
}

interface Walked {
  readonly samples: Samples;
  /** Place of its first sample in the whole: `Way` and callbacks count from there. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly bounds: BlockBounds;
}

/** Calls back with the last sample beyond the old side, the first beyond the new, and the previous such first. */
function walk(
  { samples, at, from, to, bounds }: Walked,
  { level, hysteresis }: CrossingRule,
  way: Way,
  found: (first: number, last: number, previous: number) => void,
): void {
  const above = level + hysteresis;
  const below = level - hysteresis;
  let { side, last } = way;
  for (let i = from; i < to; i++) {
    const block = blockAt(at + i, at + to);
    if (block >= 0) {
      const isAbove = bounds.low[block]! > above;
      const isBeyond = isAbove || bounds.high[block]! < below;
      const isBetween = bounds.low[block]! >= below && bounds.high[block]! <= above;
      if (isBetween || (isBeyond && (side === 0 || side === (isAbove ? 1 : -1)))) {
        i += blockLength - 1;
        if (isBetween) continue;
        side = isAbove ? 1 : -1;
        last = at + i;
        continue;
      }
    }
    const sample = samples[i]!;
    const now = sample > above ? 1 : sample < below ? -1 : 0;
    if (now === 0) continue;
    if (side + now === 0 && side !== 0) {
      way.side = side;
      found(last, at + i, way.previous);
      way.previous = at + i;
    }
    side = now;
    last = at + i;
  }
  way.side = side;
  way.last = last;
}

/** The edge, from a part in memory around it. */
function locate(series: AnySeries, { from, to, first, last, ...limits }: Passage): FoundEdge {
  const start = Math.max(first, last - mostBeside);
  const [low, high] = [Math.max(from, start - mostBeside), Math.min(to, last + mostBeside)];
  const { series: part, at } = partAround(series, low, high);
  return locateEdge(part, { ...limits, first: start - at, last: last - at, from: low - at, to: high - at });
}

class CrossingList {
  readonly #columns = Array.from({ length: 7 }, () => new NumberList());

  add(edge: FoundEdge, rising: boolean, index: number, run: number): void {
    const row = [edge.time, edge.low, edge.high, edge.deviation, rising ? 1 : 0, index, run];
    for (let k = 0; k < row.length; k++) this.#columns[k]!.push(row[k]!);
  }

  done(step: Seconds, slack: Seconds): Crossings {
    const [times, low, high, deviations, rising, indices, runs] = this.#columns.map((column) => column.toArray());
    return {
      times: times!,
      low: low!,
      high: high!,
      deviations: deviations!,
      rising: Uint8Array.from(rising!),
      indices: indices!,
      runs: Int32Array.from(runs!),
      step,
      slack,
    };
  }
}
