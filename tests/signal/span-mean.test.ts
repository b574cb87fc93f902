// The mean over a span against closed forms: integrals of sines and square waves, sampled now and then.

import { expect, test } from "vitest";
import { spanMeanOf } from "../../src/signal/levels/span-mean.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { normal, sampled, sampledAt, uniform } from "./signals.ts";

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

/** Whether the bounds hold the closed form, and how far they reach from it. */
function heldOf(series: Series, truth: number, span: { readonly from: number; readonly to: number }) {
  const { low, high } = spanMeanOf(series, { ...span, unit: "V" });
  return { isHeld: low! <= truth && truth <= high!, width: high! - low! };
}

// Closed form: a pulse of height 1 has its share of time above as its mean over whole periods, wherever it is sampled.
test("holds the mean of a pulse that keeps step with its samples, in a log with holes too", () => {
  const next = uniform(7);
  let held = 0;
  for (let car = 0; car < 300; car++) {
    const perCycle = 3 + Math.floor(6 * next());
    // No side is so short that no sample need lie in it: of what no sample shows nothing can be told.
    const [share, phase] = [1 / perCycle + (1 - 2 / perCycle) * next(), next()];
    const hole = car % 3 === 0 ? 12 + Math.floor(20 * next()) : Infinity;
    const isMissing = (t: number) => Math.round(t * perCycle) % hole === 1;
    const series = sampled((t) => (isMissing(t) ? NaN : (t + phase) % 1 < share ? 1 : 0), perCycle, 100);
    if (heldOf(series, share, { from: 0, to: 100 }).isHeld) held++;
  }
  expect(held / 300).toBeGreaterThanOrEqual(0.95);
});

test("holds the mean of a pulse whose edges lie right behind the samples before them", () => {
  const series = sampled((t) => (t % 1 > 0.001 && t % 1 < 0.499 ? 1 : 0), 4, 100);
  expect(heldOf(series, 0.498, { from: 0, to: 100 })).toMatchObject({ isHeld: true });
});

// Closed form: a line from 0 to 1 over 100 s has the mean 0.5; what is missing may have been anything of what was seen.
test("widens its bounds by a hole in the middle as by what is missing at the ends", () => {
  const span = { from: 0, to: 100 };
  const seen = (isSeen: (t: number) => boolean) => sampled((t) => (isSeen(t) ? t / 100 : NaN), 10, 100);
  const ends = heldOf(
    seen((t) => t >= 45 && t < 55),
    0.5,
    span,
  );
  const middle = heldOf(
    seen((t) => t < 5 || t >= 95),
    0.5,
    span,
  );
  // 90 of 100 s may have been at either end of what was seen: 0.9 of the range of 0.1 V and of 1 V.
  expect(ends.width).toBeGreaterThan(0.9 * 0.0985);
  expect(middle).toMatchObject({ isHeld: true });
  expect(middle.width).toBeGreaterThan(0.9 * 0.985);
  const lone = heldOf(
    seen((t) => t < 3 || t >= 93),
    0.5,
    span,
  );
  expect(lone).toMatchObject({ isHeld: true });
});
