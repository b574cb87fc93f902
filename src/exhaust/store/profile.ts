// How well the best car with each size of store explains the recording: everything else about the car is fitted anew.

import type { Fit, Guess } from "../terms/store-study.ts";
import { costOf, descend, type Task, taskOf } from "./descent.ts";
import { driveBeside } from "./forward.ts";
import type { Rows } from "./misfit.ts";
import type { Rig } from "./rig.ts";
import { unknownsOf, usualGuess } from "./unknowns.ts";

/** Stores looked at, g: even in the logarithm, 0.01 to 5. */
export const stores: readonly number[] = Array.from({ length: 15 }, (_, k) => 0.01 * 500 ** (k / 14));

/** Places on `stores` from which the rest is reached: dead, worn, sound. */
const anchors = [3, 8, 11] as const;

/** A start that is so many times as bad as what is known is not gone on from. */
const hopeless = 1.5;

/** Dull with a slow sensor, sharp with a quick one: what is between is reached from either. */
const starts = [
  { sharp: 4, lag: 0.2 },
  { sharp: 24, lag: 0.06 },
] as const;

/** The profile: the best fit for each store, bettered from the fits of its neighbours. */
export function profileOf(rig: Rig, rows: Rows, leaks: readonly number[] = [0]): Fit[] {
  const task = taskOf(rig, rows, unknownsOf(rig, leaks));
  const best: Fit[] = new Array(stores.length);
  /** What was offered for each store before: the same leads to the same again. */
  const offered = stores.map(() => new Set<Guess>());
  const offer = (k: number, guess: Guess, rounds: number) => {
    if (offered[k]!.has(guess)) return;
    offered[k]!.add(guess);
    const start = { ...guess, store: stores[k]! };
    if (best[k] && costOf(task, start, hopeless * best[k]!.cost + 10) === Infinity) return;
    const fit = descend(task, start, rounds);
    if (!best[k] || fit.cost < best[k]!.cost) best[k] = fit;
  };
  const usual = usualGuess(rig.record.front.isWide);
  for (const k of anchors) {
    for (const start of starts) offer(k, fromLists(task, { ...usual, ...start, store: stores[k]! }), 8);
  }
  const last = stores.length - 1;
  for (let k = anchors[0] - 1; k >= 0; k--) offer(k, best[k + 1]!.guess, 3);
  for (let k = anchors[0] + 1; k <= last; k++) offer(k, best[k - 1]!.guess, 3);
  for (let k = last - 1; k >= 0; k--) offer(k, best[k + 1]!.guess, 2);
  for (let k = 1; k <= last; k++) offer(k, best[k - 1]!.guess, 2);
  return best;
}

/** Leaks between the sensors that are tried, g/s. */
const leaks = [0.02, 0.06, 0.15] as const;
/** Sound stores that are tried with a leak, g. */
const sound = [0.5, 1.5] as const;

/** The best fit of a sound catalyst, however small its store, with air that leaks in behind it. */
export function leakFit(rig: Rig, rows: Rows): Fit {
  const task = taskOf(rig, rows, unknownsOf(rig, leaks));
  const start = { ...usualGuess(rig.record.front.isWide), leak: leaks[1] };
  const fits = sound.map((store) => descend(task, fromLists(task, { ...start, store }), 8));
  return fits.reduce((least, one) => (one.cost < least.cost ? one : least));
}

/** Each unknown in turn takes the best of its listed values, twice. */
function fromLists(task: Task, start: Guess): Guess {
  let [guess, cost] = [start, costOf(task, start)];
  for (let round = 0; round < 2; round++) {
    for (const { name, values } of task.unknowns) {
      const others = values.filter((value) => value !== guess[name]).map((value) => ({ ...guess, [name]: value }));
      driveBeside(task.rig, others);
      for (const other of others) {
        const its = costOf(task, other, cost);
        if (its < cost) [guess, cost] = [other, its];
      }
    }
  }
  return guess;
}

/** The best fit near `best` with a rear sensor no slower than `lag`, s: whether a quick one explains the recording as well. */
export function quickFit(rig: Rig, rows: Rows, best: Fit, lag: number): Fit {
  const plain = unknownsOf(rig, [0]);
  const unknowns = plain.map((one) => (one.name === "lag" ? { ...one, high: lag, values: [lag / 2, lag] } : one));
  const task = taskOf(rig, rows, unknowns);
  const { store } = best.guess;
  const fits = [store, store * 1.4, store / 1.4].map((grams) => descend(task, { ...best.guess, store: grams, lag }, 5));
  return fits.reduce((least, one) => (one.cost < least.cost ? one : least));
}
