import { describe, expect, test } from "vitest";
import { frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { crossingCount, findCrossings, roughCrossings } from "../../src/signal/edges/crossings.ts";
import { askedRate } from "../../src/signal/numbers/asked-rate.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { disturbed, exponential, sampled, sampledAt } from "./signals.ts";

const rule = { level: 0.45, hysteresis: 0.05 };

describe("findCrossings", () => {
  // Closed form: 0.5 + 0.4 sin(2 pi t) = 0.45 at t = k - asin(0.125) / 2 pi (rising) and k + 1/2 + that (falling).
  test("times the crossings of a sine where the sine has them", () => {
    const { times, low, high, rising } = findCrossings(
      sampled((t) => 0.5 + 0.4 * Math.sin(2 * Math.PI * t), 1000, 3, -0.2),
      rule,
    );
    const early = Math.asin(0.125) / (2 * Math.PI);
    const want = [0, 1, 2].flatMap((k) => [k - early, k + 0.5 + early]);
    expect(times.length).toBe(6);
    want.forEach((t, k) => {
      expect(times[k]).toBeCloseTo(t, 6);
      expect(low[k]! <= t && t <= high[k]!).toBe(true);
      expect(rising[k]).toBe(k % 2 === 0 ? 1 : 0);
    });
  });

  // Closed form, domain row 55: 1 Hz for 60 s has 60 rising and 60 falling edges, give or take one at the ends.
  test("counts a square wave", () => {
    const series = sampled((t) => ((t + 0.1) % 1 < 0.5 ? 0.1 : 0.9), 1000, 60);
    const crossings = findCrossings(series, rule);
    expect(Math.abs(crossings.times.length - 120)).toBeLessThanOrEqual(1);
    expect(crossingCount(series, rule)).toBe(crossings.times.length);
    const frequency = frequencyOf(crossings);
    expect(frequency.grade).toBe("measured");
    expect(Math.abs(frequency.value! - 1)).toBeLessThan(0.005);
    expect(frequency.low! <= 1 && frequency.high! >= 1).toBe(true);
  });

  test("asks for the one rate where the samples are too far apart to count by", () => {
    const slow = findCrossings(
      sampled((t) => 0.5 + 0.4 * Math.sin(5 * t), 2.5, 60),
      rule,
    );
    const frequency = frequencyOf(slow, { fastest: 5 });
    expect([frequency.grade, frequency.because]).toEqual(["not-resolvable", expect.stringContaining(askedRate)]);
  });

  // The same passages by either way; a chord between the samples on either side holds the closed form's instant (above).
  test("finds the same crossings where they are only counted", () => {
    const sine = sampled((t) => 0.5 + 0.4 * Math.sin(2 * Math.PI * t), 1000, 3, -0.2);
    const [fine, rough] = [
      findCrossings(disturbed(sine, 0.02, 5), rule),
      roughCrossings(disturbed(sine, 0.02, 5), rule),
    ];
    expect(rough.indices).toEqual(fine.indices);
    expect(rough.rising).toEqual(fine.rising);
    const early = Math.asin(0.125) / (2 * Math.PI);
    [0, 1, 2]
      .flatMap((k) => [k - early, k + 0.5 + early])
      .forEach((t, k) => {
        // ± h is passed in ± 0.02 s, noise of 0.02 V crosses the level within as much again.
        expect(rough.times[k]).toBeCloseTo(t, 1);
        expect(rough.low[k]! <= rough.times[k]! && rough.times[k]! <= rough.high[k]!).toBe(true);
      });
  });

  // Row 56: flat at the level with 10 mV noise; h = max(0.05 V, 4 sigma).
  test("sees no switching in noise about the level", () => {
    expect(
      findCrossings(
        disturbed(
          sampled(() => 0.45, 1000, 60),
          0.01,
          1,
        ),
        rule,
      ).times.length,
    ).toBe(0);
  });

  // Closed form: a ramp of 0.2 V a sample meets the level where it is drawn to; 5 mV of noise are 1/40 of a sample there.
  test("stays close to a sample whose side of the level noise hides", () => {
    let held = 0;
    for (let k = 0; k < 400; k++) {
      const place = 0.02 * (k / 400 - 0.5);
      const ramp = sampled((t) => Math.min(0.85, Math.max(0.05, 0.45 + 0.2 * (t - 5 - place))), 1, 11);
      const { times, low, high } = findCrossings(disturbed(ramp, 0.005, k), { ...rule, noise: 0.005 });
      expect(times.length).toBe(1);
      expect(high[0]! - low[0]!).toBeLessThan(0.25);
      if (low[0]! <= 5 + place && 5 + place <= high[0]!) held++;
    }
    // 99.9 % of a binomial of 400 trials at 0.95.
    expect(held).toBeGreaterThan(365);
  });

  test("counts nothing across a missing sample or a hole in the stamps", () => {
    const holed = sampled((t) => (t < 1 ? 0.9 : 0.1), 10, 2);
    holed.samples[10] = NaN;
    expect(findCrossings(holed, rule).times.length).toBe(0);
    const stamps = Float64Array.from({ length: 40 }, (_, i) => (i < 20 ? i * 0.1 : 10 + i * 0.1));
    expect(
      findCrossings(
        sampledAt((t) => (t < 5 ? 0.9 : 0.1), stamps),
        rule,
      ).times.length,
    ).toBe(0);
  });

  test("brackets an edge between two samples by those two", () => {
    const stamps = Float64Array.from([0, 1, 2, 3, 4]);
    const { low, high } = findCrossings(
      sampledAt((t) => (t < 1.7 ? 0.8 : 0.1), stamps),
      rule,
    );
    expect(low[0]!).toBeGreaterThanOrEqual(1);
    expect(high[0]!).toBeLessThanOrEqual(2);
    expect(low[0]! <= 1.7 && high[0]! >= 1.7).toBe(true);
  });

  // Closed form: 0.1 + 0.8 exp(-t / tau) = 0.45 at tau ln(0.8 / 0.35).
  test("is not early where noise exceeds the change per sample", () => {
    const tau = 0.12;
    const want = tau * Math.log(0.8 / 0.35);
    let sum = 0;
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const series = disturbed(sampled(exponential(0.9, 0.1, tau), 2000, 1.2, -0.4), 0.02, seed);
      const { times, low, high } = findCrossings(series, { level: 0.45, hysteresis: 0.08 });
      expect(times.length).toBe(1);
      sum += times[0]! - want;
      if (low[0]! <= want && want <= high[0]!) held++;
    }
    expect(Math.abs(sum / 200)).toBeLessThan(0.02 * want);
    expect(held).toBeGreaterThanOrEqual(184);
  });
});

// By hand: at 5 samples/s the fall lies between the last 0.88 and the first 0.05, 0.2 s; a value may be repeated once, since
// none before stayed longer than one sample. The 5 s on the plateau are none of its doubt.
test("a plateau without noise is no repeat: the fall after it lies in its own steps", () => {
  const samples = Float64Array.from({ length: 100 }, (_, i) =>
    i < 50 ? 0.45 + 0.4 * Math.sin(1.3 * i) : i < 75 ? 0.88 : 0.05,
  );
  const series: Series = { time: { kind: "even", start: 0, step: 0.2, count: 100 }, samples };
  const { low, high } = findCrossings(series, { level: 0.45, hysteresis: 0.05, noise: 0 });
  expect(high.at(-1)).toBeCloseTo(75 * 0.2, 9);
  expect(low.at(-1)).toBeGreaterThanOrEqual(74 * 0.2 - 0.4 - 1e-9);
  expect(low.at(-1)).toBeLessThanOrEqual(74 * 0.2 + 1e-9);
});
