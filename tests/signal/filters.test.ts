// What each filter says it does to a transition time, against what it does to a step and to pulses.

import { describe, expect, test } from "vitest";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { zeroPhaseLowPass, zeroPhaseRise } from "../../src/signal/filters/butterworth.ts";
import { filtered, refusalOf, shiftOf } from "../../src/signal/filters/filter.ts";
import { medianFilter } from "../../src/signal/filters/median-filter.ts";
import { sampled } from "./signals.ts";

const rate = 1000;
const step = 1 / rate;

/** 10-90 % time of filtered values that go from 0 to 1. */
function riseOf(samples: Float64Array): number {
  const time = { kind: "even", start: 0, step, count: samples.length } as const;
  return findTransitions({ time, samples }, { from: 0.1, to: 0.9, noise: 0 }).durations[0]!;
}

const jump = sampled((t) => (t < 1 ? 0 : 1), rate, 2).samples;

describe("filters", () => {
  // By definition: the answer to a step, timed by linear interpolation.
  test("state the rise time that a step leaves with", () => {
    const lowPass = { cutoff: 20, order: 2 };
    const stated = zeroPhaseRise(step, lowPass);
    expect(Math.abs(riseOf(zeroPhaseLowPass(jump, step, lowPass)) / stated - 1)).toBeLessThan(0.02);
  });

  test("write into room that is given, and refuse room of another length", () => {
    const lowPass = { cutoff: 20, order: 3 };
    const room = new Float64Array(jump.length).fill(7);
    expect(zeroPhaseLowPass(jump, step, lowPass, room)).toBe(room);
    expect(room).toEqual(zeroPhaseLowPass(jump, step, lowPass));
    const own = new Float64Array(jump);
    expect(zeroPhaseLowPass(own, step, lowPass, own)).toEqual(room);
    expect(() => zeroPhaseLowPass(jump, step, lowPass, new Float64Array(3))).toThrow(RangeError);
  });

  // 10-90 % of a Gaussian edge: 2.5631 sigma. Variances of answers add, so times add in squares for a plain moving mean;
  // a filter without a second moment (flat at 0 Hz) changes it by less.
  test("draw out a Gaussian edge by no more than the squares of both times", () => {
    const sigma = 0.03;
    const own = 2.5631 * sigma;
    let sum = 0;
    const running = Array.from(
      { length: 2000 },
      (_, i) => (sum += Math.exp(-(((i - 1000) * step) ** 2) / (2 * sigma ** 2))),
    );
    const edge = Float64Array.from(running, (v) => v / sum);
    const lowPass = { cutoff: 12, order: 2 };
    const seen = riseOf(zeroPhaseLowPass(edge, step, lowPass));
    expect(seen).toBeGreaterThan(0.999 * own);
    expect(seen).toBeLessThan(Math.hypot(own, zeroPhaseRise(step, lowPass)));
  });

  // Order statistics: a pulse of more than half the window fills the middle of the sorted window, a shorter one never does.
  test.each([3, 5, 9])("by a median of %i keep a pulse of the stated length and no shorter one", (width) => {
    const kept = (width + 1) / 2;
    const pulse = (length: number) => Float64Array.from({ length: 60 }, (_, i) => (i >= 30 && i < 30 + length ? 1 : 0));
    const total = (samples: Float64Array) => samples.reduce((all, v) => all + (v || 0), 0);
    expect(total(medianFilter(pulse(kept), width))).toBe(kept);
    expect(total(medianFilter(pulse(kept - 1), width))).toBe(0);
    expect(riseOf(medianFilter(jump, width).map((v) => v || 0))).toBeCloseTo(riseOf(Float64Array.from(jump)), 9);
  });

  // The stated rule, by counting: samples i step apart within 2 ms are at most 3.
  test("take out spikes of the stated length wherever they fall, and leave an edge where it is", () => {
    const samples = Float64Array.from({ length: 400 }, (_, i) => (i < 200 ? 0.1 : 0.8));
    const spiked = samples.map((v, i) => (i % 50 < 3 ? v + 5 : v));
    const seen = filtered({ time: { kind: "even", start: 0, step, count: 400 }, samples: spiked }, median(0.002));
    // Half a window from the ends is never guessed.
    expect([...seen.slice(0, 3)].every(Number.isNaN)).toBe(true);
    const near = Math.abs(seen.findIndex((v) => v > 0.45) - 200);
    expect(near).toBeLessThanOrEqual(3);
    expect([...seen.slice(3, 190)].every((v) => v === 0.1)).toBe(true);
  });

  // Butterworth, order 2, there and back: 1 / (1 + (f / fc)^4) of an amplitude is left.
  test.each([2, 5, 10])("leave of %i Hz on uneven stamps what the closed form says", (frequency) => {
    const stamps = Float64Array.from({ length: 3000 }, (_, i) => i / 300 + 0.0004 * Math.sin(7 * i));
    const samples = stamps.map((t) => Math.sin(2 * Math.PI * frequency * t));
    const seen = filtered({ time: { kind: "stamped", stamps }, samples }, { kind: "low-pass", cutoff: 5 });
    const left = Math.max(...seen.slice(600, 2400));
    expect(left).toBeCloseTo(1 / (1 + (frequency / 5) ** 4), 2);
  });

  test("reach across no gap and no missing sample, and are refused where they cannot be one", () => {
    const samples = Float64Array.from({ length: 60 }, (_, i) => (i === 30 ? NaN : i < 30 ? 0 : 1));
    const seen = filtered(
      { time: { kind: "even", start: 0, step, count: 60 }, samples },
      { kind: "low-pass", cutoff: 20 },
    );
    expect(seen[30]).toBeNaN();
    expect(Math.max(...seen.slice(0, 30))).toBe(0);
    expect(Math.min(...seen.slice(31))).toBe(1);
    expect(refusalOf({ kind: "low-pass", cutoff: 500 }, step)).toBe("too-fast");
    expect(refusalOf(median(1), step)).toBe("too-long");
    expect(refusalOf(median(-1), step)).toBe("no-number");
  });
});

