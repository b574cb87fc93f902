// What the front sensor says of the mixture: its size where it is wide-band, its sign where it switches.

import type { Awakening } from "../terms/analysis.ts";
import type { CellGrid } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import { lineInCells, percentileOf } from "./cells.ts";

export interface FrontSays {
  /** -1 rich … +1 lean for a switching sensor or a pump current; the free share of oxygen, 1 - 1/lambda, for a wide-band one. NaN unknown. */
  readonly lean: Float64Array;
  /** V (or lambda, or a pump current turned over) as recorded, in each cell. */
  readonly raw: Float64Array;
  readonly isWide: boolean;
  /** Levels between which it moves, in its own unit. */
  readonly low: number;
  readonly high: number;
}

/** A sensor that moves less than this, V, is taken by the usual level, not by its own middle. */
const leastSwing = 0.4;
const usualMiddle = 0.45;
/** How far a ground offset may have moved the middle, V. */
const mostOffset = 0.25;

export function frontSays(channels: BankChannels, awake: Awakening | null, grid: CellGrid): FrontSays | null {
  const narrow = channels.front && channels.front.unit !== "1" ? channels.front : null;
  if (narrow && (awake === null || awake.kind === "narrow-band" || awake.kind === "unknown")) {
    return switching(lineInCells(narrow.series, grid));
  }
  if (awake?.kind !== "wide-band") return null;
  const wide = channels.frontLambda ?? channels.front;
  if (!wide) return channels.frontPump && pumping(lineInCells(channels.frontPump.series, grid));
  const raw = lineInCells(wide.series, grid);
  const range = { low: percentileOf(raw, 0.02), high: percentileOf(raw, 0.98) };
  return { lean: raw.map((lambda) => (lambda > 0.5 ? 1 - 1 / lambda : NaN)), raw, isWide: true, ...range };
}

/** A pump current speaks by its sign, lean above 0: beyond this, mA, it is lean or rich through and through. Own choice. */
const sureCurrent = 0.15;

/** Turned over, so that lean is low as it is of a voltage. */
function pumping(current: Float64Array): FrontSays {
  const raw = current.map((mA) => -mA);
  const [low, high] = [percentileOf(raw, 0.02), percentileOf(raw, 0.98)];
  return { lean: current.map((mA) => clip(mA / sureCurrent)), raw, isWide: false, low, high };
}

function switching(raw: Float64Array): FrontSays {
  const [low, high] = [percentileOf(raw, 0.02), percentileOf(raw, 0.98)];
  const isWhole = high - low >= leastSwing;
  const own = (low + high) / 2;
  const middle = isWhole ? Math.min(usualMiddle + mostOffset, Math.max(usualMiddle - mostOffset, own)) : usualMiddle;
  const reach = 0.3 * Math.max(leastSwing, high - low);
  return { lean: raw.map((volts) => clip((middle - volts) / reach)), raw, isWide: false, low, high };
}

const clip = (value: number): number => Math.max(-1, Math.min(value, 1)); // NaN stays NaN
