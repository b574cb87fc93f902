// The fleet is what its labels say, the same each time, and its two halves share nothing.

import { describe, expect, test } from "vitest";
import {
  drawCar,
  drawFleet,
  drawKind,
  type FleetKind,
  fleetCounts,
  fleetKinds,
  simulate,
} from "../../sample-traces/simulator/fleet.ts";
import { countOf } from "../../src/signal/series/series.ts";

const run = (kind: FleetKind, seed: number) => {
  const spec = drawKind(kind, seed, "judge");
  return { spec, ...simulate(spec) };
};
/** Falls of the front while it idles or cruises, per stretch. */
const cycles = ({ truth }: ReturnType<typeof run>) =>
  truth.stretches
    .filter(({ kind }) => kind === "cruise")
    .map(({ from, to }) => truth.frontFalls.filter((t) => t >= from && t < to).length);

describe("fleet", () => {
  test("holds enough of each kind, and draws them all", () => {
    const drawn = [...drawFleet("judge")];
    for (const kind of fleetKinds) expect(drawn.filter((car) => car.kind === kind)).toHaveLength(fleetCounts[kind]);
    expect(drawn.filter((car) => car.fit && car.catalyst === "healthy").length).toBeGreaterThanOrEqual(250);
    expect(drawn.filter((car) => car.fit && car.catalyst === "dead").length).toBeGreaterThanOrEqual(250);
    expect(drawn.length).toBeGreaterThanOrEqual(800);
  });

  test("draws the same car for the same seed, and never one car for both halves", () => {
    expect(drawCar(7, "choose")).toEqual(drawCar(7, "choose"));
    const cars = (split: "choose" | "judge") => Array.from({ length: 200 }, (_, seed) => drawCar(seed, split).car.seed);
    const chosen = new Set(cars("choose"));
    expect(chosen.size).toBe(200);
    expect(cars("judge").filter((seed) => chosen.has(seed))).toEqual([]);
  });

  test("judges wider than it chooses", () => {
    const spread = (split: "choose" | "judge") => {
      const slow = Array.from({ length: 300 }, (_, seed) => drawKind("lazy-rear", seed, split).car.rear.richToLean);
      return Math.max(...slow) / Math.min(...slow);
    };
    expect(spread("judge")).toBeGreaterThan(spread("choose") * 1.2);
  });

  test("records the same capture for the same car", () => {
    const [once, again] = [run("too-short", 3), run("too-short", 3)];
    expect(once.capture).toEqual(again.capture);
    expect(once.capture.channels[0]!.series.samples.some((v) => v > 0.1)).toBe(true);
  });

  test.each(["healthy", "dead"] as const)("of a %s and fit car shows 20 front cycles and valid lift-offs", (kind) => {
    const one = run(kind, 11);
    expect(one.spec.fit).toBe(true);
    expect(Math.max(...cycles(one))).toBeGreaterThanOrEqual(20);
    expect(one.truth.liftOffs.length).toBeGreaterThanOrEqual(2);
    for (const { delay, oxygenPassed, storedBefore } of one.truth.liftOffs) {
      expect(delay).not.toBeNull();
      expect(storedBefore).toBeLessThan(0.1 * one.truth.catalystCapacity);
      if (kind === "healthy") expect(oxygenPassed!).toBeGreaterThan(0.8 * one.truth.catalystCapacity);
    }
  });

  test("tells a front wave that a slow sensor rounds, and a rear that sleeps at its bias", () => {
    const asleep = run("rear-asleep", 5);
    const rear = asleep.capture.channels.find(({ role }) => role === "rear-o2")!.series.samples;
    const { bias } = asleep.spec.car.rear;
    expect(asleep.truth.rearAwakeAt).toBeNull();
    expect(rear.every((v) => Math.abs(v - bias) < 0.1)).toBe(true);
    expect(drawKind("slow-front", 5, "judge").car.front.richToLean).toBeGreaterThan(0.15);
  });

  test("polls two to five rows a second, each value up to a row old unless it has its own stamp", () => {
    const specs = Array.from({ length: 40 }, (_, seed) => drawKind("polled-too-slow", seed, "choose"));
    for (const ownStamps of [true, false]) {
      const { capture } = simulate(specs.find((spec) => spec.ownStamps === ownStamps)!);
      const { time } = capture.channels[0]!.series;
      if (time.kind !== "stamped") throw new TypeError("polled rows carry stamps");
      const rate = (countOf(time) - 1) / (time.stamps.at(-1)! - time.stamps[0]!);
      expect(rate).toBeGreaterThan(1.9);
      expect(rate).toBeLessThan(5.1);
      if (ownStamps) expect(time.doubt).toBeUndefined();
      else expect(time.doubt!.early * rate).toBeCloseTo(1, 1);
      expect(capture.channels[0]!.polled).toBe(!ownStamps);
    }
  });
});
