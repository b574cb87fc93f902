// Crossings of the switch level, counted alike for front and rear, and whether the sampling lets them be counted at all.

import type { Channel } from "../../capture/model/capture.ts";
import { periodsOf } from "../../signal/cycles/cycles.ts";
import { type Crossings, findCrossings } from "../../signal/edges/crossings.ts";
import type { Edge } from "../../signal/edges/edge.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { onceWith } from "../../signal/series/once.ts";
import { within } from "../../signal/series/reel.ts";
import { type AnySeries, countOf, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { noiseOf } from "../../signal/statistics/noise.ts";
import type { Span } from "./analysis.ts";
import type { Limits } from "./limits.ts";

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

/** h = max(0.05 V, 4 x noise), the same for all pieces: a noisy rear must not count more than a quiet front. */
export function hysteresisFor(pieces: readonly (AnyPiece | null)[], limits: Limits): number {
  return Math.max(limits.leastHysteresis, ...pieces.map((piece) => 4 * (piece?.noise ?? 0)));
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
  const remedy = "Record 200 samples/s or more.";
  if (frequency * limits.samplesPerCycle > rate) {
    return `Only ${(rate / frequency).toFixed(1)} samples in a cycle, so cycles may be missed. ${remedy}`;
  }
  if (rate - frequency < limits.fastestFront) {
    return `At ${rate.toPrecision(2)} samples/s a sensor that switches faster would look the same. ${remedy}`;
  }
  return null;
}

/** Time from the first to the last sample. */
export function lengthOf(series: AnySeries): Seconds {
  const count = countOf(series.time);
  return count < 2 ? 0 : timeAt(series.time, count - 1) - timeAt(series.time, 0);
}
