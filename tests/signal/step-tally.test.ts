// Steps that come part by part are told as those in memory: longestStep and describeStamps are the judges.

import { expect, test } from "vitest";
import { longestStep } from "../../src/signal/series/gaps.ts";
import type { TimeBase } from "../../src/signal/series/series.ts";
import { StepTally } from "../../src/signal/stamps/step-tally.ts";
import { describeStamps } from "../../src/signal/stamps/time-base.ts";
import { uniform } from "./signals.ts";

function stampsWith(holes: readonly number[], jitter: number): Float64Array {
  const random = uniform(7);
  let late = 0;
  return Float64Array.from({ length: 20_000 }, (_, i) => {
    if (holes.includes(i)) late += 2;
    return 0.01 * (i + jitter * (random() - 0.5)) + late;
  });
}

/** In parts of unlike length. */
function told(stamps: Float64Array): StepTally {
  const tally = new StepTally();
  for (let from = 0, length = 1; from < stamps.length; from += length, length = 3 * length + 64) {
    const part: TimeBase = { kind: "stamped", stamps: stamps.subarray(from, from + length) };
    tally.take(part);
  }
  return tally;
}

test.each([
  ["even stamps", [], 0],
  ["stamps that jitter", [], 0.9],
  ["holes, one of them between two parts", [67, 9000], 0.5],
] as const)("%s", (_, holes, jitter) => {
  const stamps = stampsWith(holes, jitter);
  const tally = told(stamps);
  expect(tally.longest).toBe(longestStep(stamps));
  const judge = describeStamps(stamps);
  expect(tally.holes.count).toBe(judge.gaps.length);
  expect(tally.holes.where[0]?.from).toEqual(judge.gaps[0] && expect.closeTo(judge.gaps[0].from, 12)); // judged as to - step
  expect(tally.holes.where[0]?.to).toBe(judge.gaps[0]?.to);
  expect(judge.gaps.length).toBe(holes.length);
  expect(tally.rate.count).toBe(judge.rate.count);
  expect(tally.rate.value! / judge.rate.value! - 1).toBeCloseTo(0, 12);
  // The spread of the steps is known to a bin of 1/32 octave: that moves the bounds by less than a step of the whole.
  for (const side of ["low", "high"] as const)
    expect(Math.abs(tally.rate[side]! / judge.rate[side]! - 1)).toBeLessThan(0.05 / stamps.length);
});

test("even parts on one grid have its rate, and no stamps no rate", () => {
  const tally = new StepTally();
  expect(tally.longest).toBe(Number.POSITIVE_INFINITY);
  expect(tally.rate.grade).toBe("not-resolvable");
  tally.take({ kind: "even", start: 0, step: 0.25, count: 100 });
  tally.take({ kind: "even", start: 25, step: 0.25, count: 100 });
  expect(tally.holes).toEqual({ count: 0, where: [] });
  expect(tally.rate.value).toBeCloseTo(4, 12);
  tally.take({ kind: "even", start: 80, step: 0.25, count: 10 });
  expect(tally.holes).toEqual({ count: 1, where: [{ from: 49.75, to: 80 }] });
});
