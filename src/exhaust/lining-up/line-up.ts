// How far one recording is shifted against another so that like events lie over each other. No sample is moved or made.

import { difference } from "../../signal/combining/combine.ts";
import { findCrossings } from "../../signal/edges/crossings.ts";
import { lagBetween } from "../../signal/likeness/lag.ts";
import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { within } from "../../signal/series/reel.ts";
import { indexAt, type Series, slice, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { noiseOf, sureNoiseOf } from "../../signal/statistics/noise.ts";
import { formatValue } from "../../signal/written/reading-text.ts";

/** What a reference is shifted by, s: time in the suspect = time in the reference + shift. */
export interface Shift {
  readonly shift: Reading;
  readonly by: "event" | "correlation" | "hand";
  /** The way that told it, by its id; absent where no way is offered any more, or a hand set it. */
  readonly way?: string;
  /** For people: "lift-off 2 on lift-off 1". */
  readonly says: string;
  /** Another shift as far away as this fits nearly as well; null where none does. */
  readonly ambiguousBy: Seconds | null;
}

/** On one event of each: its instant in either recording, with bounds. The two err independently. */
export function shiftByEvents(suspect: Reading, reference: Reading, says: string): Shift {
  return { shift: difference(suspect, reference, "s", { independent: true }), by: "event", says, ambiguousBy: null };
}

export interface CorrelationRule {
  /** Shift about which is searched. */
  readonly guess: Seconds;
  /** Furthest from it, either way. */
  readonly most: Seconds;
  readonly says: string;
}

/**
 * Where the two channels run most alike; see `lagBetween`. Each keeps its own rate: only for the search they share a grid.
 * An edge between two samples lies anywhere between them, so half the coarser step, and what the stamps leave open, is
 * added to the bounds.
 */
export function shiftByCorrelation(suspect: Series, reference: Series, { guess, most, says }: CorrelationRule): Shift {
  const { lag, ambiguousBy } = lagBetween(shifted(reference, guess), suspect, { most });
  const coarser = Math.max(usualStep(suspect.time), usualStep(reference.time)) / 2;
  const [mine, theirs] = [suspect.time.doubt ?? none, reference.time.doubt ?? none];
  const moved = (bound: number | null, by: number) => (bound === null ? null : bound + guess + by);
  const shift: Reading = {
    ...lag,
    value: moved(lag.value, 0),
    low: moved(lag.low, -coarser - mine.early - theirs.late),
    high: moved(lag.high, coarser + mine.late + theirs.early),
  };
  return { shift, by: "correlation", says, ambiguousBy };
}

const none = { early: 0, late: 0 };

/** Set by hand, to within what a hand can see. */
export function shiftByHand(shift: Seconds, doubt: Seconds): Shift {
  return {
    shift: measured(shift, [shift - doubt, shift + doubt], "s"),
    by: "hand",
    says: "by hand",
    ambiguousBy: null,
  };
}

/** First crossing of a level after a mark, s, with the bounds of that crossing. */
export function firstCrossing(series: Series, after: Seconds, level: number): Reading {
  const from = Math.max(0, indexAt(series.time, after) - 1);
  const part = slice(series, from, series.samples.length);
  const noise = noiseOf(part.samples);
  const { times, low, high } = findCrossings(part, {
    level,
    hysteresis: Math.max(0.05, 4 * sureNoiseOf(part.samples)),
    noise,
  });
  const k = times.findIndex((time) => time >= after);
  if (k < 0) return notResolvable("s", `${formatValue(level, "V")} is not crossed after this mark.`);
  return measured(times[k]!, [low[k]!, high[k]!], "s");
}

/** The same samples, told `by` s later. */
function shifted(series: Series, by: Seconds): Series {
  const { time, samples } = series;
  if (time.kind === "even") return { time: { ...time, start: time.start + by }, samples };
  return { time: { ...time, stamps: time.stamps.map((stamp) => stamp + by) }, samples };
}

/** The samples within `reach` of an instant; none where it lies outside the series. */
export function around(series: Series, at: Seconds, reach: Seconds): Series {
  const part = within(series, at - reach, at + reach);
  return part.samples.length === 0 || timeAt(part.time, 0) > at ? slice(series, 0, 0) : part;
}
