// The mean over a span against closed forms: integrals of sines and square waves, sampled now and then.

import { expect, test } from "vitest";
import { spanMeanOf } from "../../src/signal/levels/span-mean.ts";
import { normal, sampledAt, uniform } from "./signals.ts";

/** Integral of a square wave of height 1 that is high for the first half of each period, from 0 to t. */
const squareArea = (t: number, period: number) =>
  (Math.floor(t / period) * period) / 2 + Math.min(t % period, period / 2);

// Wanted by design.md: bounds hold the truth in at least 95 % of cases, and tell something.
test.each([
  ["a slow log of a square wave", 4, 0],
  ["a fast recording with noise", 200, 0.05],
])("holds the mean of %s", (_, rate, sigma) => {
  let held = 0;
  let widest = 0;
  const cars = 200;
  for (let car = 0; car < cars; car++) {
    const [next, scatter] = [uniform(car + 1), normal(car + 900)];
    const [period, begin, length] = [1.3 + 4 * next(), 100 * next(), 20 + 20 * next()];
    const [ramp, swing] = [next() - 0.5, 0.2 + next()];
    const course = (t: number) => ramp * t + swing * (t % period < period / 2 ? 1 : 0);
    const area = (t: number) => (ramp * t ** 2) / 2 + swing * squareArea(t, period);
    const truth = (area(begin + length) - area(begin)) / length;
    const start = begin + next() / rate;
    const count = Math.floor((begin + length - start) * rate);
    const stamps = Float64Array.from({ length: count }, (_, i) => start + (i + 0.3 * (next() - 0.5)) / rate);
    const reading = spanMeanOf(
      sampledAt((t) => course(t) + sigma * scatter(), stamps),
      {
        ...{ from: begin, to: begin + length, noise: sigma, unit: "V" },
      },
    );
    if (reading.low! <= truth && truth <= reading.high!) held++;
    widest = Math.max(widest, reading.high! - reading.low!);
  }
  expect(held / cars).toBeGreaterThanOrEqual(0.95);
  expect(widest).toBeLessThan(rate > 100 ? 0.1 : 1);
});

test("tells nothing of a lone sample", () => {
  const lone = sampledAt(() => 1, Float64Array.of(3));
  expect(spanMeanOf(lone, { from: 0, to: 10 })).toMatchObject({ grade: "not-resolvable", value: null });
});
