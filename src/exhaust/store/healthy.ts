// The rear trace that a sound catalyst would have given on this very drive: the fitted car with a sound one in its place.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { Guess, StoreStudy } from "../terms/store-study.ts";
import { rearCourse } from "./forward.ts";
import { misfitOf, type Rows, rowsOf } from "./misfit.ts";
import { type RecordInput, recordOf } from "./record.ts";
import { type Rig, rigOf } from "./rig.ts";
import { wanderOf } from "./wander.ts";

type Stores = readonly [least: number, most: number];

/** On an even grid from `from`; V in each cell, NaN where nothing can be said: engine stopped, cold, just after a hole. */
export interface HealthyTrace {
  readonly from: Seconds;
  readonly step: Seconds;
  /** Between them the rear behind a sound catalyst would have stayed. */
  readonly low: Float32Array;
  readonly high: Float32Array;
  /** Of the car as it was fitted. */
  readonly fitted: Float32Array;
  /** g; what a sound catalyst holds. */
  readonly stores: Stores;
}

/** A catalyst holds up to this, g: a new one on a large engine. From memory. */
const largest = 3;
/** So much of a sound store is at hand in a cut, at the least: the rest lies too deep. Own choice. */
const atHand = 0.7;
/** So many sizes of store, even in the logarithm, are driven. */
const sizes = 5;
/** Lag, travel and the size of the mixture's swing may each be off by this factor either way. Own choice, on the choosing half of the first plant. */
const doubt = { lag: 1.3, gas: 1.3, loop: 1.18 } as const;
/** Beyond what the cars show: the error of the model itself, V. Own choice, as above. */
const margin = 0.07;
/** Swing of 1 - 1/lambda in closed loop where nothing recorded tells it. From memory, as in the fit. */
const usualLoop = 0.028;

/** @returns null where there is nothing to drive; see `recordOf`. */
export function healthyOf(input: RecordInput, study: StoreStudy): HealthyTrace | null {
  const record = recordOf(input);
  if (!record) return null;
  const [rig, { from, step, count }] = [rigOf(record), record.grid];
  const rows = rowsOf(rig);
  /** As the air flow was taken: it may be off. */
  const stores = [(atHand * input.limits.soundStore) / study.airDoubt, largest * study.airDoubt] as const;
  const cars = soundCars(rig, rows, study.best.guess, stores);
  const wander = wanderOf(record, rearCourse(rig, nearest(rig, rows, cars)));
  const [low, high] = [new Float32Array(count).fill(Infinity), new Float32Array(count).fill(-Infinity)];
  for (const car of cars.flatMap(doubted)) {
    const course = rearCourse(rig, car);
    for (let i = 0; i < count; i++) {
      low[i] = Math.min(low[i]!, course[i]!);
      high[i] = Math.max(high[i]!, course[i]!);
    }
  }
  const isSeen = (i: number) => record.weight[i]! > 0;
  return {
    from,
    step,
    low: low.map((volts, i) => (isSeen(i) ? volts + wander[i]! - margin : NaN)),
    high: high.map((volts, i) => (isSeen(i) ? volts + wander[i]! + margin : NaN)),
    fitted: Float32Array.from(rearCourse(rig, study.best.guess), (volts, i) => (isSeen(i) ? volts : NaN)),
    stores: [input.limits.soundStore, largest],
  };
}

type Levels = Pick<Guess, "rest" | "tilt" | "sag" | "sharp">;

/** What sound catalysts keep to, whatever the recorded rear did. From memory. */
const kept: { readonly [K in keyof Levels]: readonly [number, number] } = {
  rest: [0.5, 0.95],
  tilt: [-0.4, 0.15],
  sag: [0, 1],
  sharp: [8, 32],
};
/** First variations of each, halved from round to round. */
const steps: Levels = { rest: 0.2, tilt: 0.2, sag: 0.6, sharp: 8 };
const rounds = 3;

/**
 * Of each size the one whose levels are most like the recorded rear's: where a sensor rests, and how lean the loop stands,
 * is the car's own. What the fit found of sensors and travel stays; what a worn-out catalyst cannot tell, the size of the
 * mixture's swing, is as the trims show it.
 */
function soundCars(rig: Rig, rows: Rows, guess: Guess, [least, most]: Stores): Guess[] {
  const { front, trimSwing } = rig.record;
  const isSound = guess.store >= least;
  const loop = isSound || front.isWide ? guess.loop : (trimSwing ?? usualLoop);
  let like: Guess = { ...guess, ...levelsOf(guess), loop, slip: 0, leak: 0, sway: 0, deep: isSound ? guess.deep : 0 };
  const cars = isSound ? [guess] : [];
  for (let k = 0; k < sizes; k++) {
    like = levelled(rig, rows, { ...like, store: least * (most / least) ** (k / (sizes - 1)) });
    cars.push(like);
  }
  return cars;
}

const names = Object.keys(kept) as (keyof Levels)[];
const within = (name: keyof Levels, value: number) => Math.max(kept[name][0], Math.min(value, kept[name][1]));
const levelsOf = (guess: Guess) => Object.fromEntries(names.map((name) => [name, within(name, guess[name])]));

/** Each level in turn is varied either way, in smaller and smaller steps, as long as that brings the course nearer to the rows. */
function levelled(rig: Rig, rows: Rows, start: Guess): Guess {
  let [guess, cost] = [start, misfitOf(rows, rearCourse(rig, start))];
  for (let round = 0; round < rounds; round++) {
    for (const name of names) {
      for (const way of [1, -1]) {
        const other = { ...guess, [name]: within(name, guess[name] + (way * steps[name]) / 2 ** round) };
        const its = misfitOf(rows, rearCourse(rig, other), cost);
        if (its < cost) [guess, cost] = [other, its];
      }
    }
  }
  return guess;
}

function nearest(rig: Rig, rows: Rows, cars: readonly Guess[]): Guess {
  const costs = cars.map((car) => misfitOf(rows, rearCourse(rig, car)));
  return cars[costs.indexOf(Math.min(...costs))]!;
}

/** The car itself, and with each of what is doubted at either end. */
const doubted = (car: Guess): Guess[] => [
  car,
  ...(["lag", "gas", "loop"] as const).flatMap((name) => [
    { ...car, [name]: car[name] * doubt[name] },
    { ...car, [name]: car[name] / doubt[name] },
  ]),
];
