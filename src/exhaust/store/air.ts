// How much air the engine draws: measured, else worked out from what stands in for it, with wider bounds.

import type { Series } from "../../signal/series/series.ts";
import type { CellGrid } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { lineInCells, percentileOf } from "./cells.ts";

export interface Air {
  /** g/s in each cell; NaN where unknown. */
  readonly flow: Float64Array;
  /** The true flow lies within this factor either way, 95 %. */
  readonly doubt: number;
  /** Where it was taken from, for people. */
  readonly from: string;
  readonly isKnown: boolean;
  readonly isMeasured: boolean;
  /** Engine size that it was worked out for, l; null where it was measured, or the size is not known. */
  readonly litres: number | null;
}

/** J/(kg K), of air. */
const gasConstant = 287.05;
/** Engine size where the job does not say it, l; half and double are taken as its bounds. From memory. */
const usualSize = 1.8;
/** Share of the manifold's air that a cylinder takes, 0.4 to 0.95. From memory. */
const filling = 0.75;

/**
 * Air flow, else speed-density from manifold pressure (m = filling x displacement / 2 x n / 60 x p / (R T), T = 310 K),
 * else the same with load in place of pressure, else engine speed with a usual filling, kPa: 18 with the throttle closed, 75 in a hard pull, 30 between (from memory).
 *
 * @param litres  engine size where known.
 */
export function airOf(channels: BankChannels, grid: CellGrid, limits: Limits, litres: number | null): Air {
  const measured = lineInCells(channels.airFlow?.series, grid);
  if (measured.some((value) => value > 0.3)) {
    const doubt = 1 + limits.airFlowDoubt / 100;
    return { flow: measured, doubt, from: "air flow as recorded", isKnown: true, isMeasured: true, litres: null };
  }
  const speed = lineInCells(channels.engineSpeed?.series, grid);
  if (!speed.some((value) => value > limits.engineRuns)) return unknownAir(grid);
  const size = litres ?? usualSize;
  const per = (size / 1000 / 2 / 60) * (1000 / (gasConstant * 310)) * 1000;
  const pressure = lineOrNull(channels.manifoldPressure?.series, grid);
  const load = lineOrNull(channels.load?.series, grid);
  const throttle = lineInCells(channels.throttle?.series, grid);
  const closed = percentileOf(throttle, 0.002) + limits.closedThrottle;
  const light = (i: number) => (throttle[i]! <= closed ? 18 : throttle[i]! > limits.loadThrottle ? 75 : 30);
  const density = (i: number): number => (pressure ? filling * pressure[i]! : load ? 0.85 * load[i]! : light(i));
  const told = pressure ? "manifold pressure" : load ? "engine load" : "engine speed alone";
  const doubt = together(pressure ? 1.3 : load ? 1.4 : 1.7, litres ? 1 : 2);
  return {
    flow: speed.map((n, i) => per * n * density(i)),
    doubt,
    from: `no air flow was recorded: worked out from ${told}${litres ? "" : ", for an engine of unknown size"}`,
    isKnown: true,
    isMeasured: false,
    litres,
  };
}

/** Two factors of doubt that have nothing to do with each other: their logarithms add as squares. */
const together = (a: number, b: number): number => Math.exp(Math.hypot(Math.log(a), Math.log(b)));

function lineOrNull(series: Series | undefined, grid: CellGrid): Float64Array | null {
  if (!series) return null;
  const line = lineInCells(series, grid);
  return line.some((value) => value > 5) ? line : null;
}

/** A usual flow of light running, g/s: grams cannot be told by it, only whether what is offered comes through. */
const usualFlow = 7;

function unknownAir({ count }: CellGrid): Air {
  return {
    flow: new Float64Array(count).fill(usualFlow),
    doubt: 4,
    from: "neither air flow nor engine speed was recorded: a usual flow of light running was taken",
    isKnown: false,
    isMeasured: false,
    litres: null,
  };
}
