// The test rig that cars are driven on: a recording, what is worked out once for it, and room that is used again.

import type { Seconds } from "../../signal/numbers/units.ts";
import { oxygenShare } from "../lift-offs/oxygen.ts";
import type { Guess } from "../terms/store-study.ts";
import { centredOf, shownBy } from "./closed-loop.ts";
import { rearRange, type StoreRecord } from "./record.ts";

export interface Rig {
  readonly record: StoreRecord;
  /** Front less its own local middle: what closed loop offers. */
  readonly centred: Float64Array;
  /** V that the rear showed a little later; NaN where it told nothing. */
  readonly shown: Float64Array;
  /** Air flow, g/s, and air drawn up to each cell, g, for the `shape` that was last looked at. */
  readonly flow: Float64Array;
  readonly drawn: Float64Array;
  /** Oxygen in the air of each cell, g, and one over it; 0 without air. */
  readonly oxygen: Float64Array;
  readonly perOxygen: Float64Array;
  shape: number;
  readonly low: number;
  readonly high: number;
  /** How far above `low` it reads where hardly any oxygen is left over, V: 0 where no cut shows the reading in air. */
  readonly lift: number;
  readonly course: Float64Array;
  readonly sources: Map<number, Float32Array>;
  /** Gas behind the catalyst of each car that was driven last, side by side. */
  left: readonly Left[];
  /** Room for those, one after the other. */
  room: Float64Array;
}

/** A car, and the voltage at its rear sensor's tip for the gas that entered the catalyst in each cell. */
export interface Left {
  readonly guess: Guess;
  readonly target: Float64Array;
}

export function rigOf(record: StoreRecord): Rig {
  const { count } = record.grid;
  const { low, high } = rearRange(record);
  const rig: Rig = {
    record,
    centred: centredOf(record),
    shown: shownBy(record),
    flow: new Float64Array(count),
    drawn: new Float64Array(count),
    oxygen: new Float64Array(count),
    perOxygen: new Float64Array(count),
    shape: NaN,
    low: Math.min(low, Math.max(0.02, record.front.isWide ? 0.05 : record.front.low)),
    high: Math.max(high, 0.6),
    lift: record.cuts.some(([from, to]) => (to - from) * record.grid.step > longCut) ? nernstLift : 0,
    course: new Float64Array(count),
    sources: new Map(),
    left: [],
    room: new Float64Array(0),
  };
  shapeFlow(rig, 1);
  return rig;
}

/** A cut of so long, s, shows what the rear reads in air. */
const longCut: Seconds = 1.5;
/** … and above that, V, what it reads at 1 - 1/lambda = 0; RT/4F ln(1/e) for 900 K, roughly, from 0.4 % on. */
const nernstLift = 0.12;

/** Flow at which no shape changes anything, g/s. */
const usualFlow = 7;

/** Where flow was worked out, little flow may in truth be less, and much more: a power of it. */
export function shapeFlow(rig: Rig, shape: number): void {
  if (rig.shape === shape) return;
  const { record, flow, drawn, oxygen, perOxygen } = rig;
  const { step } = record.grid;
  for (let i = 0; i < flow.length; i++) {
    const m = record.flow[i]!;
    flow[i] = shape === 1 || m === 0 ? m : usualFlow * (m / usualFlow) ** shape;
    drawn[i] = i > 0 ? drawn[i - 1]! + flow[i]! * step : 0;
    oxygen[i] = flow[i]! * oxygenShare * step;
    perOxygen[i] = oxygen[i]! > 0 ? 1 / oxygen[i]! : 0;
  }
  rig.shape = shape;
  rig.sources.clear();
}
