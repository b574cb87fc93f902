// How far a rear course is from the recorded one: heavy-tailed, for every model is wrong, and blind to slow wandering.

import type { Seconds } from "../../signal/numbers/units.ts";
import { fuel, type StoreRecord } from "./record.ts";
import type { Rig } from "./rig.ts";

/** A usual error of a right course, V. Own choice. */
const usualError = 0.06;
/** Errors closer together than this, s, are one error. Own choice. */
const oneError: Seconds = 0.2;
/** The rear wanders with temperature and hydrogen: so slowly, s, and so far either way, V. From memory. */
const wander: Seconds = 4;
const mostWander = 0.12;

/** Rows of the rear as their cells, with what each counts. */
export interface Rows {
  readonly at: Int32Array;
  readonly volts: Float64Array;
  readonly counts: Float64Array;
  /** 1 where the next row counts otherwise, or there is none. */
  readonly isLast: Uint8Array;
  /** How much of an error the slow wandering takes on, by the time since the row before. */
  readonly shares: Float64Array;
  /** A row may be this many cells off either way. */
  readonly reach: number;
}

export function rowsOf({ record }: Rig): Rows {
  const {
    rear,
    row,
    grid: { step },
  } = record;
  const weight = tellingOf(record);
  const kept: number[] = [];
  for (let i = 0; i < rear.length; i++) if (weight[i]! > 0 && rear[i]! - rear[i]! === 0) kept.push(i);
  const one = Math.min(1, Math.max(row, step) / oneError);
  const counts = Float64Array.from(kept, (i) => weight[i]! * one);
  return {
    at: Int32Array.from(kept),
    volts: Float64Array.from(kept, (i) => rear[i]!),
    counts,
    isLast: Uint8Array.from(counts, (value, k) => (value === counts[k + 1] ? 0 : 1)),
    shares: Float64Array.from(kept, (i, k) => Math.min(1, ((i - (kept[k - 1] ?? i)) * step) / wander)),
    reach: Math.max(1, Math.round((0.5 * Math.min(row, 0.15)) / step)),
  };
}

/**
 * How much each cell tells. What comes of a cut does so most, for there the mixture is known; of a long rich spell
 * that nothing explains, less, for how rich it was is a guess; and least of a lean spell so short that it may have been no cut.
 * Own choice.
 */
const inCut = { before: 0.4, after: 4, counts: 3 } as const;
const unexplainedCounts = 0.4;
const sureCut: Seconds = 0.8;
const unsureCounts = 0.1;

function tellingOf({ weight, rule, cuts, grid: { step } }: StoreRecord): Float64Array {
  const telling = weight.map((counts, i) => (rule[i] === fuel.back ? counts * unexplainedCounts : counts));
  for (const [from, to] of cuts) {
    const counts = (to - from) * step < sureCut ? unsureCounts : inCut.counts;
    const [first, last] = [from - inCut.before / step, from + inCut.after / step].map(Math.round) as [number, number];
    for (let i = Math.max(0, first); i < Math.min(last, telling.length); i++) telling[i] = weight[i]! * counts;
  }
  return telling;
}

/** One logarithm for so many rows that count alike: of their product, which an error of 1 V brings to 10^78. */
const atOnce = 32;

/**
 * Sum over the rows of counts x ln(1 + (error / usual error)²); Infinity as soon as it is more than `most`, for it only grows.
 *
 * @param errors  if given, error / usual error of each row is written into it, and nothing is summed.
 */
export function misfitOf(rows: Rows, course: Float64Array, most = Infinity, errors?: Float64Array): number {
  const { at, volts, counts, isLast, shares, reach } = rows;
  const last = course.length - 1;
  const scale = 1 / usualError ** 2;
  let sum = 0;
  let baseline = 0;
  let product = 1;
  let factors = 0;
  for (let k = 0; k < at.length; k++) {
    const i = at[k]!;
    let low = course[i]!;
    let high = low;
    const sooner = course[Math.max(0, i - reach)]!;
    const later = course[Math.min(i + reach, last)]!;
    if (sooner < low) low = sooner;
    else if (sooner > high) high = sooner;
    if (later < low) low = later;
    else if (later > high) high = later;
    const volt = volts[k]! - baseline;
    const error = volt > high ? volt - high : volt < low ? volt - low : 0;
    if (errors) errors[k] = error / usualError;
    else {
      if (error !== 0) {
        product *= 1 + error * error * scale;
        factors++;
      }
      if (factors === atOnce || isLast[k] === 1) {
        sum += counts[k]! * Math.log(product);
        if (sum > most) return Infinity;
        product = 1;
        factors = 0;
      }
    }
    const clipped = Math.max(-0.25, Math.min(error, 0.25));
    baseline = Math.max(-mostWander, Math.min(baseline + clipped * shares[k]!, mostWander));
  }
  return sum;
}
