// Where fuel was cut, and where the loop was open and rich: how much oxygen a lean or rich front stands for.

import { lineInCells, percentileOf, runsWhere } from "./cells.ts";
import { cutRuns, type Told } from "./cuts.ts";

/** 0 the loop, 1 a cut, 2 an enriched open loop, 3 another long rich spell, 4 fuel's return; and the cuts, half-open in cells. */
export interface FuelRules {
  readonly rule: Uint8Array;
  readonly cuts: readonly (readonly [from: number, to: number])[];
}

/** A half-cycle longer than this many usual ones, and than `longRich` s, is no work of the loop. Own choice. */
const timesUsual = 2.5;
const longRich = 1.2;

/** A rich spell that begins so soon after a cut, s, is fuel's return, not the loop's. Own choice. */
const soonAfter = 1;

export function fuelRules(told: Told): FuelRules {
  const { front, grid } = told;
  const rule = new Uint8Array(grid.count);
  const middle = front.isWide ? 0.002 : 0.3;
  const lean = runsWhere(grid.count, (i) => front.lean[i]! > middle);
  const rich = runsWhere(grid.count, (i) => front.lean[i]! < -middle);
  const usual = usualLength([...lean, ...rich], grid.step);
  const cuts = cutRuns(told, lean, usual);
  for (const [from, to] of cuts) rule.fill(1, from, to);
  const least = Math.max(longRich / grid.step, timesUsual * usual);
  for (const [from, to] of rich) {
    const isReturn = cuts.some(([, end]) => from >= end && (from - end) * grid.step < soonAfter);
    if (isReturn && !(isPull(told, cuts, from, to) && to - from > least)) rule.fill(4, from, to);
    else if (to - from > least) rule.fill(isPull(told, cuts, from, to) ? 2 : 3, from, to);
  }
  return { rule, cuts };
}

/** Enriched by the driver's foot: the throttle or the load says so, or fuel was cut right after. */
function isPull({ channels, grid, limits }: Told, cuts: FuelRules["cuts"], from: number, to: number): boolean {
  if (cuts.some(([cut]) => cut >= to && (cut - to) * grid.step < 1)) return true;
  const around = { from: grid.from + from * grid.step, step: grid.step, count: to - from };
  const [throttle, load] = [channels.throttle, channels.load].map((one) =>
    percentileOf(lineInCells(one?.series, around), 0.5),
  );
  return throttle! > limits.loadThrottle || load! > limits.loadShare;
}

/** Middle length of the longer half of the half-cycles: flickers count for nothing. Cells. */
function usualLength(runs: readonly (readonly [number, number])[], step: number): number {
  const lengths = runs.map(([from, to]) => to - from).filter((length) => length > 0.08 / step);
  lengths.sort((a, b) => a - b);
  return lengths[Math.floor(0.6 * lengths.length)] ?? 0;
}
