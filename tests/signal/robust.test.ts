import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dutyOf, frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { transitionTime } from "../../src/signal/edges/transition-time.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { amplitudeOf, maximumOf, minimumOf } from "../../src/signal/levels/levels.ts";
import { lengthRuleFor, lineLength } from "../../src/signal/levels/line-length.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { describeTimeBase } from "../../src/signal/stamps/time-base.ts";
import { noiseOf } from "../../src/signal/statistics/noise.ts";
import { quantisationOf } from "../../src/signal/statistics/quantisation.ts";

/** Every reading that can be taken of one channel. */
function allReadings(series: Series): Reading[] {
  const crossings = findCrossings(series, { level: 0.45, hysteresis: 0.05 });
  const facts = describeTimeBase(series);
  return [
    frequencyOf(crossings),
    dutyOf(series, 0.45),
    amplitudeOf(series),
    minimumOf(series),
    maximumOf(series),
    meanOf(series),
    transitionTime(findTransitions(series, { from: 0.6, to: 0.3 })),
    transitionTime(findTransitions(series, { from: 0.3, to: 0.6 })),
    lagBetween(series, series, { most: 1 }).lag,
    facts.rate,
    facts.updateRate,
  ];
}

function expectSane(reading: Reading): void {
  for (const n of [reading.value, reading.low, reading.high]) expect(n === null || Number.isFinite(n)).toBe(true);
  if (reading.grade === "measured") {
    expect(reading.low! <= reading.value! && reading.value! <= reading.high!).toBe(true);
  } else {
    expect(reading.because ?? "").not.toBe("");
  }
  if (reading.grade === "not-resolvable") expect(reading.value).toBeNull();
}

const value = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: -1, max: 2, noNaN: true }) },
  { weight: 2, arbitrary: fc.constantFrom(0.1, 0.45, 0.9, 0.3, 0.6) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 1e30, -1e-30) },
);
const step = fc.oneof(fc.constantFrom(0.001, 0.1, 1, 30), fc.double({ min: 1e-6, max: 5, noNaN: true }));
const stamped = fc.array(fc.tuple(value, step), { maxLength: 80 }).map((rows): Series => {
  let now = 0;
  const stamps = Float64Array.from(rows, ([, dt]) => (now += dt));
  return { time: { kind: "stamped", stamps }, samples: Float64Array.from(rows, ([v]) => v) };
});
const even = fc.tuple(fc.array(value, { maxLength: 80 }), step, fc.boolean()).map(
  ([values, dt, single]): Series => ({
    time: { kind: "even", start: -3, step: dt, count: values.length },
    samples: single ? Float32Array.from(values) : Float64Array.from(values),
  }),
);

describe("whatever the samples are", () => {
  test("every reading is finite, ordered, and says why when it is bounded", () => {
    fc.assert(
      fc.property(fc.oneof(stamped, even), (series) => {
        allReadings(series).forEach(expectSane);
        expect(noiseOf(series.samples)).toBeGreaterThanOrEqual(0);
        expect(quantisationOf(series.samples)).toBeGreaterThanOrEqual(0);
        expect(lineLength(series, lengthRuleFor(series, noiseOf(series.samples))).length).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 400, seed: 7 },
    );
  });

  test.each([
    [0.7, 0.1],
    [0.705, 0.005],
    [0.712, 0.002],
    [0.7125, 0.0005],
    [Math.fround(0.68), 0.02],
  ])("a value that never changes, %s, hides a swing of its last digit and no more", (value, step) => {
    const samples = new Float64Array(200).fill(value);
    expect(quantisationOf(samples)).toBeCloseTo(step, 9);
    const { value: swing, high } = amplitudeOf({ time: { kind: "even", start: 0, step: 0.05, count: 200 }, samples });
    expect(swing === null ? high : null).toBeCloseTo(step, 6);
  });

  test.each([
    ["none", []],
    ["one", [0.5]],
    ["two", [0.1, 0.9]],
    ["all missing", new Array(50).fill(NaN)],
    ["flat", new Array(50).fill(0.45)],
    ["one among missing", [NaN, NaN, 0.4, NaN]],
  ])("%s", (_, values: number[]) => {
    const samples = Float64Array.from(values);
    allReadings({ time: { kind: "even", start: 0, step: 0.1, count: samples.length }, samples }).forEach(expectSane);
    const stamps = Float64Array.from(values, (_, i) => i);
    allReadings({ time: { kind: "stamped", stamps }, samples }).forEach(expectSane);
  });
});
