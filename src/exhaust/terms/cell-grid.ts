// Slow channels put on one common, even grid, so that they can be looked at together.

import type { Seconds } from "../../signal/numbers/units.ts";
import { type Series, timeAt } from "../../signal/series/series.ts";

/** Cells [from + i * step, from + (i + 1) * step), i = 0 … count - 1. */
export interface CellGrid {
  readonly from: Seconds;
  readonly step: Seconds;
  readonly count: number;
}

/** A value older than this many of its channel's usual steps says nothing of now. */
const staleAfter = 4;
/** … but a slow channel, such as a temperature asked for now and then, holds at least so long. */
const leastHold: Seconds = 2;

/**
 * Mean of the samples in each cell; where a cell holds none, the last value before it while that is fresh.
 *
 * @param hold  how long a value is fresh, s, where four steps of the channel are shorter.
 * @returns new array, `grid.count` long, in the series' unit. NaN where nothing is known.
 */
export function heldInCells(
  series: Series | undefined,
  grid: CellGrid,
  hold: Seconds = leastHold,
): Float64Array<ArrayBuffer> {
  const cells = new Float64Array(grid.count).fill(NaN);
  if (!series) return cells;
  const sums = new Float64Array(grid.count);
  const counts = new Uint32Array(grid.count);
  for (let i = 0; i < series.samples.length; i++) {
    const cell = Math.floor((timeAt(series.time, i) - grid.from) / grid.step);
    const value = series.samples[i]!;
    if (cell < 0 || cell >= grid.count || !Number.isFinite(value)) continue;
    sums[cell]! += value;
    counts[cell]!++;
  }
  return held(cells, { sums, counts }, Math.max(hold, staleAfter * meanStep(series)) / grid.step);
}

function held(
  cells: Float64Array<ArrayBuffer>,
  { sums, counts }: { readonly sums: Float64Array; readonly counts: Uint32Array },
  longest: number,
): Float64Array<ArrayBuffer> {
  let last = NaN;
  let age = 0;
  for (let i = 0; i < cells.length; i++) {
    if (counts[i]! > 0) {
      last = sums[i]! / counts[i]!;
      age = 0;
    } else age++;
    cells[i] = age <= longest ? last : NaN;
  }
  return cells;
}

/** Mean step, s: good enough to say how long a value holds. */
function meanStep({ time, samples }: Series): Seconds {
  if (time.kind === "even") return time.step;
  return samples.length < 2 ? 0 : (time.stamps[samples.length - 1]! - time.stamps[0]!) / (samples.length - 1);
}

/** Lowest and highest of `values` within `reach` cells of `at`; NaN is skipped. */
export function rangeAround(values: Float64Array, at: number, reach: number): { low: number; high: number } {
  let low = Infinity;
  let high = -Infinity;
  for (let i = Math.max(0, at - reach); i <= Math.min(values.length - 1, at + reach); i++) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}
