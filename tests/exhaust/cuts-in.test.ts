import { describe, expect, test } from "vitest";
import { table } from "../../src/command/table.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { cutsIn, cutsInWords } from "../../src/exhaust/lift-offs/cuts-in.ts";
import type { LiftOff } from "../../src/exhaust/terms/analysis.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import { openBytes } from "../capture/open.ts";
import { textOf } from "../logs/delays.ts";
import { logged, logOf } from "../logs/log.ts";
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

describe("fuel cuts within a span", () => {
  test("are counted as far as they lie in it; those taken out by hand or not shown to be any are none", () => {
    const all = [
      cut(10, 15),
      cut(28, 34),
      cut(50, 60),
      cut(20, 22, { fuelCut: "unknown" }),
      cut(24, 26, { setAside: "hand" }),
    ];
    expect(cutsIn(all, { from: 12, to: 30 })).toEqual({ count: 2, seconds: 5 });
    expect(cutsInWords(cutsIn(all, { from: 12, to: 30 }))).toMatch(/^2 fuel cuts in it, 5\s?s/);
    expect(cutsInWords(cutsIn(all, { from: 36, to: 40 }))).toBe("");
  });

  test("are said beside the ratios of the whole", async () => {
    const legs: Leg[] = [
      { kind: "idle", seconds: 20 },
      { kind: "cruise", seconds: 40 },
      { kind: "pull", seconds: 5 },
      { kind: "closing", seconds: 8 },
      { kind: "cruise", seconds: 25 },
    ];
    const next = random(3);
    const rule = { rows: 10, channels: logged, turn: 1, between: "held", jitter: 0, noise: 0.004, quantum: 0 } as const;
    const text = textOf(logOf(drive(someCar(next, 0.5), legs, 3), rule, next), rule);
    const read = await openBytes(new TextEncoder().encode(text), {});
    if (!read.ok) throw new Error(read.problem.what);
    const analysis = analyse(read.value, { bank: 1 });
    expect(analysis.wholeCuts.count).toBe(1);
    // Fuel is cut from the closed throttle to its opening 8 s later; the gas needs up to 1 s to the sensor and back.
    expect(analysis.wholeCuts.seconds).toBeGreaterThan(7);
    expect(analysis.wholeCuts.seconds).toBeLessThan(10);
    expect(table(read.value, analysis)).toMatch(/^Rear over front, whole recording: 1 fuel cut in it/m);
  });
});
