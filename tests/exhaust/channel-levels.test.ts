// Levels of any channel against closed forms: a ramp, a channel with missing samples, one of codes.

import { expect, test } from "vitest";
import type { Channel } from "../../src/capture/model/capture.ts";
import { measureLevels } from "../../src/exhaust/activity/channel-levels.ts";

const channel = (id: string, role: Channel["role"], samples: Float64Array): Channel => ({
  ...{ id, name: id, unit: "1/min", fileUnit: "rpm", role, bank: 1, polled: false },
  series: { time: { kind: "even", start: 0, step: 0.1, count: samples.length }, samples },
});

const ramp = channel(
  "speed",
  "engine-speed",
  Float64Array.from({ length: 601 }, (_, i) => 800 + 10 * i),
);

// Closed form: a ramp's mean over a span is its middle; lowest and highest are its ends; 10 samples a second are due.
test("finds mean, ends and share of a ramp over a span, and where the ends stand", () => {
  const { levels, evidence } = measureLevels([ramp], { from: 20, to: 40 });
  const [{ mean, minimum, maximum, held }] = levels as [(typeof levels)[number]];
  for (const [reading, truth] of [
    [mean, 800 + 100 * 29.95],
    [minimum, 2800],
    [maximum, 800 + 10 * 399],
  ] as const) {
    expect(reading.value).toBeCloseTo(truth, 6);
    expect(reading.low).toBeLessThanOrEqual(truth);
    expect(reading.high).toBeGreaterThanOrEqual(truth);
    expect(reading.unit).toBe("1/min");
  }
  expect(held).toMatchObject({ value: 100, count: 200 });
  expect(evidence["channel.minimum.speed"]!.marks).toEqual([{ channelId: "speed", time: 20, value: 2800 }]);
});

test("says which share of the samples hold a value, and leaves codes and what the span does not hold out", () => {
  const holed = channel(
    "trim",
    "short-trim",
    ramp.series.samples.map((v, i) => (i % 4 === 0 ? NaN : v)) as Float64Array,
  );
  const codes = channel("status", "fuel-status", new Float64Array(601).fill(2));
  const { levels } = measureLevels([holed, codes], { from: 0, to: 60 });
  expect(levels.map(({ channelId }) => channelId)).toEqual(["trim"]);
  expect(levels[0]!.held.low).toBeLessThanOrEqual(75);
  expect(levels[0]!.held.high).toBeGreaterThanOrEqual(75);
  expect(levels[0]!.held.value).toBeCloseTo(75, 6);
  expect(measureLevels([ramp], { from: 70, to: 80 }).levels).toEqual([]);
});
