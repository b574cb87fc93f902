// A series put on an even grid by straight lines between its samples, for what needs one: correlation, spectra.

import type { Seconds } from "../numbers/units.ts";
import { stretchesOf } from "./reel.ts";
import { runsOf } from "./runs.ts";
import { type AnySeries, type Samples, type TimeBase, timeAt } from "./series.ts";

export interface Grid {
  readonly start: Seconds;
  readonly step: Seconds;
  readonly count: number;
}

/**
 * Values on a grid, each on the straight line between its neighbours.
 *
 * @param series  any length, one unit; NaN and gaps end a run.
 * @param grid  start and step in s, step > 0. @param values  written over and returned, where given; `grid.count` long.
 * @returns length grid.count; NaN before the first and after the last sample, and in gaps. The line between two samples
 *          lags nothing, but flattens what moves within a step.
 */
export function onGrid(
  series: AnySeries,
  { start, step, count }: Grid,
  values = new Float64Array(count),
): Float64Array<ArrayBuffer> {
  values.fill(NaN);
  // A sample on the grid counts there, whichever way its time is rounded.
  const blur = 1e-9 * step;
  const cell = (t: Seconds) => Math.max(0, Math.ceil((t - blur - start) / step));
  let k = 0;
  let t1 = NaN;
  let sample = NaN;
  for (const { series: part, from, to, isStart } of stretchesOf(series, runsOf(series))) {
    const { samples, time } = part;
    const isFiner = time.kind === "even" && time.step < step;
    const aside = isStart && time.kind === "even" && time.step === step ? stepsBetween(start, time, from) : NaN;
    if (isStart && to - from > 1 && Number.isInteger(aside)) {
      copyRun(samples.subarray(from, to), aside, values);
      t1 = timeAt(time, to - 1);
      sample = samples[to - 1]!;
      k = Math.max(0, Math.min(aside + to - from, count));
      continue;
    }
    if (isStart) {
      t1 = timeAt(time, from);
      sample = samples[from]!;
      k = cell(t1);
    }
    for (let i = isStart ? from + 1 : from; i < to; i++) {
      if (isFiner && i < to - 1) {
        // Even samples between two places of the grid say nothing: on to the last before the next place.
        const next = Math.min(to - 1, Math.floor((start + k * step - timeAt(time, 0)) / time.step) - 1);
        if (next > i) {
          t1 = timeAt(time, next - 1);
          sample = samples[next - 1]!;
          i = next;
        }
      }
      const t0 = t1;
      const before = sample;
      t1 = timeAt(time, i);
      sample = samples[i]!;
      for (; k < count && start + k * step <= t1 + blur; k++) {
        values[k] = before + ((sample - before) * (start + k * step - t0)) / (t1 - t0);
      }
    }
  }
  return values;
}

/** Steps from the start of the grid to a sample of the same step; a whole number where it lies on the grid. */
function stepsBetween(start: Seconds, time: { readonly step: Seconds } & TimeBase, from: number): number {
  const steps = (timeAt(time, from) - start) / time.step;
  const whole = Math.round(steps);
  return Math.abs(steps - whole) < onPlace ? whole : NaN;
}

/** A sample nearer than this to a place of the grid, in steps, lies there: times are sums that were rounded. */
const onPlace = 1e-7;

/** Samples that lie on the grid themselves, the first at place `at`, which may lie before its start. */
function copyRun(run: Samples, at: number, values: Float64Array): void {
  const from = Math.max(0, -at);
  const to = Math.min(run.length, values.length - at);
  if (to > from) values.set(run.subarray(from, to), at + from);
}
