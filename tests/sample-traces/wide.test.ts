// The widened draw: the same car for the same number, ranges as wide as they are said to be, and physics that closed forms know.

import { describe, expect, test } from "vitest";
import { oxygenInAir } from "../../sample-traces/simulator/gas.ts";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { recordPolled } from "../../sample-traces/simulator/recorder.ts";
import { runCar } from "../../sample-traces/simulator/run.ts";
import { drawWide, simulateWide, usableStore, wideKinds } from "../../sample-traces/simulator/wide/wide-fleet.ts";

const many = wideKinds.flatMap((kind) => Array.from({ length: 60 }, (_, k) => drawWide(kind, k)));

test("the same kind and seed make the same car, another seed another", () => {
  expect(drawWide("healthy", 4)).toEqual(drawWide("healthy", 4));
  expect(drawWide("healthy", 4).car).not.toEqual(drawWide("healthy", 5).car);
});

test.each([
  ["store, g", (car: (typeof many)[number]) => car.store, 0.025, 2.5],
  ["rear lag, s", ({ car }) => car.rear.richToLean, 0.025, 0.5],
  ["engine, l", ({ car }) => car.engine.displacement, 1.1, 3.2],
  ["coolant, degC", ({ car }) => car.engine.coolantStart, 77, 98],
  ["ground offset, V", ({ recorder }) => recorder.offset ?? 0, 0, 0.19],
  ["rear level in rich gas, V", ({ car }) => car.rear.richLevel, 0.74, 1.04],
] satisfies [string, (car: (typeof many)[number]) => number, number, number][])(
  "%s is drawn to both ends",
  (_, of, low, high) => {
    expect(Math.min(...many.filter(({ kind }) => kind !== "cold").map(of))).toBeLessThan(low + 1e-9);
    expect(Math.max(...many.map(of))).toBeGreaterThan(high);
  },
);

test("the usable store is where the share that passes reaches 1 %: capacity x 0.01^(1/n), less what slips in a step", () => {
  const { car } = drawWide("healthy", 8);
  for (const sharpness of [6, 20, 80]) {
    const catalyst = { ...car.catalyst, capacity: 1, sharpness, slip: 0, reach: 1e6 };
    expect(usableStore({ ...car, catalyst })).toBeCloseTo(0.01 ** (1 / sharpness), 2);
  }
  expect(usableStore({ ...car, catalyst: { ...car.catalyst, slip: 0.3 } })).toBe(0);
});

describe("a leak between the sensors", () => {
  const leaking = drawWide("leak-between", 2);
  const short = leaking.car.drive.slice(0, 6);
  const history = runCar({ ...leaking.car, drive: short });
  const tight = runCar({ ...leaking.car, drive: short, leaks: { ahead: 0, between: 0 } });

  test("leaves what the catalyst takes and gives alone, and makes the rear leaner", () => {
    const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(history.rearVoltage)).toBeLessThan(mean(tight.rearVoltage));
  });

  test("is gone where the flow fills the pipe", () => {
    const { fadesAt } = leaking.car.leaks.pulses!;
    const open = runCar({
      ...leaking.car,
      drive: short,
      leaks: { ahead: 0, between: 0.5, pulses: { fadesAt: 0, scatter: 0.5 } },
    });
    expect(fadesAt).toBeGreaterThan(0);
    expect(open.rearVoltage).toEqual(tight.rearVoltage);
  });
});

test("an engine stop brings no fuel and no air, and air creeps up to the sensors", () => {
  const { car } = drawWide("start-stop", 3);
  const history = runCar(car);
  const stands = history.engineSpeed.map((speed, i) => (i > 20_000 && speed < 1 ? 1 : 0));
  const first = stands.indexOf(1);
  const last = stands.indexOf(0, first) - 1;
  expect(first).toBeGreaterThan(0);
  expect(history.airFlow[last]).toBeLessThan(0.001);
  expect(history.frontVoltage[last]!).toBeLessThan(0.3);
});

test("what goes into the store and out of it is what the gas loses and gains", () => {
  const history = runCar({ ...drawWide("worn", 6).car, leaks: { ahead: 0, between: 0 } });
  const { excessIn, excessOut, airFlow, stored, step } = history;
  let moved = 0;
  for (let i = 1; i < stored.length; i++) moved += (excessIn[i]! - excessOut[i]!) * airFlow[i]! * oxygenInAir * step;
  expect(moved).toBeCloseTo(stored.at(-1)! - stored[0]!, 6);
});

describe("a log", () => {
  const history = runCar({ ...drawWide("healthy", 0).car, drive: drawWide("healthy", 0).car.drive.slice(0, 3) });
  const channels = ["frontVoltage", "rearVoltage", "engineSpeed", "airFlow"] as const;
  const spec = { kind: "polled", requestsPerSecond: 12, jitter: 0, from: 0, to: 5, channels, missed: 0 } as const;

  test("that writes a row with each answer renews one column in a row", () => {
    const { columns, stamps } = recordPolled(history, { ...spec, writes: "each-answer" }, seededRandom(1));
    const renewed = (c: number, row: number) => columns[c]!.taken![row] !== columns[c]!.taken![row - 1];
    for (let row = 2; row < stamps.length; row++) {
      expect(channels.filter((_, c) => renewed(c, row)).length).toBe(1);
    }
  });

  test("that writes by its own clock repeats what is not asked again, and never shows what is yet to come", () => {
    const { columns, stamps } = recordPolled(history, { ...spec, writes: 10 }, seededRandom(1));
    for (const { taken } of columns)
      for (const [row, at] of taken!.entries()) expect(at).toBeLessThanOrEqual(stamps[row]!);
    expect(new Set(columns[0]!.taken).size).toBeLessThan(stamps.length / 2);
  });
});

test("every run tells its truth", () => {
  const { truth, recording } = simulateWide(drawWide("dead", 0));
  expect(truth.store).toBeLessThanOrEqual(0.08);
  expect(truth.usable).toBeLessThanOrEqual(truth.store);
  expect(truth.largestOffer).toBeGreaterThan(0);
  expect(recording.columns.length).toBeGreaterThan(2);
});
