// One passage of a signal through a level: when, and between which bounds.

import { fitCrossing, type LocalFit } from "./local-fit.ts";
import { type Series, timeAt } from "./series.ts";
import type { Seconds } from "./units.ts";

/** An instant with bounds that hold the truth in at least 95 % of cases. */
export interface Edge {
  readonly time: Seconds;
  readonly low: Seconds;
  readonly high: Seconds;
}

/** An edge whose bounds are told apart: noise, which averages out over events, and what does not. */
export interface FoundEdge extends Edge {
  /** Standard deviation of the part that noise makes, s. */
  readonly deviation: Seconds;
}

/** What limits the reading of a value: standard deviation of noise and quantisation together, unit of the samples. */
export interface Passage {
  readonly level: number;
  readonly sigma: number;
  /** Samples [first, last]: the signal is surely on the old side at `first` and on the new side at `last`. */
  readonly first: number;
  readonly last: number;
  /** Samples that may be used around it, half-open. */
  readonly from: number;
  readonly to: number;
}

/** Two-sided 95 % of a normal distribution. */
export const coverage = 1.96;

/** Successive windows of the local fit grow by this factor. */
const growth = 1.35;

/** A window is accepted while its residuals stay below this many standard deviations of chi-square. */
const misfit = 2.5;

/**
 * Where the signal meets the level between `first` and `last`.
 *
 * Two regimes. Where the signal moves more per sample than the noise, the time is interpolated and the bounds are those
 * of `bracket`. Where noise is larger, the first sample beyond the level comes early; there a parabola is fitted over the
 * widest window that still agrees with the noise and with every narrower window, and the bounds are its 95 % interval.
 */
export function locateEdge(series: Series, passage: Passage): FoundEdge {
  const [before, after] = lastStay(series, passage);
  const between = bracket(series, passage, [before, after]);
  const fit = passage.sigma > 0 ? widestFit(series, passage, [before, after]) : null;
  if (fit === null || fit.deviation * coverage * 2 > between.high - between.low) return between;
  const half = coverage * fit.deviation;
  return { time: fit.time, low: fit.time - half, high: fit.time + half, deviation: fit.deviation };
}

/** First index after which the signal has been beyond the level, and the last from which it still went there. */
function lastStay({ samples }: Series, { level, first, last }: Passage): [before: number, after: number] {
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
function bracket(series: Series, { level, sigma, from, to }: Passage, stay: readonly [number, number]): FoundEdge {
  const { samples, time } = series;
  const [a, b] = stay;
  const [ta, tb] = [timeAt(time, a), timeAt(time, b)];
  const slope = (samples[b]! - samples[a]!) / (tb - ta);
  const chord = ta + (level - samples[a]!) / slope;
  const isPlain = b === a + 1;
  const clamp = (t: Seconds) => (t >= ta && t <= tb ? t : slope === 0 ? tb : Math.min(Math.max(t, ta), tb));
  const line = (i: number, k: number, open: Seconds) => {
    if (i < from || k >= to) return open;
    const [ti, tk] = [timeAt(time, i), timeAt(time, k)];
    const rise = (samples[k]! - samples[i]!) / (tk - ti);
    return rise * slope > 0 ? clamp(ti + (level - samples[i]!) / rise) : open;
  };
  const value = Number.isFinite(chord) ? clamp(chord) : (ta + tb) / 2;
  const left = isPlain ? line(a - 1, a, tb) : tb;
  const right = isPlain ? line(b, b + 1, ta) : ta;
  const deviation = Math.min(Number.isFinite(1 / slope) ? sigma / Math.abs(slope) : 0, tb - ta);
  const low = Math.min(value, isPlain ? Math.min(left, right) : ta);
  const high = Math.max(value, isPlain ? Math.max(left, right) : tb);
  const isSure = Math.min(Math.abs(samples[a]! - level), Math.abs(samples[b]! - level)) > 2 * coverage * sigma;
  const half = coverage * deviation;
  return {
    time: value,
    low: isSure ? Math.max(ta, low - half) : low - half,
    high: isSure ? Math.min(tb, high + half) : high + half,
    deviation,
  };
}

/**
 * The widest window whose parabola agrees with the noise (chi-square of the residuals) and whose time agrees with that
 * of all narrower windows (intersection of confidence intervals: Goldenshluger & Nemirovski, Math. Methods Statist. 6
 * (1997) 135; Katkovnik, IEEE Trans. Signal Process. 47 (1999) 2567).
 */
function widestFit(series: Series, passage: Passage, [before, after]: readonly [number, number]): LocalFit | null {
  const { from, to, level, sigma } = passage;
  const near = (timeAt(series.time, before) + timeAt(series.time, after)) / 2;
  const most = Math.min(before - from, to - 1 - after);
  let chosen: LocalFit | null = null;
  let [low, high] = [-Infinity, Infinity];
  for (let reach = Math.max(2, after - before); reach <= most; reach = Math.ceil(reach * growth)) {
    const fit = fitCrossing(series, [before - reach, after + reach + 1], near, { level, sigma });
    if (fit === null) continue;
    if (fit.residual > sigma ** 2 * (fit.freedom + misfit * Math.sqrt(2 * fit.freedom))) break;
    low = Math.max(low, fit.time - coverage * fit.deviation);
    high = Math.min(high, fit.time + coverage * fit.deviation);
    if (low > high) break;
    chosen = fit;
  }
  return chosen;
}