const median = (spikes: number) => ({ kind: "median", spikes }) as const;

describe("the shift that a median states", () => {
  const filter = { kind: "median", spikes: 0.2 } as const;

  // By construction: 120 steps of 0.1 s, then of 0.25 s; of an edge in the slow part with spoilt samples behind it the
  // middle of the window comes later by as many slow steps.
  test("holds an edge among slow samples", () => {
    const stamps = Float64Array.from({ length: 240 }, (_, i) => (i <= 120 ? 0.1 * i : 12 + 0.25 * (i - 120)));
    for (let at = 130; at < 200; at++) {
      const samples = Float64Array.from(stamps, (_, i) => (i < at || i === at + 1 || i === at + 2 ? 0 : 1));
      const series = { time: { kind: "stamped", stamps } as const, samples };
      const seen = stamps[filtered(series, filter).findIndex((value) => value > 0.5)]!;
      expect(Math.abs(seen - stamps[at]!)).toBeGreaterThan(0.3);
      expect(Math.abs(seen - stamps[at]!)).toBeLessThanOrEqual(shiftOf(filter, series) + 1e-9);
    }
  });

  test("is half the window of even steps, and takes no gap for a slow step", () => {
    expect(
      shiftOf(
        filter,
        sampled(() => 1, 10, 20),
      ),
    ).toBeCloseTo(0.3, 9);
    const stamps = Float64Array.from({ length: 200 }, (_, i) => 0.1 * i + (i < 100 ? 0 : 50));
    const holed = { time: { kind: "stamped", stamps, gapAbove: 1 } as const, samples: stamps.map(() => 1) };
    expect(shiftOf(filter, holed)).toBeCloseTo(0.3, 9);
  });
});
