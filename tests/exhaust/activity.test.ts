// Bounds of what is read of rear against front hold the truth: sines of known size, by a recorder with noise and voltage
// steps. Closed forms: the rear is `size` times the front, so amplitude and way are in that ratio, the energy at the
// front's frequency in its square, each crosses its own middle as often, and a sine about 0.45 V is rich in the first half of each cycle.

import { describe, expect, test } from "vitest";
import { seededRandom } from "../../sample-traces/simulator/random.ts";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import { ofTrials } from "../share.ts";
import { capture, even } from "./make.ts";

const whole: Span = { from: 0, to: 60 };
const trials = ofTrials(20, 40);
/** 95 % wanted; of 40 claims at 95 % fewer than 32 hold in less than 0.1 % of cases, of 20 fewer than 16 in 0.3 % (binomial). */
const least = 0.8;
/** Too few claims would be another way to fail. */
const leastClaims = trials / 2;

/** Says something of the truth: a reading without any bound holds whatever is true, and proves nothing. */
const isClaim = ({ low, high }: Reading) => low !== null || high !== null;
const holds = ({ low, high }: Reading, truth: number) =>
  (low === null || low <= truth + 1e-9) && (high === null || truth - 1e-9 <= high);

/** Of so many cycles that begin with their rich half, %. */
const richShare = (cycles: number) => (100 * (Math.floor(cycles) / 2 + Math.min(0.5, cycles % 1))) / cycles;

describe("bounds hold the truth", () => {
  test.each([
    [20, 0.0005, 0.0005],
    [20, 0.0005, 0.02],
    [20, 0.02, 0.0005],
    [500, 0.0005, 0.005],
    [500, 0.003, 0.02],
    [500, 0.02, 0.005],
  ])("%i samples/s, noise %f V, steps of %f V", (rate, noise, step) => {
    const told: Record<string, { claims: number; held: number }> = {};
    for (let seed = 1; seed <= trials; seed++) {
      const random = seededRandom(seed);
      const [frequency, size, late] = [random.uniform(0.5, 1.5), random.uniform(0.05, 0.9), random.uniform(0.02, 0.2)];
      const [swing, middle] = [random.uniform(0.25, 0.4), random.uniform(0.5, 0.6)];
      const recorded = (value: number) => step * Math.round((value + noise * random.normal()) / step);
      const wave = (t: number) => swing * Math.sin(2 * Math.PI * frequency * t);
      const { activity, sensors } = measurePair(
        capture(
          even("front-o2", 60, rate, (t) => recorded(0.45 + wave(t))),
          even("rear-o2", 60, rate, (t) => recorded(middle + size * wave(t - late))),
        ),
        1,
        whole,
      );
      const truths: readonly (readonly [string, Reading, number])[] = [
        ["amplitude ratio", activity!.amplitudeRatio, size],
        ["way", activity!.lengthRatio, size],
        ["energy", activity!.bandRatio, size ** 2],
        ["own middle", activity!.ownLevelRatio, size * swing > 0.1 ? 1 : NaN],
        ["lag", activity!.lag, late],
        ["rich share", sensors.front!.richShare, richShare(60 * frequency)],
        ["minimum", sensors.front!.minimum, 0.45 - swing],
        ["maximum", sensors.front!.maximum, 0.45 + swing],
        ["rear minimum", sensors.rear!.minimum, middle - size * swing],
      ];
      for (const [what, reading, truth] of truths) {
        told[what] ??= { claims: 0, held: 0 };
        const count = told[what];
        if (Number.isNaN(truth) || !isClaim(reading)) continue;
        count.claims++;
        count.held += holds(reading, truth) ? 1 : 0;
      }
    }
    for (const [what, { claims, held }] of Object.entries(told)) {
      expect(claims, what).toBeGreaterThanOrEqual(leastClaims);
      expect(held / claims, what).toBeGreaterThanOrEqual(least);
    }
  });
});
