// The mean of what a channel did over one span: not of what it would do in the long run, as `meanOf` has it.

import { EdgeCount } from "../edges/edge-count.ts";
import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";
import { stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import { type AnySeries, timeAt } from "../series/series.ts";
import { extremesOf } from "../statistics/extremes.ts";
import { noiseOf } from "../statistics/noise.ts";
import { quantisationOf } from "../statistics/quantisation.ts";
import type { LevelRule } from "./levels.ts";

export interface SpanMeanRule extends LevelRule {
  readonly from: Seconds;
  readonly to: Seconds;
}

/**
 * Mean over time of the course between the samples of a span, by trapezoids; gaps are left out.
 *
 * @param series  the samples of the span, any length, one unit; read only. NaN and gaps end a run.
 * @returns count = finite samples; `not-resolvable` without two that hang together.
 *
 * Bounds, two-sided 95 %: where between two samples the course changed is not known, so each step of size d over a time h may be
 * off by d h / sqrt 12 (uniform, each by itself, unless a wave keeps step with the samples: see `EdgeCount`); noise / sqrt n;
 * half a quantisation step. What was before the first sample, in gaps and after the last may have been anything of the
 * range; so may what a stamp's doubt lets in at either end.
 */
export function spanMeanOf(series: AnySeries, { from, to, unit = "V", noise }: SpanMeanRule): Reading {
  const { area, length, squares, count } = sumsOf(series);
  if (!(length > 0)) return notResolvable(unit, "fewer than two samples in this span", { count });
  const [lowest, highest] = extremesOf(series.samples);
  const doubt = series.time.doubt ? series.time.doubt.early + series.time.doubt.late : 0;
  const open = Math.max(0, to - from - length) + doubt;
  const value = area / length;
  const alike = alikeAbout(series, [value, (lowest + highest) / 2]);
  const between = (alike * Math.sqrt(squares / 12)) / length;
  const scatter = (noise ?? noiseOf(series.samples)) / Math.sqrt(count);
  const ends = (share: number) => (open / (length + open)) * Math.abs(share);
  const half = coverage * Math.hypot(between, scatter) + quantisationOf(series.samples) / 2;
  return measured(value, [value - half - ends(value - lowest), value + half + ends(highest - value)], unit, { count });
}

function sumsOf(series: AnySeries) {
  let [area, length, squares, count] = [0, 0, 0, 0];
  let [time, sample] = [NaN, NaN];
  for (const { series: part, from, to, isStart } of stretchesOf(series, runsOf(series))) {
    for (let i = from; i < to; i++) {
      const [now, value] = [timeAt(part.time, i), part.samples[i]!];
      if (!(isStart && i === from)) {
        const step = now - time;
        area += (step * (value + sample)) / 2;
        length += step;
        squares += ((value - sample) * step) ** 2;
      }
      count++;
      [time, sample] = [now, value];
    }
  }
  return { area, length, squares, count };
}

/** How much alike the edges through the level of most hide between the samples: see `EdgeCount`. */
function alikeAbout(series: AnySeries, levels: readonly number[]): number {
  const counts = levels.map((level) => ({ level, edges: new EdgeCount(), wasAbove: false }));
  let place = 0;
  for (const { series: part, from, to, isStart } of stretchesOf(series, runsOf(series))) {
    for (let i = from; i < to; i++, place++) {
      for (const one of counts) {
        const isAbove = part.samples[i]! > one.level;
        if (isStart && i === from) one.edges.breakOff();
        else if (isAbove !== one.wasAbove) one.edges.change(place, isAbove);
        one.wasAbove = isAbove;
      }
    }
  }
  return Math.max(...counts.map(({ edges }) => edges.alike));
}
