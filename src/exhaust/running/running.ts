// What kind of running each quarter second of a capture is, told from whatever was recorded.

import type { Channel } from "../../capture/model/capture.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import type { Series } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import { kindOf } from "../sensors/awake.ts";
import type { Span, StretchKind, Warmth } from "../terms/analysis.ts";
import { type CellGrid, heldInCells, rangeAround } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import type { Recall } from "../terms/remembered.ts";

/** "unknown" is steady switching of which nothing says at what speed and load: shown as unsteady, never as idle or cruise. */
export type CellKind = StretchKind | "unknown" | "gap";

export const cellStep: Seconds = 0.25;
/** Steady means steady over this long either way. */
const reach = Math.round(2 / cellStep);
/** Looser than the engine's: a foot and a road are never quite even. */
const throttleBand = 8;
const roadBand = 6;
/** Front rich for so long without a break, and for so many samples, is no closed loop. */
const richFor: Seconds = 2;
const richSamples = 8;

export interface RunningInput {
  readonly channels: BankChannels;
  readonly span: Span;
  readonly warmth: Warmth;
  /** Times when fuel was cut, from the lift-offs found. */
  readonly cuts: readonly Span[];
  readonly limits: Limits;
  readonly recall?: Recall;
}

/** Everything on one grid, NaN where not recorded. */
export interface Cells {
  readonly grid: CellGrid;
  readonly engineSpeed: Float64Array;
  readonly throttle: Float64Array;
  readonly roadSpeed: Float64Array;
  readonly load: Float64Array;
  readonly airFlow: Float64Array;
  /** Most air drawn in the capture, g/s; NaN without the channel. */
  readonly mostFlow: number;
  readonly fuelStatus: Float64Array;
  readonly coolant: Float64Array;
  readonly catalyst: Float64Array;
  readonly front: Float64Array;
  readonly rear: Float64Array;
  /** Lowest throttle of the capture, %; NaN without the channel. */
  readonly closedThrottle: number;
  /** The throttle stands wide open in ordinary running: the valves meter the air, and it tells no pull. */
  readonly isUnthrottled: boolean;
}

export function cellsOf(channels: BankChannels, span: Span, limits: Limits): Cells {
  const count = Math.max(1, Math.min(2_000_000, Math.ceil((span.to - span.from) / cellStep)));
  const grid = { from: span.from, step: cellStep, count };
  const throttle = heldInCells(channels.throttle?.series, grid);
  const airFlow = heldInCells(channels.airFlow?.series, grid);
  return {
    grid,
    throttle,
    engineSpeed: heldInCells(channels.engineSpeed?.series, grid),
    roadSpeed: heldInCells(channels.roadSpeed?.series, grid),
    load: heldInCells(channels.load?.series, grid),
    airFlow,
    mostFlow: highest(airFlow),
    isUnthrottled: medianOfNumbers(throttle.filter((value) => !Number.isNaN(value))) > limits.loadThrottle,
    fuelStatus: heldInCells(channels.fuelStatus?.series, grid),
    coolant: heldInCells(channels.coolant?.series, grid),
    catalyst: heldInCells(channels.catalystTemperature?.series, grid),
    front: heldInCells((channels.front ?? channels.frontLambda)?.series, grid),
    rear: heldInCells(channels.rear?.series, grid),
    closedThrottle: lowest(throttle),
  };
}

function lowest(values: Float64Array): number {
  const { low } = rangeAround(values, 0, values.length);
  return low === Infinity ? NaN : low;
}

function highest(values: Float64Array): number {
  const { high } = rangeAround(values, 0, values.length);
  return high === -Infinity ? NaN : high;
}

/** The kind of each cell, by the first rule that speaks. */
export function kindsOf(cells: Cells, { channels, warmth, cuts, limits }: RunningInput): CellKind[] {
  const isCut = markCuts(cells.grid, cuts);
  const isRich = speaksVolts(channels.front) ? longRich(cells.grid, channels.front.series, limits) : () => false;
  const idleThrottle = throttleAtIdle(cells, limits);
  return Array.from({ length: cells.grid.count }, (_, i): CellKind => {
    if (Number.isNaN(cells.front[i]!) && Number.isNaN(cells.rear[i]!)) return "gap";
    if (cells.engineSpeed[i]! < limits.engineRuns) return "not-running";
    if (isCut[i] || coasts(cells, i, limits)) return "overrun";
    if (isCold(cells, i, warmth, limits)) return "cold";
    if (pulls(cells, i, limits) || (!tellsLoad(cells, i) && isRich(i))) return "load";
    return steadyKind(cells, i, idleThrottle, limits);
  });
}

/**
 * What the throttle shows while the engine turns slowly, %: an electric one idles further open than it coasts. NaN where the
 * two were not recorded together.
 */
function throttleAtIdle({ throttle, engineSpeed }: Cells, { engineRuns, idleSpeed }: Limits): number {
  const isSlow = (_: number, i: number) => engineSpeed[i]! >= engineRuns && engineSpeed[i]! < idleSpeed;
  return medianOfNumbers(throttle.filter(isSlow).filter((value) => !Number.isNaN(value)));
}

