import { describe, expect, test } from "vitest";
import { table } from "../../src/command/table.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { cutsIn, cutsInWords } from "../../src/exhaust/lift-offs/cuts-in.ts";
import type { LiftOff } from "../../src/exhaust/terms/analysis.ts";
import { measured, notResolvable } from "../../src/signal/numbers/reading.ts";
import { openBytes } from "../capture/open.ts";
import { textOf } from "../logs/delays.ts";
import { type Logged, logged, logOf } from "../logs/log.ts";
import { drive, type Leg, someCar } from "../logs/plant.ts";
import { random } from "../reference/recorders.ts";

const cut = (at: number, until: number, more: Partial<LiftOff> = {}): LiftOff =>
  ({
    at,
    fuelReturn: measured(until, [until, until], "s"),
    frontFall: measured(at, [at, at], "s"),
    fuelCut: "likely",
    setAside: null,
    ...more,
  }) as LiftOff;

/** A log of these legs, driven by one car, and what is measured of it. */
async function driven(legs: readonly Leg[], channels: readonly Logged[] = logged) {
  const next = random(3);
  const rule = { rows: 10, channels, turn: 1, between: "held", jitter: 0, noise: 0.004, quantum: 0 } as const;
  const text = textOf(logOf(drive(someCar(next, 0.5), legs, 3), rule, next), rule);
  const read = await openBytes(new TextEncoder().encode(text), {});
  if (!read.ok) throw new Error(read.problem.what);
  return { capture: read.value, analysis: analyse(read.value, { bank: 1 }) };
}

describe("fuel cuts within a span", () => {
  test("are counted as far as they lie in it; those taken out by hand or not shown to be any are none", () => {
    const all = [
      cut(10, 15),
      cut(28, 34),
      cut(50, 60),
      cut(20, 22, { fuelCut: "unknown" }),
      cut(24, 26, { setAside: "hand" }),
    ];
    expect(cutsIn(all, { from: 12, to: 30 })).toEqual({ count: 2, seconds: 5, isOpen: false });
    expect(cutsInWords(cutsIn(all, { from: 12, to: 30 }))).toMatch(/^2 fuel cuts in it, 5\s?s/);
    expect(cutsInWords(cutsIn(all, { from: 36, to: 40 }))).toBe("");
  });

  test("are told as long as they were: neither padded, nor ended where only the recording ends", () => {
    const short = [cut(10, 10.6)];
    expect(cutsIn(short, { from: 0, to: 60 }).seconds).toBeCloseTo(0.6, 9);
    const open = [cut(100, 112, { fuelReturn: notResolvable("s", "not seen", { low: 112 }) })];
    expect(cutsInWords(cutsIn(open, { from: 0, to: 120 }))).toMatch(/^1 fuel cut in it, at least 12\s?s/);
    expect(cutsInWords(cutsIn(open, { from: 0, to: 110 }))).toMatch(/^1 fuel cut in it, 10\s?s/);
  });

  test("of a recording that ends within one last until its end", async () => {
    const legs: Leg[] = [
      { kind: "idle", seconds: 20 },
      { kind: "cruise", seconds: 40 },
      { kind: "pull", seconds: 5 },
      { kind: "closing", seconds: 8 },
    ];
    const { analysis } = await driven(legs);
    expect(analysis.wholeCuts).toMatchObject({ count: 1, isOpen: true });
    expect(analysis.wholeCuts.seconds).toBeGreaterThan(6.5);
    expect(analysis.wholeCuts.seconds).toBeLessThan(8.5);
    // Without a throttle the cut is told by the sensors alone, and the recording is overrun until it ends.
    const blind = await driven(
      legs,
      logged.filter((name) => name !== "throttle"),
    );
    const overrun = blind.analysis.stretches.filter(({ kind }) => kind === "overrun");
    expect(overrun).toHaveLength(1);
    expect(overrun[0]!.to - overrun[0]!.from).toBeGreaterThan(6.5);
  });

  test("are said beside the ratios of the whole", async () => {
    const legs: Leg[] = [
      { kind: "idle", seconds: 20 },
      { kind: "cruise", seconds: 40 },
      { kind: "pull", seconds: 5 },
      { kind: "closing", seconds: 8 },
      { kind: "cruise", seconds: 25 },
    ];
    const { capture, analysis } = await driven(legs);
    expect(analysis.wholeCuts.count).toBe(1);
    // Fuel is cut from the closed throttle to its opening 8 s later; the gas needs up to 1 s to the sensor and back.
    expect(analysis.wholeCuts.seconds).toBeGreaterThan(7);
    expect(analysis.wholeCuts.seconds).toBeLessThan(10);
    expect(table(capture, analysis)).toMatch(/^Rear over front, whole recording: 1 fuel cut in it/m);
  });
});
