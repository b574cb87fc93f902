// Bounds of a lag hold the lag that was put in, whatever noise lies on either channel: closed-form courses, told later by a
// known time. (Noise on the earlier channel alone once made them twenty times too narrow.)

import { describe, expect, test } from "vitest";
import { type Random, seededRandom } from "../../sample-traces/simulator/random.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { ofTrials } from "../share.ts";

const trials = ofTrials(60, 120);
/** 95 % wanted; of 120 trials at 95 % fewer than 106 hold in 0.1 % of cases, of 60 fewer than 51 in 0.1 % (binomial). */
const least = ofTrials(51, 106);

type Course = (t: number) => number;

function sampled(course: Course, noise: () => number, rate: number): Series {
  const samples = Float64Array.from({ length: 12 * rate }, (_, i) => course(i / rate) + noise());
  return { time: { kind: "even", start: 0, step: 1 / rate, count: samples.length }, samples };
}

const white = (random: Random, deviation: number) => () => deviation * random.normal();

/** First-order noise: one that remembers itself for `memory` s. */
function wandering(random: Random, deviation: number, memory: number, rate: number) {
  const kept = Math.exp(-1 / (memory * rate));
  let value = 0;
  return () => {
    value = kept * value + deviation * Math.sqrt(1 - kept * kept) * random.normal();
    return value;
  };
}

/** Repeats each draw, as a recorder does that asks less often than it writes. */
function repeating(draw: () => number, times: number) {
  let [value, count] = [0, 0];
  return () => {
    if (count++ % times === 0) value = draw();
    return value;
  };
}

const none = () => 0;
const corners = [
  [0, 2500],
  [3, 2520],
  [4, 4000],
  [5, 2000],
  [8, 2600],
  [12, 2610],
] as const;

/** Engine speed over a lift-off, 1/min: straight lines between the corners. */
const speed: Course = (t) => {
  const i = Math.max(
    1,
    corners.findIndex(([time]) => t <= time),
  );
  const [[from, low], [to, high]] = [corners[i - 1]!, corners[i]!];
  return low + ((high - low) * (Math.max(0, t) - from)) / (to - from);
};
const sine: Course = (t) => Math.sin(6 * t);

interface Case {
  readonly course: Course;
  readonly rate: number;
  readonly noise: (random: Random) => readonly [earlier: () => number, later: () => number];
}

const cases: Readonly<Record<string, Case>> = {
  "noise on both, each value written three times": {
    ...{ course: speed, rate: 1000 },
    noise: (random) => [repeating(white(random, 10), 3), repeating(white(random, 10), 3)],
  },
  "noise on the earlier alone": { course: speed, rate: 1000, noise: (random) => [white(random, 10), none] },
  "noise on the later alone": { course: speed, rate: 1000, noise: (random) => [none, white(random, 10)] },
  "noise that remembers": {
    ...{ course: speed, rate: 200 },
    noise: (random) => [wandering(random, 10, 0.1, 200), wandering(random, 10, 0.1, 200)],
  },
  "a sine in little noise": { course: sine, rate: 200, noise: (random) => [white(random, 0.1), white(random, 0.1)] },
  "a sine as large as its noise": {
    ...{ course: sine, rate: 200 },
    noise: (random) => [white(random, 0.7), white(random, 0.7)],
  },
  "a polled sine": { course: sine, rate: 10, noise: (random) => [white(random, 0.02), white(random, 0.02)] },
};

describe("bounds of a lag hold it", () => {
  test.each(Object.entries(cases))("%s", (_, { course, rate, noise }) => {
    let held = 0;
    for (let seed = 1; seed <= trials; seed++) {
      const random = seededRandom(seed);
      const truth = random.uniform(-0.3, 0.3);
      const [earlier, later] = noise(random);
      const { lag } = lagBetween(
        sampled(course, earlier, rate),
        sampled((t) => course(t - truth), later, rate),
        { most: 0.5 },
      );
      if (lag.low !== null && lag.high !== null && lag.low <= truth && truth <= lag.high) held++;
    }
    expect(held).toBeGreaterThanOrEqual(least);
  });
});

// Cramér-Rao: of a delay known courses have in white noise, deviation = noise / sqrt(sum of slope²); here 0.127 ms.
test("and are no wider than they need be, where only the later one is noisy", () => {
  const widths = Array.from({ length: 40 }, (_, seed) => {
    const random = seededRandom(seed);
    const late = sampled((t) => speed(t - 0.1), white(random, 10), 1000);
    const { lag } = lagBetween(sampled(speed, none, 1000), late, { most: 0.5 });
    return lag.high! - lag.low!;
  }).sort((a, b) => a - b);
  expect(widths[20]!).toBeLessThan(2 * 3.92 * 0.000127);
});
