// Crossings of the switch level, counted alike for front and rear, and whether the sampling lets them be counted at all.

import type { Channel } from "../../capture/model/capture.ts";
import { periodsOf } from "../../signal/cycles/cycles.ts";
import { type Crossings, findCrossings } from "../../signal/edges/crossings.ts";
import type { Edge } from "../../signal/edges/edge.ts";
import { askedRate } from "../../signal/numbers/asked-rate.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { onceWith } from "../../signal/series/once.ts";
import { within } from "../../signal/series/reel.ts";
import { type AnySeries, countOf, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { noiseOf, sureNoiseOf } from "../../signal/statistics/noise.ts";
import type { Span } from "./analysis.ts";
import type { Limits } from "./limits.ts";
import { number } from "./words.ts";

/** Part of a channel, and its noise. */
export interface Piece<S extends AnySeries = Series> {
  readonly channel: Pick<Channel, "id">;
  readonly series: S;
  readonly noise: number;
}

/** One that need not be in memory. */
export type AnyPiece = Piece<AnySeries>;

/** What is measured of a sensor. */
export interface Sensed<S extends AnySeries = AnySeries> extends Pick<Channel, "id"> {
  readonly series: S;
}

/** @returns null without a channel, or when the span holds none of its samples. */
export function pieceOf(channel: Sensed<Series> | null, span: Span): Piece | null;
export function pieceOf(channel: Sensed | null, span: Span): AnyPiece | null;
export function pieceOf(channel: Sensed | null, span: Span): AnyPiece | null {
  if (!channel) return null;
  const series = partOf(channel.series, span.from, span.to);
  return countOf(series.time) === 0 ? null : { channel, series, noise: noiseOf(series.samples) };
}

/** The same part each time, so that what is known of it is not looked for again. */
const partOf = onceWith((series: AnySeries, from, to) => within(series, from, to));

/**
 * h = max(0.05 V, 4 x noise), the same for all pieces: a noisy rear must not count more than a quiet front. A log that asks
 * too seldom shows movement that may be noise or not: only what is surely noise counts.
 */
export function hysteresisFor(pieces: readonly (AnyPiece | null)[], limits: Limits): number {
  return Math.max(limits.leastHysteresis, ...pieces.map((piece) => (piece ? bandOf(piece, limits) : 0)));
}

/** No wider than lets a sensor pass from 0.6 to 0.3 V where samples are so far apart that a switching one scatters like noise. */
function bandOf({ series }: AnyPiece, limits: Limits): number {
  const band = 4 * sureNoiseOf(series.samples);
  const isSlow = usualStep(series.time) * limits.fastestFront > 0.5;
  return isSlow ? Math.min(band, (limits.highLevel - limits.lowLevel) / 2) : band;
}

export function crossingsOf({ series, noise }: AnyPiece, level: number, hysteresis: number): Crossings {
  return findCrossings(series, { level, hysteresis, noise });
}

/** Entry k of crossings as an edge. */
export const edgeAt = ({ times, low, high, deviations }: Crossings, k: number): Edge => ({
  time: times[k]!,
  low: low[k]!,
  high: high[k]!,
  deviation: deviations[k]!,
});

/** Full cycles between rising crossings, gaps left out. */
export const cyclesIn = (crossings: Crossings): number => periodsOf(crossings).length;

/** Mean frequency by count, Hz; 0 without a full cycle. */
export function countedFrequency(crossings: Crossings): number {
  const periods = periodsOf(crossings);
  const sum = periods.reduce((total, period) => total + period, 0);
  return sum > 0 ? periods.length / sum : 0;
}

/** A stay on one side that lasts less than this many samples was met by one of them, or hardly. */
const brief = 1.5;
/** Where more than this share of all stays are so brief, how many were missed cannot be told. Own choice. */
const mostBrief = 0.5;

/**
 * How many stays on one side of the level may have fallen between two samples, at most; whole.
 *
 * A stay of L < 1 samples is met with probability L. Where stays of all lengths occur, about half as many are missed as are
 * met once, and the more where most of them are that brief. So one to three times those met once are allowed for, with the
 * share of such stays on their side, and the chance of the count (two deviations of a Poisson number).
 */
export function unseenIn(crossings: Crossings): number {
  const missed = staysIn(crossings).map(({ met, of }) =>
    met === 0 ? 0 : met * (1 + (2 * met) / of) + 2 * Math.sqrt(met),
  );
  return Math.ceil(missed[0]! + missed[1]!);
}

/** Stays below and above the level: how many there are, and how many were met by one sample or hardly. */
function staysIn({ times, runs, rising, step }: Crossings) {
  const sides = [
    { met: 0, of: 0 },
    { met: 0, of: 0 },
  ];
  for (let k = 1; k < times.length; k++) {
    if (runs[k] !== runs[k - 1]) continue;
    const side = sides[rising[k - 1]!]!;
    side.of++;
    if (times[k]! - times[k - 1]! < brief * step) side.met++;
  }
  return sides;
}

/**
 * Why the crossings of a sensor cannot be counted at this sampling; null when they can.
 *
 * Sampling at `rate` cannot tell a swing of f from one of rate - f: while a front sensor may switch that fast, a slow
 * count proves nothing. And with fewer than four samples in a cycle, half-cycles fall between samples.
 */
export function samplingTrouble(crossings: Crossings, series: AnySeries, limits: Limits): string | null {
  const step = usualStep(series.time);
  if (!(step > 0)) return "There are too few samples.";
  const rate = 1 / step;
  const frequency = countedFrequency(crossings);
  const remedy = `Record ${askedRate}.`;
  if (frequency * limits.samplesPerCycle > rate) {
    return `Only ${number(rate / frequency)} samples in a cycle, so cycles may be missed. ${remedy}`;
  }
  const stays = staysIn(crossings);
  if (stays[0]!.met + stays[1]!.met > mostBrief * (stays[0]!.of + stays[1]!.of)) {
    return `Most swings are met by a single sample, so others may be missed. ${remedy}`;
  }
  return foldingTrouble(crossings, series, limits);
}

/** Why a faster swing may look like this one: the samples are too far apart to exclude it; null where they are not. */
export function foldingTrouble(crossings: Crossings, series: AnySeries, limits: Limits): string | null {
  const step = usualStep(series.time);
  if (!(step > 0)) return "There are too few samples.";
  const rate = 1 / step;
  // One so slow that the span holds no full cycle of it may be there all the same, and a fast one look like it.
  const most = Math.max(countedFrequency(crossings), 1 / lengthOf(series));
  if (rate - most >= limits.fastestFront) return null;
  return `At ${number(rate)} samples/s a sensor that switches faster would look the same. Record ${askedRate}.`;
}

/** Time from the first to the last sample. */
export function lengthOf(series: AnySeries): Seconds {
  const count = countOf(series.time);
  return count < 2 ? 0 : timeAt(series.time, count - 1) - timeAt(series.time, 0);
}
