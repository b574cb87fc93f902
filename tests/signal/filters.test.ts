// What each filter says it does to a transition time, against what it does to a step and to pulses.

import { describe, expect, test } from "vitest";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { zeroPhaseLowPass, zeroPhaseRise } from "../../src/signal/filters/butterworth.ts";
import { medianFilter, medianFilterKeeps } from "../../src/signal/filters/median-filter.ts";
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
    const kept = Math.round(medianFilterKeeps(width, step) / step);
    const pulse = (length: number) => Float64Array.from({ length: 60 }, (_, i) => (i >= 30 && i < 30 + length ? 1 : 0));
    const total = (samples: Float64Array) => samples.reduce((all, v) => all + (v || 0), 0);
    expect(total(medianFilter(pulse(kept), width))).toBe(kept);
    expect(total(medianFilter(pulse(kept - 1), width))).toBe(0);
    expect(riseOf(medianFilter(jump, width).map((v) => v || 0))).toBeCloseTo(riseOf(Float64Array.from(jump)), 9);
  });
});
