// The rear voltage that a catalyst with a given store would have given, for what the front showed.

import type { Seconds } from "../../signal/numbers/units.ts";
import { oxygenShare } from "../lift-offs/oxygen.ts";
import type { Guess } from "../terms/store-study.ts";
import { centredOf, shownBy } from "./closed-loop.ts";
import { rearRange, type StoreRecord } from "./record.ts";

/** The test rig that cars are driven on: what is worked out once for a recording, and room that is used again. */
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
  /** 1 - 1/lambda at which the rear sensor has nearly switched. */
  readonly target: Float64Array;
  readonly course: Float64Array;
  readonly sources: Map<number, Float32Array>;
  /** What `target` was worked out for. */
  last: Guess | null;
}

/** Half-width of the rear sensor's step as 1 - 1/lambda. From memory, 0.002 to 0.01. */
const stepWidth = 0.004;
/** The rear sensor's own loop enriches a full catalyst and leans an empty one, by this share of `loop`. From memory. */
const rearControl = 0.6;
/** A course further off what the rear shows than this, V, sways the balance as far as it may go. Own choice. */
const fullSway = 0.15;

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
    target: new Float64Array(count),
    course: new Float64Array(count),
    sources: new Map(),
    last: null,
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
function shapeFlow(rig: Rig, shape: number): void {
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

/** Voltage at the rear sensor's tip for the gas that enters the catalyst in each cell; into `rig.target`. */
function leaveCatalyst(rig: Rig, guess: Guess): void {
  const { record, centred, shown, flow, oxygen, perOxygen, target, low, high, lift } = rig;
  const { rule, front } = record;
  const { store, loop, rich, back, again, sharp, leak } = guess;
  const offBalance = front.isWide ? 0.01 : loop;
  // What each rule offers; closed loop moves with the store, too, and a cut's air comes little by little.
  const byRule = Float64Array.of(offBalance * (guess.tilt + 0.5 * rearControl), 1, -rich, -back, -again);
  const near = store * (1 - guess.deep);
  const loopByStore = (-offBalance * rearControl) / near;
  const sinks = guess.deep > 0 ? record.grid.step / guess.seep : 0;
  const deepStore = store * guess.deep;
  const mixed = 1 - Math.exp(-record.grid.step / guess.mixing);
  const kept = 1 - guess.slip;
  const perStore = 1 / near;
  const perStep = 1 / stepWidth;
  const shift = Math.atanh(Math.min(0.98, 2 * guess.rest - 1));
  const { sag } = guess;
  const sway = offBalance * guess.sway;
  const leanOfAir = lift / 9;
  const doublings = Math.min(5, Math.floor(Math.log2(sharp)));
  const between = Math.log2(sharp) - doublings;
  let held = near / 2;
  let below = 0.5;
  let air = 0;
  for (let i = 0; i < target.length; i++) {
    const grams = oxygen[i]!;
    const kind = rule[i]!;
    const filled = held * perStore;
    air = kind === 1 ? air + (1 - air) * mixed : 0;
    const base = kind === 1 ? air : byRule[kind]!;
    let e = base;
    if (kind === 0) {
      e += loop * centred[i]! + loopByStore * held;
      if (sway > 0 && i > 0) e += swayed(target[i - 1]! - shown[i]!, sway);
    }
    let free = e > 0 ? filled : 1 - filled;
    free *= free;
    for (let k = 1; k < doublings; k++) free *= free;
    free += between * (free * free - free);
    const next = Math.max(0, Math.min(held + e * (grams * kept) * (1 - free), near));
    const passed = grams > 0 ? e - (next - held) * perOxygen[i]! : 0;
    held = next;
    if (sinks > 0) {
      const sunk = (held * perStore - below) * sinks;
      below += sunk;
      held = Math.max(0, Math.min(held - sunk * deepStore, near));
    }
    const drawn = flow[i]!;
    const left = passed + (leak > 0 && drawn > 0 ? leak / (drawn + leak) : 0);
    const richness = 0.5 * (1 + tanh(shift - sag * fallen(held * perStore) - left * perStep));
    const lean = left > 0 && lift > 0 ? low + lift / (1 + 8 * Math.sqrt(left)) - leanOfAir : low;
    target[i] = lean + (high - lean) * richness;
  }
}

/** Leaner where the rear shows less than the course does; 0 where it shows nothing. */
function swayed(off: number, sway: number): number {
  if (off >= fullSway) return sway;
  if (off <= -fullSway) return -sway;
  return off - off === 0 ? (off * sway) / fullSway : 0;
}

/** Share of `sag` by which the rear has fallen behind a store that is so full: a steep step about the middle. */
const fallen = (filled: number): number => smooth(smooth(filled));

const smooth = (share: number): number => share * share * (3 - 2 * share);

/** Padé's form of the hyperbolic tangent, right to 0.024: the sensor's own curve is not known better. */
function tanh(x: number): number {
  if (x > 3) return 1;
  if (x < -3) return -1;
  const square = x * x;
  return (x * (27 + square)) / (27 + 9 * square);
}

/** So many ways are kept: those that are looked at in turn. */
const keptWays = 8;

/** For each cell, where in time, in cells, the gas that is at the rear sensor now entered: as much air ago as the way holds. */
function sourcesOf({ drawn, sources }: Rig, gas: number): Float32Array {
  const known = sources.get(gas);
  if (known) return known;
  const found = roomFor(sources, drawn.length);
  let from = 0;
  for (let i = 0; i < drawn.length; i++) {
    const entered = drawn[i]! - gas;
    while (from < i && drawn[from + 1]! <= entered) from++;
    const share = from < i ? (entered - drawn[from]!) / (drawn[from + 1]! - drawn[from]!) : 0;
    found[i] = from + Math.max(share, 0);
  }
  sources.set(gas, found);
  return found;
}

/** The room of the way that was worked out longest ago, once there are enough. */
function roomFor(sources: Map<number, Float32Array>, cells: number): Float32Array {
  if (sources.size < keptWays) return new Float32Array(cells);
  const [oldest, room] = sources.entries().next().value!;
  sources.delete(oldest);
  return room;
}

const leaving = [
  "store",
  "loop",
  "rich",
  "back",
  "again",
  "tilt",
  "sway",
  "deep",
  "seep",
  "slip",
  "sharp",
  "rest",
  "sag",
  "leak",
  "mixing",
  "shape",
] as const;

const leavesAlike = (a: Guess | null, b: Guess): boolean => a !== null && leaving.every((name) => a[name] === b[name]);

/** The rear's course in V, one value for each cell; kept in `rig.course` until the next call. */
export function rearCourse(rig: Rig, guess: Guess): Float64Array {
  shapeFlow(rig, guess.shape);
  if (!leavesAlike(rig.last, guess)) leaveCatalyst(rig, guess);
  rig.last = guess;
  const { step } = rig.record.grid;
  const { target, course } = rig;
  const sources = sourcesOf(rig, guess.gas);
  const share = 1 - Math.exp(-step / Math.max(guess.lag, 1e-3));
  const skew = guess.skew / step;
  const last = target.length - 1;
  let level = target[0]!;
  for (let i = 0; i <= last; i++) {
    let at = sources[i]! - skew;
    at = at < 0 ? 0 : Math.min(at, last);
    const before = Math.trunc(at);
    const now =
      before < last ? target[before]! + (at - before) * (target[before + 1]! - target[before]!) : target[last]!;
    level += (now - level) * share;
    course[i] = level;
  }
  return course;
}
