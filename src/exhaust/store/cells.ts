// Everything that bears on the oxygen store, on one even grid: samples matter only near edges, and those are kept.

import type { Seconds } from "../../signal/numbers/units.ts";
import { gapLimit, type Series, timeAt } from "../../signal/series/series.ts";
import type { CellGrid } from "../terms/cell-grid.ts";

/** Fine enough for a gas front that passes in 0.05 s; and of a log whose rows are further apart than that. */
export const fineCell: Seconds = 0.025;
export const coarseCell: Seconds = 0.04;
/** More than this many cells, 20 minutes, tell no more of a store. */
export const mostCells = 60_000;

/**
 * What a channel says in each cell: the mean of its samples there, and between samples a straight line.
 *
 * @returns `grid.count` long, in the series' unit; NaN before the first sample, after the last, and across a gap.
 */
export function lineInCells(series: Series | undefined, grid: CellGrid): Float64Array {
  const { cells, times } = meansInCells(series, grid);
  const limit = series ? Math.min(Math.max(gapLimit(series.time), 4 * grid.step), longestLine) : 0;
  let last = -1;
  for (let i = 0; i < cells.length; i++) {
    if (Number.isNaN(cells[i]!)) continue;
    const span = last < 0 ? Number.POSITIVE_INFINITY : times[i]! - times[last]!;
    if (i - last > 1 && span <= limit) fillLine(cells, last, i);
    last = i;
  }
  return cells;
}

/** No line is drawn across more than this, s: what happened between is not known. */
const longestLine: Seconds = 3;

function fillLine(cells: Float64Array, from: number, to: number): void {
  const slope = (cells[to]! - cells[from]!) / (to - from);
  for (let i = from + 1; i < to; i++) cells[i] = cells[from]! + slope * (i - from);
}

/** Means of the samples in each cell, NaN where it holds none, and when they were taken on the whole. */
export function meansInCells(
  series: Series | undefined,
  grid: CellGrid,
): { readonly cells: Float64Array; readonly times: Float64Array } {
  const cells = new Float64Array(grid.count).fill(NaN);
  const times = new Float64Array(grid.count);
  if (!series) return { cells, times };
  const counts = new Uint16Array(grid.count);
  const { samples, time } = series;
  for (let i = 0; i < samples.length; i++) {
    const at = timeAt(time, i);
    const k = Math.floor((at - grid.from) / grid.step);
    const value = samples[i]!;
    if (k < 0 || k >= grid.count || value - value !== 0) continue;
    const n = ++counts[k]!;
    cells[k] = n === 1 ? value : cells[k]! + (value - cells[k]!) / n;
    times[k] = n === 1 ? at : times[k]! + (at - times[k]!) / n;
  }
  return { cells, times };
}

/** Runs of cells, half-open, for which `isSo` holds. */
export function runsWhere(count: number, isSo: (i: number) => boolean): (readonly [from: number, to: number])[] {
  const runs: (readonly [number, number])[] = [];
  let from = -1;
  for (let i = 0; i <= count; i++) {
    const now = i < count && isSo(i);
    if (now && from < 0) from = i;
    if (!now && from >= 0) {
      runs.push([from, i]);
      from = -1;
    }
  }
  return runs;
}

/** Percentile of the finite values of every so manieth cell; NaN of none. */
export function percentileOf(values: Float64Array, share: number, counts: (i: number) => boolean = () => true): number {
  const stride = Math.max(1, Math.floor(values.length / 20_000));
  const kept: number[] = [];
  for (let i = 0; i < values.length; i += 1) {
    if (stride > 1 && i % stride !== 0) continue;
    if (values[i]! - values[i]! === 0 && counts(i)) kept.push(values[i]!);
  }
  if (kept.length === 0) return NaN;
  kept.sort((a, b) => a - b);
  return kept[Math.min(kept.length - 1, Math.floor(share * kept.length))]!;
}
