// Values with a closed form: what a measurement of an ideal signal has to give.

import { describe, expect, test } from "vitest";
import { difference, ratio } from "../../src/signal/combining/combine.ts";
import { dutyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { transitionTime } from "../../src/signal/edges/transition-time.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { amplitudeOf } from "../../src/signal/levels/levels.ts";
import { lengthRuleFor, lineLength } from "../../src/signal/levels/line-length.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { vertex } from "../../src/signal/likeness/correlation-peak.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { disturbed, exponential, normal, sampled } from "./signals.ts";

const tau = 0.05;
const rise = exponential(0, 1, tau);

/** Median transition between two levels; bounds must hold the truth. */
function expectTime(series: Series, [from, to]: readonly [number, number], want: number, tolerance: number): void {
  const reading = transitionTime(findTransitions(series, { from, to }));
  expect(reading.grade).toBe("measured");
  expect(Math.abs(reading.value! - want)).toBeLessThanOrEqual(tolerance * want);
  expect(reading.low! <= want && want <= reading.high!).toBe(true);
}

describe("transition times", () => {
  const step = sampled(rise, 2000, 1.2, -0.2);
  const pair = (low: number, high: number) => [low, high] as const;

  // First order: ln 9 tau from 10 to 90 %, ln 4 tau from 20 to 80 %.
  test("10-90 and 20-80 % of a first-order step", () => {
    expectTime(step, pair(0.1, 0.9), Math.log(9) * tau, 0.01);
    expectTime(step, pair(0.2, 0.8), Math.log(4) * tau, 0.01);
  });

  // Ramp of length T: 0.8 T. Sine of frequency f: asin(0.8) / (pi f).
  test("10-90 % of a ramp and of a sine between its extremes", () => {
    const ramp = sampled((t) => Math.min(1, Math.max(0, t / 0.1)), 2000, 1, -0.3);
    expectTime(ramp, pair(0.1, 0.9), 0.08, 0.005);
    const sine = sampled((t) => 0.5 + 0.5 * Math.sin(4 * Math.PI * t), 2000, 5);
    expectTime(sine, pair(0.1, 0.9), Math.asin(0.8) / (2 * Math.PI), 0.01);
  });

  // 2.5631 sigma for the integral of a Gaussian (twice the 90 % quantile of the normal distribution).
  test("10-90 % of a Gaussian edge", () => {
    const sigma = 0.02;
    const density = (t: number) => Math.exp(-((t / sigma) ** 2) / 2);
    let sum = 0;
    const values = Array.from({ length: 4000 }, (_, i) => (sum += density((i - 2000) / 10_000)));
    const samples = Float64Array.from(values, (v) => v / sum);
    const series: Series = { time: { kind: "even", start: 0, step: 1e-4, count: samples.length }, samples };
    expectTime(series, pair(0.1, 0.9), 2.5631 * sigma, 0.01);
  });

  // Fixed levels: tau ln(0.8 / 0.4) up, tau ln(0.5 / 0.2) … down: equal lags give unequal times.
  test("0.30 to 0.60 V and back of a first-order sensor between 0.1 and 0.9 V", () => {
    const up = sampled(exponential(0.1, 0.9, 0.1), 2000, 1.5, -0.2);
    const down = sampled(exponential(0.9, 0.1, 0.1), 2000, 1.5, -0.2);
    expectTime(up, [0.3, 0.6], 0.1 * Math.log(0.6 / 0.3), 0.01);
    expectTime(down, [0.6, 0.3], 0.1 * Math.log(0.5 / 0.2), 0.01);
    const sine = sampled((t) => 0.5 + 0.4 * Math.sin(2 * Math.PI * t), 1000, 10);
    expectTime(sine, [0.3, 0.6], (Math.asin(0.25) + Math.asin(0.5)) / (2 * Math.PI), 0.008);
  });

  test("is 2 % right at 2 kHz, 20 mV noise and 120 ms: the first passage would read short", () => {
    const want = 0.12 * Math.log(0.5 / 0.2);
    let sum = 0;
    for (let seed = 0; seed < 60; seed++) {
      const series = disturbed(sampled(exponential(0.9, 0.1, 0.12), 2000, 1.4, -0.4), 0.02, 100 + seed);
      sum += findTransitions(series, { from: 0.6, to: 0.3 }).durations[0]!;
    }
    expect(Math.abs(sum / 60 / want - 1)).toBeLessThan(0.02);
  });

  test("counts a half-way and a ragged passage apart", () => {
    const half = sampled((t) => (t < 1 ? 0.8 : t < 1.5 ? 0.45 : t < 2.5 ? 0.8 : 0.1), 100, 4);
    expect(findTransitions(half, { from: 0.6, to: 0.3 })).toMatchObject({ partial: 1, ragged: 0 });
    const ragged = sampled((t) => (t < 1 ? 0.8 : t < 1.5 ? 0.35 : t < 2 ? 0.55 : 0.1), 100, 4);
    const found = findTransitions(ragged, { from: 0.6, to: 0.3 });
    expect(found).toMatchObject({ partial: 0, ragged: 1 });
    expect(transitionTime(found).grade).toBe("not-resolvable");
  });

  test("is not resolvable between two samples, and names a rate that would do", () => {
    const log = sampled((t) => (t < 4.4 ? 0.8 : 0.1), 1, 10);
    const reading = transitionTime(findTransitions(log, { from: 0.6, to: 0.3 }));
    expect(reading).toMatchObject({ grade: "not-resolvable", value: null, low: 0 });
    expect(reading.because).toMatch(/samples\/s or more/);
  });
});

describe("levels and length", () => {
  test("finds the duty of a square wave", () => {
    const series = disturbed(
      sampled((t) => (t % 1 < 0.3 ? 0.9 : 0.1), 1000, 20),
      0.01,
      3,
    );
    const duty = dutyOf(series, 0.5);
    expect(duty.low! <= 30 && duty.high! >= 30).toBe(true);
  });

  // Mean of a first-order autoregression: deviation sqrt((1 + r) / (1 - r) / n), so 95 % of such intervals hold 0; the time
  // mean of a line from 0 to 1 is 1/2 whatever its stamps.
  test("knows a mean with serial correlation, and over time", () => {
    const [r, n, trials] = [0.9, 4000, 300];
    let held = 0;
    for (let k = 0; k < trials; k++) {
      const next = normal(1000 + k);
      let now = next();
      const samples = Float64Array.from({ length: n }, () => (now = r * now + Math.sqrt(1 - r * r) * next()));
      const { low, high } = meanOf({ time: { kind: "even", start: 0, step: 1, count: n }, samples });
      if (low! <= 0 && 0 <= high!) held++;
    }
    // 99.9 % of a binomial of 300 trials at 0.93 (batches of 125 samples still correlate a little) to 1.
    expect(held / trials).toBeGreaterThan(0.88);
    const stamps = Float64Array.from({ length: 50 }, (_, i) => (i / 49) ** 2);
    expect(meanOf({ time: { kind: "stamped", stamps, gapAbove: 1 }, samples: stamps }).value).toBeCloseTo(0.5, 12);
  });

  // 4 A f T for a sine: 16 V for 0.4 V, 1 Hz, 10 s.
  test("measures the way of a sine, with and without noise", () => {
    const sine = sampled((t) => 0.45 + 0.4 * Math.sin(2 * Math.PI * t), 1000, 10);
    expect(Math.abs(lineLength(sine, lengthRuleFor(sine, 0)).length - 16)).toBeLessThan(0.16);
    const noisy = disturbed(sine, 0.02, 5);
    expect(Math.abs(lineLength(noisy, lengthRuleFor(noisy, 0.02)).length - 16)).toBeLessThan(0.8);
  });

  // E|difference of two normal values| = 2 sigma / sqrt pi = 1.1284 sigma; P(sign change) of white noise = 1/2.
  test("knows the steps and sign changes of white noise", () => {
    const next = normal(9);
    const noise = Float64Array.from({ length: 100_000 }, next);
    const series: Series = { time: { kind: "even", start: 0, step: 1, count: noise.length }, samples: noise };
    expect(Math.abs(lineLength(series, lengthRuleFor(series, 0)).length / (noise.length - 1) - 1.1284)).toBeLessThan(
      0.02 * 1.1284,
    );
    const changes = findCrossings(series, { level: 0, hysteresis: 0, noise: 0 }).times.length;
    expect(Math.abs(changes / noise.length - 0.5)).toBeLessThan(0.01);
  });

  // S. O. Rice, Bell Syst. Tech. J. 23 (1944): ideal low-pass noise of band B crosses its mean 2 B / sqrt 3 times a second.
  test("counts the crossings of low-pass noise as Rice does", () => {
    const next = normal(21);
    const [band, rate, duration] = [10, 200, 400];
    const tones = Array.from({ length: 1000 }, (_, k) => [((k + 0.5) * band) / 1000, next(), next()] as const);
    const series = sampled(
      (t) => {
        let sum = 0;
        for (const [f, a, b] of tones) sum += a * Math.cos(2 * Math.PI * f * t) + b * Math.sin(2 * Math.PI * f * t);
        return sum;
      },
      rate,
      duration / 8,
    );
    const crossings = findCrossings(series, { level: 0, hysteresis: 0, noise: 0 });
    expect(Math.abs(crossings.times.length / (duration / 8) / 11.55 - 1)).toBeLessThan(0.05);
  });
});

describe("frequency and lag", () => {
  // Closed form: the vertex of a parabola through (-1, a), (0, b), (1, c) lies at (a - c) / 2 (a - 2 b + c): here 0.1 / 0.6.
  test("knows the parabola", () => {
    expect(vertex([0.8, 1, 0.9], 1)).toBeCloseTo(1 / 6, 4);
  });

  // A follower: rear = front delayed by 0.15 s. Lag 0.150 s, amplitude and crossings alike, nothing between their amplitudes.
  test("finds a follower's lag and likeness", () => {
    const wave = (t: number) => 0.45 + 0.35 * Math.tanh(3 * Math.sin(2 * Math.PI * 0.9 * t + Math.sin(t)));
    const [front, rear] = [
      disturbed(sampled(wave, 200, 60), 0.01, 5),
      disturbed(
        sampled((t) => wave(t - 0.15), 200, 60),
        0.01,
        6,
      ),
    ];
    const { lag, height, ambiguousBy } = lagBetween(front!, rear!, { most: 0.5 });
    expect(lag.low! <= 0.15 && lag.high! >= 0.15).toBe(true);
    expect(Math.abs(lag.value! / 0.15 - 1)).toBeLessThan(0.02);
    expect(height).toBeGreaterThan(0.98);
    expect(ambiguousBy).toBeNull();
    const [ours, theirs] = [front!, rear!].map((s) => findCrossings(s, { level: 0.45, hysteresis: 0.05 }).times.length);
    expect(Math.abs(theirs! / ours! - 1)).toBeLessThan(0.02);
    const likeness = ratio(amplitudeOf(rear!), amplitudeOf(front!));
    expect(Math.abs(likeness.value! - 1)).toBeLessThan(0.02);
    expect(difference(amplitudeOf(rear!), amplitudeOf(front!), "V").low!).toBeLessThan(0);
  });

  // First-order lag at 1 Hz, tau 0.1 s: amplitude 1 / sqrt(1 + w² tau²) = 0.8467, lag atan(w tau) / w = 89.3 ms.
  test("measures what a first-order lag does to a sine", () => {
    const w = 2 * Math.PI;
    const a = sampled((t) => Math.sin(w * t), 200, 30);
    const b = sampled((t) => 0.8467 * Math.sin(w * t - Math.atan(w * 0.1)), 200, 30);
    expect(Math.abs(lagBetween(a, b, { most: 0.4 }).lag.value! / 0.0893 - 1)).toBeLessThan(0.01);
    expect(lagBetween(a, b, { most: 0.4 }).ambiguousBy).toBeCloseTo(1, 2);
    expect(Math.abs(amplitudeOf(b).value! / amplitudeOf(a).value! - 0.8467)).toBeLessThan(0.01);
  });
});
