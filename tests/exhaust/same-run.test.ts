// Two recorders on one simulated run: the shift between them is known from the truth beside the samples.

import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { blobSource } from "../../src/capture/bytes/sources.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { type RunPair, shiftOfRun } from "../../src/exhaust/lining-up/same-run.ts";
import { bestOverlay } from "../../src/signal/likeness/overlay.ts";
import { within } from "../../src/signal/series/reel.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { usualStep } from "../../src/signal/series/usual-step.ts";
import { samplePath, truthOf } from "../e2e/steps.ts";
import { even, rows } from "./make.ts";

async function channelsOf(file: string) {
  const source = blobSource(new Blob([readFileSync(samplePath(file))]), file);
  return (await readCapture(source, {}, { progress: () => {}, signal: new AbortController().signal })).channels;
}

/** Shared channels of a scope capture and a polled log of one drive, and the shift that is true. */
async function runOf(name: string): Promise<{ readonly pairs: readonly RunPair[]; readonly truth: number }> {
  const [mine, theirs] = [await channelsOf(`${name}-scope.csv.gz`), await channelsOf(`${name}-polled.csv`)];
  const pairs = mine.flatMap(({ role, series }) => {
    const other = role !== "other" && theirs.find((c) => c.role === role);
    return other ? [{ mine: series, theirs: other.series, name: role }] : [];
  });
  const at = (recorder: string) => truthOf(`${name}-${recorder}`).liftOffs[0]!.at;
  return { pairs, truth: at("scope") - at("polled") };
}

/** All of it, and parts that hold no like cycles of their own, s. */
const parts = [
  [-1, 300],
  [60, 100],
  [-1, 90],
  [100, 200],
] as const;
const names = ["good-catalyst", "dead-catalyst", "worn-catalyst", "slow-front-sensor", "leak-ahead-of-sensor"];

describe("two recordings of one run", () => {
  test.each(names)("%s: scope and polled log lie where the simulator had them, all of it or a part", async (name) => {
    const { pairs, truth } = await runOf(name);
    for (const [from, to] of parts) {
      const part = pairs.map((pair) => ({ ...pair, mine: within(pair.mine, from, to) }));
      const { shift } = shiftOfRun(part);
      expect(shift.low).toBeLessThanOrEqual(truth);
      expect(shift.high).toBeGreaterThanOrEqual(truth);
      // A value may be a row old, an edge lies anywhere in its row, and what is left of likeness.
      expect(shift.high! - shift.low!).toBeLessThan(3 * usualStep(pairs[0]!.theirs.time));
    }
  });

  test("a part that fits elsewhere as well is said to: one of three like lift-offs", async () => {
    const { pairs } = await runOf("good-catalyst");
    const part = pairs.map((pair) => ({ ...pair, mine: within(pair.mine, 150, 170) }));
    // Full throttle and release come every 17.9 s (truth of the samples); a part of the cycle may match better still.
    expect(shiftOfRun(part).ambiguousBy).toBeCloseTo(17.9, 0);
  });

  test("what has nothing in common is not lined up, and says why", () => {
    const [one, other] = [seededRandom(1), seededRandom(2)].map((draw) =>
      even("front-o2", 60, 20, () => draw.normal()),
    );
    const told = shiftOfRun([{ mine: one!, theirs: other!, name: "the fronts" }]);
    expect(told.shift.grade).toBe("not-resolvable");
    expect(told.shift.because).toMatch(/same run/);
    expect(shiftOfRun([]).shift.grade).toBe("not-resolvable");
  });
});

describe("bestOverlay", () => {
  const draw = seededRandom(5);
  /** A level of its own for each second: nothing fits but the truth. */
  const levels = Array.from({ length: 700 }, () => draw.normal());
  const steps = (t: number) => levels[Math.floor(t)]!;

  test("finds a short recording far inside a long one, rates apart and with a hole", () => {
    const long = rows("engine-speed", every(0.5, 600), every(0.5, 600).map(steps));
    const short = even("engine-speed", 30, 50, (t) => steps(t + 411));
    const holed: Series = { ...short, samples: short.samples.map((v, i) => (i > 500 && i < 700 ? NaN : v)) };
    const found = bestOverlay([[long, holed]])!;
    expect(Math.abs(found.shift - 411)).toBeLessThanOrEqual(2 * found.step);
    expect(found.ambiguousBy).toBeNull();
  });

  test("of a repeating signal it tells the period as the distance to the next", () => {
    const wave = (seconds: number) => even("front-o2", seconds, 20, (t) => Math.sin((2 * Math.PI * t) / 5));
    expect(bestOverlay([[wave(60), wave(20)]])!.ambiguousBy).toBeCloseTo(5, 1);
  });

  test("says nothing of what stands still", () => {
    const still = even("front-o2", 60, 20, () => 0.45);
    expect(bestOverlay([[still, still]])).toBeNull();
  });
});

const every = (step: number, seconds: number) => Array.from({ length: seconds / step }, (_, i) => i * step);
