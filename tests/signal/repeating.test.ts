// What repeats: bounds that one event, one batch, or a wave in step with the samples once made too narrow.

import { describe, expect, test } from "vitest";
import { medianOf } from "../../src/signal/combining/combine.ts";
import { dutyOf } from "../../src/signal/cycles/cycles.ts";
import { medianHalfCycleOf, medianPeriodOf } from "../../src/signal/cycles/median-period.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import { atLeast, measured } from "../../src/signal/numbers/reading.ts";
import type { Series } from "../../src/signal/series/series.ts";

const evenSeries = (values: readonly number[], step: number): Series => ({
  time: { kind: "even", start: 0, step, count: values.length },
  samples: Float64Array.from(values),
});

describe("the median over events of which one is open", () => {
  const around = (value: number) => measured(value, [value - 0.01, value + 0.01], "s");

  test("keeps the spread in its bounds: 1.20, 1.31, at least 5.0 is no 1.302 to 1.306", () => {
    const { grade, low, high } = medianOf([around(1.2), around(1.31), atLeast(5, "s")], "s");
    expect([grade, high]).toEqual(["at-least", null]);
    // 1.19 less 1.5 of the 0.11 between the two lowest.
    expect(low).toBeCloseTo(1.19 - 1.5 * 0.11, 9);
  });

  test("takes the events of rank 2 of nine, as the sign test has it: 2 x (1 + 9) / 512 = 3.9 %", () => {
    const events = [1, 2, 3, 4, 5, 6, 7, 8].map(around);
    const { value, low, high } = medianOf([...events, atLeast(20, "s")], "s");
    expect([value, low, high]).toEqual([5, 1.99, 8.01]);
  });

  test("says of events that are all open what they had in common before", () => {
    expect(medianOf([atLeast(3, "s"), atLeast(5, "s"), atLeast(6, "s")], "s")).toMatchObject({ low: 5, high: null });
  });
});

describe("a mean of few samples", () => {
  test("of two batches is as wide as Student's 12.706 makes it", () => {
    const { value, low, high } = meanOf(
      evenSeries(
        [0.4, 0.4, 0.6, 0.6].map((v, i) => v + 1e-9 * i),
        1,
      ),
    );
    // Batches of two: 0.4 and 0.6, deviation 0.1 sqrt 2, error of their mean 0.1.
    expect(value).toBeCloseTo(0.5, 6);
    expect((high! - low!) / 2).toBeGreaterThan(12.7 * 0.1);
  });
});

/** 1 Hz, high for 0.46 of it, first sample just behind a rise; 10 samples in each cycle, and every edge between the same two. */
const inStep = evenSeries(
  Array.from({ length: 600 }, (_, i) => ((i / 10 + 0.02) % 1 < 0.46 ? 0.8 : 0.1)),
  0.1,
);

describe("a wave in step with the samples", () => {
  const crossings = findCrossings(inStep, { level: 0.45, hysteresis: 0.05 });

  test("has a share of time known to what one edge leaves open, however often it repeats", () => {
    const { low, high } = dutyOf(inStep, 0.45);
    expect(low!).toBeLessThan(46);
    expect(high!).toBeGreaterThan(46);
    // 1.96 / sqrt 12 samples an edge, two edges of ten samples, and one half sample at the ends of 600.
    expect((high! - low!) / 2).toBeGreaterThan(100 * (1.96 / Math.sqrt(12)) * 0.2 * 0.98);
  });

  test("has half-cycles and periods known to a sample", () => {
    const half = medianHalfCycleOf(crossings);
    expect(half.low!).toBeLessThan(0.46);
    expect(half.high!).toBeGreaterThan(0.54);
    const period = medianPeriodOf(crossings);
    expect(period.low!).toBeLessThan(0.91);
    expect(period.high!).toBeGreaterThan(1.09);
  });
});

describe("the lag of a repeating signal", () => {
  const wave = (shift: number) =>
    evenSeries(
      Array.from({ length: 4000 }, (_, i) => 0.45 + 0.3 * Math.sin(2 * Math.PI * 2 * (i / 200 - shift))),
      1 / 200,
    );

  test("of 0.4 s at 2 Hz is not claimed to be -0.1 s within 0.01 s", () => {
    const { lag, claimed, ambiguousBy } = lagBetween(wave(0), wave(0.4), { most: 0.25 });
    expect(lag.value).toBeCloseTo(-0.1, 2);
    expect(ambiguousBy).toBeCloseTo(0.5, 2);
    expect(claimed.low!).toBeLessThan(-0.1);
    expect(claimed.high!).toBeGreaterThan(0.4);
    expect(claimed.because).toContain("0.5\u00a0s more or less");
  });

  test("is claimed where one event tells it", () => {
    const pulse = (at: number) =>
      evenSeries(
        Array.from({ length: 2000 }, (_, i) => Math.exp(-(((i / 200 - at) / 0.2) ** 2))),
        1 / 200,
      );
    expect(lagBetween(pulse(4), pulse(4.3), { most: 1 }).claimed.value).toBeCloseTo(0.3, 2);
  });
});
