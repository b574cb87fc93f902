// The rear voltage that a catalyst with a given store would have given, for what the front showed.

import type { Seconds } from "../../signal/numbers/units.ts";
import { oxygenShare } from "../lift-offs/oxygen.ts";
import type { Guess } from "../terms/store-study.ts";
import { runsWhere } from "./cells.ts";
import { fuel, rearRange, type StoreRecord } from "./record.ts";

/** What is worked out once for a recording. */
export interface Bench {
  readonly record: StoreRecord;
  /** Front less its own local middle: what closed loop offers. */
  readonly centred: Float64Array;
  /** Air drawn up to each cell, g. */
  readonly drawn: Float64Array;
  /** Oxygen in the air of each cell, g, and one over it; 0 without air. */
  readonly oxygen: Float64Array;
  readonly perOxygen: Float64Array;
  readonly low: number;
  readonly high: number;
  /** 1 - 1/lambda at which the rear sensor has nearly switched. */
  readonly target: Float64Array;
  readonly course: Float64Array;
  readonly sources: Map<number, Int32Array>;
  /** What `target` was worked out for. */
  last: Guess | null;
}

/** Half-width of the rear sensor's step as 1 - 1/lambda. From memory, 0.002 to 0.01. */
const stepWidth = 0.004;
/** The rear sensor's own loop enriches a full catalyst and leans an empty one, by this share of `loop`. From memory. */
const rearControl = 0.6;
/** Closed loop balances over about this long, s. */
const balance: Seconds = 8;

export function benchOf(record: StoreRecord): Bench {
  const { count } = record.grid;
  const { low, high } = rearRange(record);
  const drawn = new Float64Array(count);
  const { step } = record.grid;
  for (let i = 1; i < count; i++) drawn[i] = drawn[i - 1]! + record.flow[i]! * step;
  const oxygen = record.flow.map((flow) => flow * oxygenShare * step);
  return {
    record,
    centred: centredOf(record),
    drawn,
    oxygen,
    perOxygen: oxygen.map((grams) => (grams > 0 ? 1 / grams : 0)),
    low: Math.min(low, Math.max(0.02, record.front.isWide ? 0.05 : record.front.low)),
    high: Math.max(high, 0.6),
    target: new Float64Array(count),
    course: new Float64Array(count),
    sources: new Map(),
    last: null,
  };
}

function centredOf({ front: { lean }, rule, grid: { step } }: StoreRecord): Float64Array {
  const count = lean.length;
  const sums = new Float64Array(count + 1);
  const counts = new Float64Array(count + 1);
  const after = settling(rule, step);
  for (let i = 0; i < count; i++) {
    const counted = rule[i] === fuel.loop && lean[i]! - lean[i]! === 0 && after[i] === 0;
    sums[i + 1] = sums[i]! + (counted ? lean[i]! : 0);
    counts[i + 1] = counts[i]! + (counted ? 1 : 0);
  }
  const all = sums[count]! / Math.max(1, counts[count]!);
  const half = Math.round(balance / 2 / step);
  return lean.map((value, i) => {
    const [from, to] = [Math.max(0, i - half), Math.min(count, i + half)];
    const known = counts[to]! - counts[from]!;
    const middle = known > half / 2 ? (sums[to]! - sums[from]!) / known : all;
    return value - value === 0 ? value - middle : 0;
  });
}

/** Cells within 3 s behind a cut or a pull: the loop is not yet in balance. */
function settling(rule: Uint8Array, step: Seconds): Uint8Array {
  const marks = new Uint8Array(rule.length);
  const reach = Math.round(3 / step);
  for (const [, to] of runsWhere(rule.length, (i) => rule[i] !== fuel.loop)) marks.fill(1, to, to + reach);
  return marks;
}

/** Voltage at the rear sensor's tip for the gas that enters the catalyst in each cell; into `bench.target`. */
function leaveCatalyst({ record, centred, oxygen, perOxygen, target, low, high }: Bench, guess: Guess): void {
  const { flow, rule, front } = record;
  const { store, loop, rich, back, again, sharp, leak } = guess;
  const offBalance = front.isWide ? 0.01 : loop;
  // What each rule offers; closed loop moves with the store, too.
  const byRule = Float64Array.of(offBalance * (guess.tilt + 0.5 * rearControl), 1, -rich, -back, -again);
  const loopByStore = (-offBalance * rearControl) / store;
  const kept = 1 - guess.slip;
  const perStore = 1 / store;
  const perStep = 1 / stepWidth;
  const shift = Math.atanh(Math.min(0.98, 2 * guess.rest - 1));
  const swing = (high - low) / 2;
  const sag = guess.sag / store;
  let held = store / 2;
  for (let i = 0; i < target.length; i++) {
    const grams = oxygen[i]!;
    const kind = rule[i]!;
    const filled = held * perStore;
    const base = byRule[kind]!;
    const e = kind === 0 ? loop * centred[i]! + base + loopByStore * held : base;
    let free = e > 0 ? filled : 1 - filled;
    free *= free;
    if (sharp > 2) free *= free;
    if (sharp > 4) free *= free;
    if (sharp > 8) free *= free;
    if (sharp > 16) free *= free;
    const next = Math.max(0, Math.min(held + e * (grams * kept) * (1 - free), store));
    const passed = grams > 0 ? e - (next - held) * perOxygen[i]! : 0;
    held = next;
    const air = flow[i]!;
    const leaked = leak > 0 && air > 0 ? leak / (air + leak) : 0;
    target[i] = low + swing * (1 + tanh(shift - sag * held - (passed + leaked) * perStep));
  }
}

/** Padé's form of the hyperbolic tangent, right to 0.024: the sensor's own curve is not known better. */
function tanh(x: number): number {
  if (x > 3) return 1;
  if (x < -3) return -1;
  const square = x * x;
  return (x * (27 + square)) / (27 + 9 * square);
}

/** For each cell, the cell in which the gas that is at the rear sensor now entered: as much air ago as the way holds. */
function sourcesOf({ drawn, sources }: Bench, gas: number): Int32Array {
  const known = sources.get(gas);
  if (known) return known;
  const found = new Int32Array(drawn.length);
  let from = 0;
  for (let i = 0; i < drawn.length; i++) {
    while (from < i && drawn[from + 1]! <= drawn[i]! - gas) from++;
    found[i] = from;
  }
  sources.set(gas, found);
  return found;
}

const leaving = ["store", "loop", "rich", "back", "again", "tilt", "slip", "sharp", "rest", "sag", "leak"] as const;

const leavesAlike = (a: Guess | null, b: Guess): boolean => a !== null && leaving.every((name) => a[name] === b[name]);

/** The rear's course in V, one value for each cell; kept in `bench.course` until the next call. */
export function rearCourse(bench: Bench, guess: Guess): Float64Array {
  if (!leavesAlike(bench.last, guess)) leaveCatalyst(bench, guess);
  bench.last = guess;
  const { step } = bench.record.grid;
  const { target, course } = bench;
  const sources = sourcesOf(bench, guess.gas);
  const share = 1 - Math.exp(-step / Math.max(guess.lag, 1e-3));
  const skew = Math.round(guess.skew / step);
  const last = target.length - 1;
  let level = target[0]!;
  for (let i = 0; i <= last; i++) {
    const at = Math.max(0, Math.min(i - skew, last));
    level += (target[sources[at]!]! - level) * share;
    course[i] = level;
  }
  return course;
}
