// A filter as a way of looking: what a channel's samples are when spikes are taken out or what moves fast is smoothed.

import type { Hertz, Seconds } from "../numbers/units.ts";
import { onGrid } from "../series/resample.ts";
import { runsOf } from "../series/runs.ts";
import { type Series, slice, timeAt } from "../series/series.ts";
import { usualStep } from "../series/usual-step.ts";
import { zeroPhaseLowPass, zeroPhaseRise } from "./butterworth.ts";
import { medianFilter } from "./median-filter.ts";

/** `spikes`: the longest that is taken out. `cutoff`: see LowPass. */
export type Filter =
  | { readonly kind: "median"; readonly spikes: Seconds }
  | { readonly kind: "low-pass"; readonly cutoff: Hertz };

/** Samples of a run below which a filter has nothing to stand on. */
const fewest = 10;
/** Widest window of a median, samples: work grows with it. */
const widest = 401;

/**
 * Samples as seen through a filter, at the instants of those recorded.
 *
 * @param series  any length, one unit; NaN and gaps end a run, and nothing is filtered across.
 * @returns new array, same length. NaN where a sample is missing, in runs too short to filter, and for a median within half
 *          its window of a run's ends: never a guessed value.
 * @throws RangeError where `refusalOf` has a reason (a caller's bug).
 *
 * Uneven stamps are low-passed on an even grid of their usual step, and read there at their own instants.
 */
export function filtered(series: Series, filter: Filter): Float64Array<ArrayBuffer> {
  const step = usualStep(series.time);
  if (refusalOf(filter, step)) throw new RangeError(`cannot filter steps of ${step} s by ${JSON.stringify(filter)}`);
  const found = new Float64Array(series.samples.length).fill(NaN);
  const runs = runsOf(series);
  for (let k = 0; k < runs.length; k += 2) {
    const [from, to] = [runs[k]!, runs[k + 1]!];
    if (to - from < fewest) continue;
    const run = slice(series, from, to);
    found.set(
      filter.kind === "median"
        ? medianFilter(run.samples, medianWidth(filter.spikes, step))
        : smoothed(run, step, filter.cutoff),
      from,
    );
  }
  return found;
}

/** Why a channel of this step cannot be seen through a filter; null where it can. */
export function refusalOf(filter: Filter, step: Seconds): "too-fast" | "too-long" | "no-number" | null {
  const value = filter.kind === "median" ? filter.spikes : filter.cutoff;
  if (!(value > 0 && Number.isFinite(value))) return "no-number";
  if (filter.kind === "median") return medianWidth(value, step) > widest ? "too-long" : null;
  return value <= highestCutoff(step) ? null : "too-fast";
}

/** Below half the rate, with room for the filter to be one. */
export const highestCutoff = (step: Seconds): Hertz => 0.4 / step;

export const longestSpikes = (step: Seconds): Seconds => ((widest - 1) / 2 - 1) * step;

/** Odd number of samples that takes out every spike no longer than `spikes`, however it falls between them. */
const medianWidth = (spikes: Seconds, step: Seconds): number => 2 * halfWindow(spikes, step) + 1;
const halfWindow = (spikes: Seconds, step: Seconds): number => Math.floor(spikes / step + 1e-9) + 1;

/**
 * How far an edge may stand beside where it was recorded, s, either way: for a median half its window, which is what its
 * longest spike beside the edge can do; its window is a number of samples, so that of uneven stamps the slowest part counts.
 * For a low-pass the 10-90 % time of its answer to a step: a level that lies within an edge is passed within half of that
 * before or after its middle, and as much again is given for edges that follow each other within it.
 *
 * @param series  what is filtered; of its samples only which are missing counts.
 */
export function shiftOf(filter: Filter, series: Series): Seconds {
  const step = usualStep(series.time);
  if (filter.kind === "low-pass") return zeroPhaseRise(step, { cutoff: filter.cutoff });
  const half = halfWindow(filter.spikes, step);
  return series.time.kind === "even" ? half * step : Math.max(half * step, longestOver(series, half));
}

/** Longest time from a sample to the one `count` further on in its run, s; 0 where no run is that long. */
function longestOver(series: Series, count: number): Seconds {
  const runs = runsOf(series);
  let longest = 0;
  for (let k = 0; k < runs.length; k += 2) {
    for (let i = runs[k]! + count; i < runs[k + 1]!; i++) {
      longest = Math.max(longest, timeAt(series.time, i) - timeAt(series.time, i - count));
    }
  }
  return longest;
}

/** Samples further away than this, s, have no say in a filtered one (below 1e-6 of them for a low-pass of order 2). */
export function reachOf(filter: Filter, step: Seconds): Seconds {
  return filter.kind === "median" ? halfWindow(filter.spikes, step) * step : 3 / filter.cutoff + fewest * step;
}

function smoothed(run: Series, step: Seconds, cutoff: Hertz): Float64Array {
  const { time, samples } = run;
  if (time.kind === "even") return zeroPhaseLowPass(samples, time.step, { cutoff });
  const last = samples.length - 1;
  const start = timeAt(time, 0);
  // One place past the last sample is wanted to read between; it repeats that sample.
  const count = Math.floor((timeAt(time, last) - start) / step) + 2;
  const grid = onGrid({ time: { ...time, gapAbove: Infinity }, samples }, { start, step, count });
  for (let k = count - 1; k >= 0 && Number.isNaN(grid[k]!); k--) grid[k] = samples[last]!;
  const smooth = zeroPhaseLowPass(grid, step, { cutoff });
  return Float64Array.from(time.stamps, (stamp) => {
    const place = (stamp - start) / step;
    const before = Math.min(count - 2, Math.floor(place));
    return smooth[before]! + (place - before) * (smooth[before + 1]! - smooth[before]!);
  });
}
