// The rear voltage that a catalyst with a given store would have given, for what the front showed.

import type { Guess } from "../terms/store-study.ts";
import { leaveCatalysts } from "./catalyst.ts";
import { type Rig, shapeFlow } from "./rig.ts";

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

const leavesAlike = (a: Guess, b: Guess): boolean => a === b || leaving.every((name) => a[name] === b[name]);

/**
 * Drives several cars up to where the gas leaves the catalyst: together in far less time than one after the other. `rearCourse`
 * of each of them has that behind it, until others are driven.
 */
export function driveBeside(rig: Rig, guesses: readonly Guess[]): void {
  const shape = guesses[0]?.shape ?? rig.shape;
  shapeFlow(rig, shape);
  const cars: Guess[] = [];
  for (const guess of guesses)
    if (Object.is(guess.shape, shape) && !cars.some((one) => leavesAlike(one, guess))) cars.push(guess);
  const { length } = rig.flow;
  if (rig.room.length < cars.length * length) rig.room = new Float64Array(cars.length * length);
  rig.left = cars.map((guess, k) => ({ guess, target: rig.room.subarray(k * length, (k + 1) * length) }));
  leaveCatalysts(rig, cars, rig.room);
}

function targetOf(rig: Rig, guess: Guess): Float64Array {
  const known = rig.left.find((one) => leavesAlike(one.guess, guess));
  if (known) return known.target;
  driveBeside(rig, [guess]);
  return rig.left[0]!.target;
}

/** The rear's course in V, one value for each cell; kept in `rig.course` until the next call. */
export function rearCourse(rig: Rig, guess: Guess): Float64Array {
  const target = targetOf(rig, guess);
  shapeFlow(rig, guess.shape);
  const { step } = rig.record.grid;
  const { course } = rig;
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
