// A car run forward, against closed forms: oxygen of the air that is drawn fills the store, and the rear falls once it is full.

import { expect, test } from "vitest";
import { costOf, taskOf } from "../../src/exhaust/store/descent.ts";
import { driveBeside, rearCourse } from "../../src/exhaust/store/forward.ts";
import { misfitOf, rowsOf } from "../../src/exhaust/store/misfit.ts";
import { fuel, type StoreRecord } from "../../src/exhaust/store/record.ts";
import { rigOf } from "../../src/exhaust/store/rig.ts";
import { type Unknown, usualGuess } from "../../src/exhaust/store/unknowns.ts";
import type { Guess } from "../../src/exhaust/terms/store-study.ts";

const step = 0.01;
const count = 2000;
const cutAt = 10;
/** g/s */
const flow = 6;
/** g/s of oxygen in that: 23.14 % of air by mass. */
const oxygen = 0.2314 * flow;

/** A loop in perfect balance for ten seconds, then a fuel cut; a rear that showed `shown` V all along. */
function recordWith(shown: number): StoreRecord {
  const front = { lean: new Float64Array(count), isWide: false, low: 0.03 };
  return {
    grid: { from: 0, step, count },
    flow: new Float64Array(count).fill(flow),
    front,
    rule: Uint8Array.from({ length: count }, (_, i) => (i * step < cutAt ? fuel.loop : fuel.cut)),
    rear: Float64Array.from({ length: count }, (_, i) => (i % 100 === 0 ? 0.9 : i % 100 === 1 ? 0.05 : shown)),
    weight: new Float64Array(count).fill(1),
    row: step,
    skew: 0,
    trimSwing: null,
    cuts: [[cutAt / step, count]],
  } as unknown as StoreRecord;
}

/** Nothing hides the store: hardly any gas on the way, a quick sensor, air that comes at once, a store that lets go only when full. */
const plain: Guess = {
  ...{ ...usualGuess(false), tilt: 0, sag: 0, deep: 0, sharp: 48 },
  ...{ gas: 0.05, lag: 0.01, mixing: 0.005, skew: 0 },
};

/** s from the cut to the fall through 0.45 V. A loop in balance keeps the store half full. */
function fallAfter(changes: Partial<Guess>): number {
  const course = rearCourse(rigOf(recordWith(0.7)), { ...plain, ...changes });
  return course.findIndex((volts, i) => i * step >= cutAt && volts < 0.45) * step - cutAt;
}

test.each([0.5, 1, 2])(
  "a store of %d g that is half full lets go after what it takes until so much of it passes",
  (store) => {
    // A share f^48 of what comes passes when f is full; the sensor's step, 0.75 of the range at rest, is half done at 0.0022: f = 0.88.
    const filled = 0.0022 ** (1 / 48) - 0.5;
    expect(Math.abs(fallAfter({ store }) - (filled * store) / oxygen)).toBeLessThan(0.03 * store + 2 * step);
  },
);

test("what lies deep and is reached slowly does not hold on in a cut; what is reached quickly does", () => {
  const [all, half] = [fallAfter({ store: 1 }), fallAfter({ store: 0.5 })];
  expect(fallAfter({ store: 1, deep: 0.5, seep: 1000 })).toBeCloseTo(half, 2);
  const quickly = fallAfter({ store: 1, deep: 0.5, seep: 0.1 });
  expect(quickly).toBeGreaterThan(half + 2 * step);
  expect(quickly).toBeLessThan(all);
});

test("oxygen that seeped into the depth is there again for the next cut", () => {
  const again = recordWith(0.7);
  // Two cuts of 0.25 s, each more than what lies near takes; balanced in between for five times as long as seeping takes.
  again.rule.fill(fuel.loop, cutAt / step);
  for (const at of [10, 15]) again.rule.fill(fuel.cut, at / step, (at + 0.25) / step);
  const lowestIn = (guess: Guess, at: number) =>
    Math.min(...rearCourse(rigOf(again), guess).subarray(at / step, (at + 0.4) / step));
  const shallow = { ...plain, store: 0.4, loop: 0.001 };
  const deep = { ...plain, store: 0.8, deep: 0.5, seep: 1, loop: 0.001 };
  expect(lowestIn(shallow, 10)).toBeLessThan(0.1);
  expect(lowestIn(shallow, 15)).toBeLessThan(0.1);
  const held = (guess: Guess, at: number) =>
    rearCourse(rigOf(again), guess)
      .subarray(at / step, (at + 0.4) / step)
      .findIndex((volts) => volts < 0.45);
  expect(held(deep, 15)).toBeGreaterThan(held(shallow, 15) + 2);
});

test("the balance sways towards what the rear shows, and by no more than it may", () => {
  const level = (shown: number, sway: number) =>
    rearCourse(rigOf(recordWith(shown)), { ...plain, store: 0.05, sway })[900]!;
  expect(level(0.15, 0)).toBeCloseTo(level(0.85, 0), 6);
  expect(level(0.15, 0.5)).toBeLessThan(level(0.15, 0) - 0.1);
  expect(level(0.85, 0.5)).toBeGreaterThan(level(0.15, 0.5) + 0.1);
  expect(level(0.15, 0.05)).toBeGreaterThan(level(0.15, 0.5));
});

test("cars that are driven side by side give the courses that each gives alone, to the last bit", () => {
  const record = recordWith(0.3);
  record.rule.fill(fuel.pull, 600, 700).fill(fuel.back, 700, 750).fill(fuel.return, 750, 800);
  const changes: readonly Partial<Guess>[] = [
    { store: 0.05, sway: 0.3 },
    { deep: 0.5, seep: 2, sharp: 9, sag: 1 },
    { lag: 0.4, gas: 1 },
    { leak: 0.1, slip: 0.2, mixing: 0.1 },
    { shape: 1.3 },
    { tilt: 0.3, rich: 0.2, back: 0.1, again: 0.05, rest: 0.6 },
  ];
  const cars = changes.map((change) => ({ ...plain, ...change }));
  const together = rigOf(record);
  driveBeside(together, cars);
  for (const car of cars) expect(rearCourse(together, car).slice()).toEqual(rearCourse(rigOf(record), car));
});

test("what is unlikely beforehand counts once for every 400 rows, and once for fewer", () => {
  const rig = rigOf(recordWith(0.7));
  const rows = rowsOf(rig);
  const unlikely = [{ name: "gas", isLog: true, off: () => 3 }] as unknown as readonly Unknown[];
  const added = (countsOfAll: number) => {
    const so = { ...rows, counts: rows.counts.map(() => countsOfAll / rows.counts.length) };
    return costOf(taskOf(rig, so, unlikely), plain) - misfitOf(so, rearCourse(rig, plain));
  };
  // Three widths off: 9 for each.
  expect(added(100)).toBeCloseTo(9, 6);
  expect(added(1600)).toBeCloseTo(36, 6);
});
