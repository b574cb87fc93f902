// Where fuel was cut, and pure air passed: the longer and deeper of the runs that the front shows as lean.

import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import type { CellGrid } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { lineInCells, percentileOf } from "./cells.ts";
import type { FrontSays } from "./front.ts";

export interface Told {
  readonly channels: BankChannels;
  readonly grid: CellGrid;
  readonly front: FrontSays;
  /** 1/min; NaN where unknown. */
  readonly speed: Float64Array;
  /** Air flow, g/s; NaN where unknown. */
  readonly flow: Float64Array;
  readonly limits: Limits;
}

/** Half-open, in cells. */
export type Run = readonly [from: number, to: number];

/** A cut lasts longer than this, s. */
const shortestCut = 0.3;

/**
 * @param lean   runs in which the front shows lean, in order.
 * @param usual  length of the loop's half-cycles, cells.
 * @returns those of them in which fuel was cut, each as long as pure air passed.
 */
export function cutRuns(told: Told, lean: readonly Run[], usual: number): readonly Run[] {
  const { channels, grid, front, speed, limits } = told;
  const status = channels.fuelStatus ? lineInCells(channels.fuelStatus.series, grid) : null;
  const throttle = movingThrottle(channels, grid);
  const closed = throttle ? percentileOf(throttle, 0.002) + limits.closedThrottle : NaN;
  const deepest = front.isWide ? 0.08 : front.low + 0.12 * Math.max(0.4, front.high - front.low);
  const isCut = ([from, to]: Run): boolean => {
    if ((to - from) * grid.step < shortestCut || speed[from]! < limits.engineRuns) return false;
    const middle = (from + to) >> 1;
    if (status && someIn(status, from, to, (value) => value > 3.5 && value < 4.5)) return true;
    const isDeep = front.isWide
      ? someIn(front.lean, from, to, (e) => e > deepest)
      : someIn(front.raw, from, to, (volts) => volts < deepest);
    if (!isDeep) return false;
    if (speed[from]! < 900) return false;
    if (slowsDownLean(told, [from, to])) return true;
    if (throttle)
      return (
        throttle[middle]! <= closed &&
        !(speed[from]! < 1100) &&
        (to - from > usual || !(speed[to - 1]! > speed[from]! - 40))
      );
    return (to - from) * grid.step >= 1 && to - from > 2 * usual;
  };
  const closedFlow = percentileOf(told.flow, closedShare, (i) => speed[i]! > limits.engineRuns);
  const cuts = lean
    .filter(isCut)
    .map((run) => [run[0], untilAirReturns(told, run, closedFlow)] as const)
    .filter(([from, to]) => (to - from) * grid.step >= shortestCut);
  return asLeanAsSure(told, cuts, lean);
}

/** By so much of its speed must an engine slow down while the front is lean. Own choice. */
const slowsDown = 0.85;

/** A lean spell so long in which the engine slows down has no fuel, though its throttle may open for its own ends. */
const slowsDownLean = ({ speed, grid }: Told, [from, to]: Run): boolean =>
  (to - from) * grid.step >= sureCut && speed[to - 1]! < slowsDown * speed[from]!;

/** A cut of so long, s, is one whatever else is told; one shorter than `unsureCut` may be a lean half-cycle of the loop. Own choice. */
const sureCut = 2;
const unsureCut = 1;
/** By so much, V, must the front read lower in pure air than in the loop's lean half-cycles for the difference to tell. Own choice. */
const leastDeeper = 0.02;

/** Without short ones that are no leaner than the loop, where the front tells pure air from a lean half-cycle. */
function asLeanAsSure({ front, grid }: Told, cuts: readonly Run[], lean: readonly Run[]): readonly Run[] {
  if (front.isWide) return cuts;
  const leanest = ([from, to]: Run) =>
    front.raw.subarray(from, to).reduce((least, volts) => Math.min(least, volts), Infinity);
  const seconds = ([from, to]: Run) => (to - from) * grid.step;
  const ofCuts = cuts.filter((run) => seconds(run) >= sureCut).map(leanest);
  const ofLoop = lean
    .filter((run) => seconds(run) < unsureCut && !cuts.some(([from, to]) => from < run[1] && run[0] < to))
    .map(leanest);
  const [air, loop] = [medianOfNumbers(ofCuts), medianOfNumbers(ofLoop)];
  if (!(loop - air > leastDeeper)) return cuts;
  return cuts.filter((run) => seconds(run) >= unsureCut || leanest(run) < (loop + air) / 2);
}

/** So many times what flows behind a closed throttle: it is open again. Own choice. */
const airReturns = 2;
/** So long before the front turns lean, s, the cut may have begun. Own choice. */
const beforeLean = 1;
/** Lean gas passes no longer than this, s, once the engine pulls again: after that it is an engine that opens its throttle while fuel is cut. Own choice. */
const longestTail = 2;
/** Share of the running engine's time in which no more air flows: behind a closed throttle. Own choice. */
const closedShare = 0.1;

/**
 * The end of a cut: where the throttle opens again, lean gas may pass for long, but no pure air. Between two gears little air flows while
 * fuel is cut, and what the front shows of it comes as the engine pulls again: as a cut at that flow it would fill any store. Behind a
 * closed throttle the air for each turn grows as the engine slows down; without a throttle that for each second follows the
 * speed: only where both grow is it open.
 *
 * @param closedFlow  g/s that flow behind a closed throttle, roughly.
 */
function untilAirReturns({ flow, speed, grid }: Told, [from, to]: Run, closedFlow: number): number {
  let [least, perTurn] = [Infinity, Infinity];
  for (let i = Math.max(0, from - Math.round(beforeLean / grid.step)); i < to; i++) {
    least = Math.min(least, flow[i]!);
    perTurn = Math.min(perTurn, flow[i]! / speed[i]!);
  }
  least = Math.max(closedFlow, least);
  const isOpen = (i: number) => flow[i]! > airReturns * least && flow[i]! / speed[i]! > airReturns * perTurn;
  let end = to;
  while (end > from && isOpen(end - 1)) end--;
  return (to - end) * grid.step < longestTail ? end : to;
}

/** Null where it hardly moves: an engine without throttling says nothing by it. */
function movingThrottle({ throttle }: BankChannels, grid: CellGrid): Float64Array | null {
  if (!throttle) return null;
  const line = lineInCells(throttle.series, grid);
  return percentileOf(line, 0.99) - percentileOf(line, 0.002) > 8 ? line : null;
}

function someIn(values: Float64Array, from: number, to: number, isSo: (value: number) => boolean): boolean {
  for (let i = from; i < to; i++) if (isSo(values[i]!)) return true;
  return false;
}