function markCuts(grid: CellGrid, cuts: readonly Span[]): Uint8Array {
  const marks = new Uint8Array(grid.count);
  for (const { from, to } of cuts) {
    marks.fill(1, Math.max(0, Math.floor((from - grid.from) / grid.step)), Math.ceil((to - grid.from) / grid.step));
  }
  return marks;
}

/** Fuel status 4 with the throttle closed, or a closed throttle with a fast engine that slows down. */
function coasts(cells: Cells, i: number, limits: Limits): boolean {
  const closed = cells.throttle[i]! <= cells.closedThrottle + limits.closedThrottle;
  if (!closed || !(cells.engineSpeed[i]! > limits.cutSpeed)) return false;
  if (cells.fuelStatus[i] === 4) return true;
  const later = cells.engineSpeed[Math.min(cells.grid.count - 1, i + 2)]!;
  return later < cells.engineSpeed[Math.max(0, i - 2)]! - 50;
}

/** Once warm, a temperature may fall this far below the limit, degC, before the engine is cold again. Own choice. */
const coolsBy = { coolant: 10, catalyst: 50 };

/** By temperature, with the memory of what it was: one that swings about the limit does not change the state each time. */
function isCold(cells: Cells, i: number, warmth: Warmth, limits: Limits): boolean {
  const [least, most] = Number.isNaN(cells.catalyst[i]!)
    ? [limits.warmCoolant, coolsBy.coolant]
    : [limits.hotCatalyst, coolsBy.catalyst];
  const value = Number.isNaN(cells.catalyst[i]!) ? cells.coolant[i]! : cells.catalyst[i]!;
  if (!Number.isNaN(value)) return value < (hasBeenWarm(cells, i, warmth) ? least - most : least);
  return warmth.hotFrom === null || cells.grid.from + i * cells.grid.step < warmth.hotFrom;
}

const hasBeenWarm = ({ grid }: Cells, i: number, { hotFrom }: Warmth): boolean =>
  hotFrom !== null && grid.from + (i + 1) * grid.step >= hotFrom;

/** Without a throttle that meters the air: more than this share of the most air that was drawn is a hard pull. Own choice. */
const pullFlow = 0.7;

function pulls(cells: Cells, i: number, limits: Limits): boolean {
  if (cells.load[i]! > limits.loadShare) return true;
  if (!cells.isUnthrottled) return cells.throttle[i]! > limits.loadThrottle;
  return Number.isNaN(cells.load[i]!) && cells.airFlow[i]! > pullFlow * cells.mostFlow;
}

/** Throttle, load and flow say more of a pull than a rich front, which slow sampling can fake. */
const tellsLoad = (cells: Cells, i: number): boolean =>
  !Number.isNaN(cells.load[i]!) || !Number.isNaN(cells.isUnthrottled ? cells.airFlow[i]! : cells.throttle[i]!);

/** Rich is above a level of zirconia sensors only. */
const speaksVolts = (front: Channel | null): front is Channel =>
  front !== null && ["narrow-band", "unknown"].includes(kindOf(front));

/** Whether cell i lies in a run of rich cells longer than closed loop would allow; a value held into a hole is none. */
function longRich(grid: CellGrid, series: Series, limits: Limits): (i: number) => boolean {
  const front = heldInCells(series, grid, 0);
  const least = Math.round(Math.max(richFor, richSamples * (usualStep(series.time) || 0)) / cellStep);
  const marks = new Uint8Array(front.length);
  let begin = 0;
  for (let i = 0; i <= front.length; i++) {
    if (i < front.length && front[i]! > limits.highLevel) continue;
    if (i - begin >= least) marks.fill(1, begin, i);
    begin = i + 1;
  }
  return (i) => marks[i] === 1;
}

function steadyKind(cells: Cells, i: number, idleThrottle: number, limits: Limits): CellKind {
  const steady =
    within(cells.engineSpeed, i, 2 * limits.steadySpeed) &&
    within(cells.throttle, i, throttleBand) &&
    within(cells.roadSpeed, i, roadBand);
  if (!steady || isOpen(cells.fuelStatus[i]!)) return "unsteady";
  const stands = !(cells.roadSpeed[i]! >= limits.standing);
  const closed = !(cells.throttle[i]! > (idleThrottle || cells.closedThrottle) + 2 * limits.closedThrottle);
  const speed = cells.engineSpeed[i]!;
  if (speed < limits.idleSpeed) return stands && closed ? "idle" : "unsteady";
  if (speed >= limits.idleSpeed) return "cruise";
  if (cells.roadSpeed[i]! > 5 * limits.standing) return "cruise";
  return "unknown";
}

/** Fuel system status (PID 03 of SAE J1979) known, and not closed: another kind of running, however steady the speed. */
const isOpen = (status: number): boolean => Math.abs(status - 2) > 0.5;

/** NaN all around is no objection: what was not recorded cannot speak against. */
function within(values: Float64Array, i: number, width: number): boolean {
  const { low, high } = rangeAround(values, i, reach);
  return !(high - low > width);
}
