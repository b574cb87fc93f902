// Where fuel was cut, on hand-made courses: what the front shows of a cut while the engine pulls again is no pure air.

import { expect, test } from "vitest";
import { lineInCells } from "../../src/exhaust/store/cells.ts";
import { frontSays } from "../../src/exhaust/store/front.ts";
import { type FuelRules, fuelRules } from "../../src/exhaust/store/fuel-rules.ts";
import type { Awakening } from "../../src/exhaust/terms/analysis.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { capture, even, square } from "./make.ts";

const seconds = 60;
const rate = 50;
const grid = { from: 0, step: 1 / rate, count: seconds * rate };

type Course = (t: number) => number;

interface Drive {
  readonly front: Course;
  readonly throttle: Course;
  readonly speed: Course;
  readonly flow: Course;
}

function rulesOf({ front, throttle, speed, flow }: Drive): FuelRules {
  const made = capture(
    even("front-o2", seconds, rate, front),
    even("throttle", seconds, rate, throttle),
    even("engine-speed", seconds, rate, speed),
    even("air-flow", seconds, rate, flow),
  );
  const channels = channelsOf(made, 1);
  const said = frontSays(channels, { kind: "narrow-band" } as Awakening, grid)!;
  const [turns, air] = [channels.engineSpeed, channels.airFlow].map((one) => lineInCells(one!.series, grid));
  return fuelRules({ channels, grid, front: said, speed: turns!, flow: air!, limits: limitsInForce() });
}

/** Seconds from which to which fuel was cut. */
const cutsOf = (drive: Drive): number[][] =>
  rulesOf(drive).cuts.map(([from, to]) => [from, to].map((cell) => Math.round(cell * grid.step * 10) / 10));

const within = (t: number, from: number, to: number): boolean => t >= from && t < to;
const loop = square(1, 0.6);

/** An overrun from 20 s to 26 s, after a pull. */
const overrun = (t: number): boolean => within(t, 20, 26);
const base: Drive = {
  front: (t) => (overrun(t) ? 0.02 : loop(t)),
  throttle: (t) => (overrun(t) ? 2 : 18),
  speed: (t) => (overrun(t) ? 3200 - 300 * (t - 20) : 2400),
  flow: (t) => (overrun(t) ? 3 : 12),
};

test("an overrun is one cut, though the air for each turn grows as the engine slows down behind its throttle", () => {
  expect(cutsOf(base)).toEqual([[20, 26]]);
});

test("an engine without a throttle draws less for each second as it slows down: that ends no cut", () => {
  const flow: Course = (t) => base.speed(t) / 200;
  expect(cutsOf({ ...base, flow })).toEqual([[20, 26]]);
});

test("a cut between two gears is none once air flows again, though the front is still lean", () => {
  const [shift, lean] = [(t: number) => within(t, 40, 40.6), (t: number) => within(t, 40.5, 42)];
  const changed: Drive = {
    ...base,
    front: (t) => (lean(t) ? 0.02 : within(t, 40, 40.5) ? 0.9 : base.front(t)),
    // A log's throttle may be so late that it seems closed in the middle of what is lean.
    throttle: (t) => (within(t, 40, 42) ? 2 : base.throttle(t)),
    flow: (t) => (shift(t) ? 1.5 : within(t, 40.6, 46) ? 30 : base.flow(t)),
  };
  expect(cutsOf(changed)).toEqual([[20, 26]]);
});

test("a pull that ends a cut in the middle of what is lean leaves what came before it", () => {
  const pulls: Drive = {
    ...base,
    front: (t) => (within(t, 20, 26.8) ? 0.02 : base.front(t)),
    throttle: (t) => (within(t, 20, 26.8) ? 2 : 18),
    speed: (t) => (within(t, 20, 26.8) ? 3200 - 300 * (t - 20) : 2400),
    flow: (t) => (t >= 26 && t < 40 ? 30 : base.flow(t)),
  };
  expect(cutsOf(pulls)).toEqual([[20, 26]]);
});

/** The loop goes on behind a closed throttle while the car rolls out, with a half-cycle of 0.7 s that is lean as any. */
const rollsOut = (lean: number): Drive => ({
  ...base,
  front: (t) => (within(t, 44.2, 44.9) ? lean : within(t, 43, 50) ? 0.9 : base.front(t)),
  throttle: (t) => (within(t, 43, 50) ? 2 : base.throttle(t)),
  speed: (t) => (within(t, 43, 50) ? 2400 - 200 * (t - 43) : base.speed(t)),
  flow: (t) => (within(t, 43, 50) ? 4 : base.flow(t)),
});

test("a short lean spell behind a closed throttle is a cut where the front reads as low as in a sure one", () => {
  expect(cutsOf(rollsOut(0.02))).toEqual([
    [20, 26],
    [44.2, 44.9],
  ]);
});

test("… and the loop's own where it reads as high as in the loop's lean half-cycles", () => {
  const leanest = Math.min(...Array.from({ length: 500 }, (_, i) => loop(i / 50)));
  expect(leanest).toBeGreaterThan(0.06);
  expect(cutsOf(rollsOut(leanest))).toEqual([[20, 26]]);
});

test("an engine that opens its throttle while fuel is cut has its fuel cut all the same, as long as it slows down", () => {
  const pedal = (t: number) => (overrun(t) ? 14 : within(t, 50, 53) ? 60 : within(t, 0, 10) ? 2 : 18);
  const opens = { ...base, throttle: pedal };
  expect(cutsOf({ ...opens, flow: (t) => (overrun(t) ? (t < 20.4 ? 3 : 12) : base.flow(t)) })).toEqual([[20, 26]]);
  expect(cutsOf({ ...opens, speed: () => 2400 })).toEqual([]);
});
