// The oxygen store in grams, with bounds, from everything in a recording.

import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { oxygenShare } from "../lift-offs/oxygen.ts";
import type { Limits } from "../terms/limits.ts";
import type { Fit, StoreStudy } from "../terms/store-study.ts";
import { rearCourse } from "./forward.ts";
import { type Rows, rowsOf } from "./misfit.ts";
import { leakFit, profileOf, quickFit, stores } from "./profile.ts";
import { fuel, type RecordInput, recordOf, type StoreRecord } from "./record.ts";
import { type Rig, rigOf } from "./rig.ts";
import { usualMixing } from "./unknowns.ts";

/** @returns null where there is nothing to look at: no front or rear sensor, never hot, never awake. */
export function storeOf(input: RecordInput): StoreStudy | null {
  const record = recordOf(input);
  if (!record) return null;
  const rig = rigOf(record);
  const rows = rowsOf(rig);
  const { limits } = input;
  if (rows.at.length < limits.fitRows) return null;
  const profile = profileOf(rig, rows);
  const best = profile.reduce((least, one) => (one.cost < least.cost ? one : least));
  const explained = explainedBy(rig, rows, best);
  const margin = limits.fitMargin + (limits.fitMarginShare / 100) * best.cost;
  const ofSize = limits.sizeMargin + (limits.sizeMarginShare / 100) * best.cost;
  // A car whose flow nothing tells is as good as one of another kind.
  const near = asGoodAs(profile, best, record.air.isKnown ? ofSize : Math.max(margin, ofSize));
  const value = lowest(profile, best);
  const quick = limits.quickRear;
  const isOpen = explained < limits.leakTried || best.guess.store < limits.leakTriedStore;
  return {
    reading: readingOf(near, { value, explained, record, limits }),
    near,
    asTaken: { low: near.low / limits.fitForm, high: near.high * limits.fitForm },
    best,
    value,
    explained,
    leak: isOpen ? leakFit(rig, rows) : null,
    quickRear: best.guess.lag > quick ? quickFit(rig, rows, best, quick) : null,
    margin,
    air: record.air.from,
    airDoubt: record.air.doubt,
    isAirUnknown: !record.air.isKnown,
    litres: record.air.litres,
    cuts: record.cuts.length,
    row: record.row,
    seconds: rows.at.length * Math.max(record.row, record.grid.step),
  };
}

/** Stores, g, whose fits are as good as the best. */
function asGoodAs(profile: readonly Fit[], best: Fit, margin: number): { readonly low: number; readonly high: number } {
  const most = best.cost + margin;
  return { low: passage(profile, most), high: passage([...profile].reverse(), most) };
}

interface Fitted {
  readonly value: number;
  readonly explained: number;
  readonly record: StoreRecord;
  readonly limits: Limits;
}

function readingOf(near: StoreStudy["asTaken"], { value, explained, record, limits }: Fitted): Reading {
  const { air } = record;
  if (explained < limits.leastExplained)
    return notResolvable(
      "g",
      `The best fit explains ${Math.round(100 * explained)} % of what the rear sensor did: too little to tell grams by.`,
    );
  const doubt = limits.fitForm * air.doubt;
  const [low, high] = [near.low / doubt, near.high * doubt];
  const isOpen = { low: near.low <= Math.max(stores[0]!, leastTold(record)), high: near.high >= stores.at(-1)! };
  const because = `Fitted to every lean and rich spell; ${air.from}.`;
  if (isOpen.low && isOpen.high)
    return notResolvable(
      "g",
      `The recording does not tell one size of store from another; ${air.from}. Record steady cruise and three lift-offs.`,
    );
  if (isOpen.high) return { value: low, low, high: null, unit: "g", grade: "at-least", because };
  if (isOpen.low) return { value: high, low: 0, high, unit: "g", grade: "at-most", because };
  return measured(value, [low, high], "g", { because });
}

/** g; a store that is full before a cut's air has displaced what was burnt, or between two rows of the cut, cannot be told from none. */
function leastTold({ flow, weight, row, rule }: StoreRecord): number {
  const inCuts = flow.filter((_, i) => weight[i]! > 0 && rule[i] === fuel.cut);
  const told = inCuts.length > 0 ? inCuts : flow.filter((_, i) => weight[i]! > 0);
  const mean = told.reduce((sum, grams) => sum + grams, 0) / Math.max(1, told.length);
  return oxygenShare * mean * Math.max(row, usualMixing);
}

/** The store, g, at which a parabola through the best fit and its neighbours, in the logarithm, is lowest. */
function lowest(profile: readonly Fit[], best: Fit): number {
  const k = profile.indexOf(best);
  const [before, after] = [profile[k - 1], profile[k + 1]];
  if (!before || !after) return best.guess.store;
  const bend = before.cost - 2 * best.cost + after.cost;
  const off = bend > 0 ? (before.cost - after.cost) / (2 * bend) : 0;
  return best.guess.store * (after.guess.store / best.guess.store) ** off;
}

/** The store, g, at which the misfit first falls to `most`, on a straight line between two of the profile in the logarithm. */
function passage(profile: readonly Fit[], most: number): number {
  const k = profile.findIndex(({ cost }) => cost <= most);
  const [a, b] = [profile[k - 1], profile[k]!];
  if (!a) return b.guess.store;
  const share = (most - b.cost) / (a.cost - b.cost);
  return b.guess.store * (a.guess.store / b.guess.store) ** share;
}

/** 1 less the squared errors over the squared movement about the middle; a rear that hardly moves is explained by staying so. */
function explainedBy(rig: Rig, { at, volts }: Rows, best: Fit): number {
  const course = rearCourse(rig, best.guess);
  const middle = Float64Array.from(volts).sort()[volts.length >> 1]!;
  let errors = 0;
  let movement = 0;
  for (let k = 0; k < at.length; k++) {
    errors += (volts[k]! - course[at[k]!]!) ** 2;
    movement += (volts[k]! - middle) ** 2;
  }
  const calm = leastMovement ** 2 * at.length;
  return Math.max(0, 1 - errors / Math.max(movement, calm));
}

/** A rear that moves less than this, V r.m.s., is calm. */
const leastMovement = 0.12;
