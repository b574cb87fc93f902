// A recording as the store sees it: what was offered in each cell, under which rule of the fuel, and what the rear showed.

import type { Seconds } from "../../signal/numbers/units.ts";
import { type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import { isMute } from "../sensors/rest.ts";
import type { Awakening, Span, Warmth } from "../terms/analysis.ts";
import type { CellGrid } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { type Air, airOf } from "./air.ts";
import { coarseCell, fineCell, lineInCells, meansInCells, mostCells, percentileOf, runsWhere } from "./cells.ts";
import { type FrontSays, frontSays } from "./front.ts";
import { fuelRules } from "./fuel-rules.ts";

/** What rules the fuel in a cell: the loop; nothing, for it is cut; an enriched open loop; rich for long, nothing says why; rich as fuel returns. */
export const fuel = { loop: 0, cut: 1, pull: 2, back: 3, return: 4 } as const;

export interface StoreRecord {
  readonly grid: CellGrid;
  readonly air: Air;
  /** g/s, never NaN: 0 where unknown. */
  readonly flow: Float64Array;
  readonly front: FrontSays;
  /** One of `fuel` for each cell. */
  readonly rule: Uint8Array;
  /** V where the rear was sampled, else NaN. */
  readonly rear: Float64Array;
  /** 0 where a cell says nothing: engine stopped, cold, asleep, just after a hole. */
  readonly weight: Float64Array;
  /** s between rows of the rear. */
  readonly row: Seconds;
  /** How much later or earlier the rear's rows may be than the front's, s. */
  readonly skew: Seconds;
  /** Size of 1 - 1/lambda in closed loop as the short trim shows it; null where it does not. */
  readonly trimSwing: number | null;
  readonly cuts: readonly (readonly [from: number, to: number])[];
}

export interface RecordInput {
  readonly channels: BankChannels;
  readonly span: Span;
  readonly warmth: Warmth;
  readonly awake: { readonly front: Awakening | null; readonly rear: Awakening | null };
  readonly limits: Limits;
  /** Engine size, l; null where it is not known. */
  readonly litres: number | null;
}

/** @returns null where there is nothing to look at: no front, no rear, never hot, never awake, no signal. */
export function recordOf(input: RecordInput): StoreRecord | null {
  const { channels, span, warmth, awake, limits } = input;
  const frontChannel = channels.front ?? channels.frontLambda ?? channels.frontPump;
  if (!frontChannel || !channels.rear || warmth.hotFrom === null) return null;
  if (awake.rear && awake.rear.kind !== "narrow-band" && awake.rear.kind !== "unknown") return null;
  if (awake.rear?.awakeFrom === null && awake.rear.bias.value !== null) return null;
  if (isMute(awake.front, limits) || isMute(awake.rear, limits)) return null;
  const from = Math.max(span.from, warmth.hotFrom, frontAwake(awake), awake.rear?.awakeFrom ?? 0);
  const row = Math.max(renewalOf(frontChannel.series), renewalOf(channels.rear.series, true));
  const step = row > 0.05 ? coarseCell : fineCell;
  const count = Math.min(mostCells, Math.floor((span.to - from) / step));
  if (!(count > 200)) return null;
  const grid: CellGrid = { from, step, count };
  const front = frontSays(channels, awake.front, grid);
  if (!front) return null;
  const air = airOf(channels, grid, limits, input.litres);
  const speed = lineInCells(channels.engineSpeed?.series, grid);
  const rear = meansInCells(channels.rear.series, grid).cells;
  const { rule, cuts } = fuelRules({ channels, grid, front, speed, flow: air.flow, limits });
  const weight = weights({ flow: air.flow, front, speed, step, limits });
  const doubt = channels.rear.series.time.doubt;
  const skew = (doubt?.early ?? 0) + (doubt?.late ?? 0);
  const flow = air.flow.map((value) => (Number.isNaN(value) ? 0 : Math.max(0, value)));
  return { grid, air, flow, front, rule, rear, weight, row, skew, cuts, trimSwing: trimSwingOf(channels, grid, rule) };
}

/** Standard deviation of the short trim in closed loop; a trim that stands still shows nothing. */
function trimSwingOf({ shortTrim }: BankChannels, grid: CellGrid, rule: Uint8Array): number | null {
  if (!shortTrim) return null;
  const line = lineInCells(shortTrim.series, grid);
  let n = 0;
  let mean = 0;
  let squares = 0;
  for (let i = 0; i < line.length; i++) {
    if (rule[i] !== fuel.loop || line[i]! - line[i]! !== 0) continue;
    const away = line[i]! - mean;
    mean += away / ++n;
    squares += away * (line[i]! - mean);
  }
  const deviation = Math.sqrt(squares / Math.max(1, n - 1)) / 100;
  return n > 250 && deviation > 0.004 ? Math.min(0.06, deviation) : null;
}

/**
 * Usual time between two values of a moving signal, s: a log may write rows faster than it asks, and repeat what it has.
 *
 * @param isCalm  it may stand still by itself: then only the step of its rows counts.
 */
function renewalOf({ samples, time }: Series, isCalm = false): Seconds {
  const step = usualStep(time) || fineCell;
  if (isCalm || step < 0.02) return step;
  const times: number[] = [];
  let last = NaN;
  for (let i = 0; i < samples.length; i++) {
    if (samples[i]! - samples[i]! !== 0 || samples[i] === last) continue;
    last = samples[i]!;
    times.push(timeAt(time, i));
  }
  const apart = times.slice(1).map((at, k) => at - times[k]!);
  return Math.max(step, medianOfNumbers(apart) || step);
}

const frontAwake = ({ front }: RecordInput["awake"]): number => front?.awakeFrom ?? 0;

/** After a hole or a standing engine the state of the store is not known for so long, s. */
const forgotten: Seconds = 6;

function weights(of: {
  readonly flow: Float64Array;
  readonly front: FrontSays;
  readonly speed: Float64Array;
  readonly step: Seconds;
  readonly limits: Limits;
}): Float64Array {
  const { flow, front, speed, step, limits } = of;
  const isBlind = (i: number) => !(flow[i]! > 0) || Number.isNaN(front.lean[i]!) || speed[i]! < limits.engineRuns;
  const weight = new Float64Array(flow.length).fill(1);
  weight.fill(0, 0, Math.round(forgotten / 2 / step));
  for (const [from, to] of runsWhere(flow.length, isBlind)) weight.fill(0, from, to + Math.round(forgotten / step));
  return weight;
}

/** Range of the rear where it counts, V. */
export function rearRange({ rear, weight }: StoreRecord): { low: number; high: number; middle: number } {
  const counts = (i: number) => weight[i]! > 0;
  const at = (share: number) => percentileOf(rear, share, counts);
  return { low: at(0.005), high: at(0.99), middle: at(0.5) };
}
