// A series put on an even grid by straight lines between its samples, for what needs one: correlation, spectra.

import { runsOf } from "./runs.ts";
import { type Series, timeAt } from "./series.ts";
import type { Seconds } from "./units.ts";

export interface Grid {
  readonly start: Seconds;
  readonly step: Seconds;
  readonly count: number;
}

/**
 * Values on a grid, each on the straight line between its neighbours.
 *
 * @param series  any length, one unit; NaN and gaps end a run.
 * @param grid  start and step in s, step > 0.
 * @returns length grid.count; NaN before the first and after the last sample, and in gaps. The line between two samples
 *          lags nothing, but flattens what moves within a step.
 */
export function onGrid(series: Series, { start, step, count }: Grid): Float64Array<ArrayBuffer> {
  const { samples, time } = series;
  const values = new Float64Array(count).fill(NaN);
  const runs = runsOf(series);
  for (let r = 0; r < runs.length; r += 2) {
    const end = runs[r + 1]!;
    let i = runs[r]!;
    let k = Math.max(0, Math.ceil((timeAt(time, i) - start) / step - 1e-9));
    for (; k < count; k++) {
      const t = start + k * step;
      while (i + 1 < end && timeAt(time, i + 1) < t) i++;
      if (i + 1 >= end) break;
      const [t0, t1] = [timeAt(time, i), timeAt(time, i + 1)];
      values[k] = samples[i]! + ((samples[i + 1]! - samples[i]!) * (t - t0)) / (t1 - t0);
    }
  }
  return values;
}
