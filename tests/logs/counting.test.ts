// What a log of 5 to 14 rows a second lets be counted: the truth is that of the drive in steps of 4 ms.

import { describe, expect, test } from "vitest";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import { noiseOf, sureNoiseOf } from "../../src/signal/statistics/noise.ts";
import { capture, rows } from "../exhaust/make.ts";
import { type Random, random } from "../reference/recorders.ts";
import { type LogRule, logOf } from "./log.ts";
import { type Drive, drive, someCar, somePlan } from "./plant.ts";

const stores = [0.005, 0.03, 0.1, 0.5, 1.5];
const warm = 20;

function someDrive(number: number): Drive {
  const next = random(9000 + number);
  return drive(someCar(next, stores[number % stores.length]!), somePlan(next, 1), number);
}

const someRule = (next: Random, noise: number): LogRule => ({
  rows: next.between(5, 14),
  channels: ["front", "rear"],
  turn: 1,
  between: "held",
  jitter: 0.1 * next.uniform(),
  noise,
  quantum: next.uniform() < 0.3 ? 0 : next.between(0.001, 0.02),
});

/** Passages from one side of 0.45 V ± h to the other. */
function passages(samples: Float64Array, h: number): number {
  let [side, count] = [0, 0];
  for (const sample of samples) {
    const now = sample > 0.45 + h ? 1 : sample < 0.45 - h ? -1 : 0;
    if (now !== 0 && now === -side) count++;
    if (now !== 0) side = now;
  }
  return count;
}

describe("counting in a slow log", () => {
  test("holds the true ratio of crossings in 95 % of logs", () => {
    let [held, told] = [0, 0];
    for (let k = 0; k < 30; k++) {
      const made = someDrive(k);
      const next = random(k);
      const noise = k % 3 === 0 ? 0 : 0.015 * next.uniform();
      const rule = someRule(next, noise);
      const { stamps, columns } = logOf(made, rule, next);
      const doubt = { early: 1 / rule.rows, late: 0 };
      const part = (role: "front-o2" | "rear-o2", name: string) => rows(role, [...stamps], [...columns[name]!], doubt);
      const recorded = capture(part("front-o2", "front"), part("rear-o2", "rear"));
      const to = stamps[stamps.length - 1]!;
      const { crossingRatio } = measurePair(recorded, 1, { from: warm, to }).activity!;
      if (crossingRatio.grade === "not-resolvable") continue;
      const h = Math.max(0.05, 4 * noise);
      const counted = (trace: Float64Array) => passages(trace.subarray(warm / made.step), h);
      const truth = counted(made.rear) / counted(made.front);
      told++;
      if (crossingRatio.low! <= truth && truth <= crossingRatio.high!) held++;
    }
    expect(told).toBeGreaterThan(12);
    // 95 % of 12 to 30, less what chance takes (binomial, one in a hundred).
    expect(held).toBeGreaterThanOrEqual(told - 4);
  });

  test("never takes a switching sensor for noise", () => {
    for (let k = 0; k < 12; k++) {
      const next = random(100 + k);
      const { columns } = logOf(someDrive(k), someRule(next, 0), next);
      expect(4 * sureNoiseOf(columns.front!)).toBeLessThan(0.1);
      expect(noiseOf(columns.front!)).toBeLessThan(0.05);
    }
  });

  test("still knows the noise of what rests", () => {
    const next = random(5);
    const rest = Float64Array.from({ length: 600 }, (_, i) => 0.7 + 0.02 * Math.sin(i / 40) + 0.03 * next.normal());
    // Deviation of the estimate with 600 samples, from differences of order 2: about 5 %.
    expect(sureNoiseOf(rest)).toBeGreaterThan(0.026);
    expect(sureNoiseOf(rest)).toBeLessThan(0.034);
  });
});
