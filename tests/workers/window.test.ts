import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Series } from "../../src/signal/series/series.ts";
import { longestStepOf } from "../../workers/drawing/longest-step.ts";
import { Pyramid } from "../../workers/drawing/pyramid.ts";
import { type Trace, windowOf } from "../../workers/drawing/window.ts";

function traceOf(series: Series, gain = 1, offset = 0): Trace {
  const { time, samples } = series;
  return { series, pyramid: new Pyramid(samples), longestStep: longestStepOf(time), gain, offset };
}

function even(samples: Float64Array | Float32Array, step = 1): Series {
  return { time: { kind: "even", start: 0, step, count: samples.length }, samples };
}

describe("Pyramid", () => {
  // Judge: a plain scan of the range.
  test("bounds any range as a scan does, also when it grew piece by piece", () => {
    const samples = fc.float64Array({ minLength: 1, maxLength: 3_000, noDefaultInfinity: true });
    fc.assert(
      fc.property(samples, fc.nat(), fc.nat(), fc.nat(), (all, a, b, c) => {
        const [from, to] = [a % (all.length + 1), b % (all.length + 1)].sort((x, y) => x - y) as [number, number];
        const pyramid = new Pyramid(all.subarray(0, c % (all.length + 1)));
        pyramid.extend(all);
        const got = new Float64Array(2);
        pyramid.bounds(all, from, to, got);
        const present = [...all.subarray(from, to)].filter((v) => !Number.isNaN(v));
        expect(got[0] === Math.min(...present)).toBe(true);
        expect(got[1] === Math.max(...present)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe("windowOf", () => {
  test("sends the samples themselves when there are few, one past each edge", () => {
    const got = windowOf(traceOf(even(Float64Array.of(5, 6, 7, 8, 9))), { from: 1.5, to: 2.5 }, 100);
    expect(got.dense).toBe(false);
    expect([...got.times]).toEqual([1, 2, 3]);
    expect([...got.values]).toEqual([6, 7, 8]);
  });

  test("marks a missing sample and a pause in the stamps as a gap", () => {
    const stamps = Float64Array.of(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 28, 29, 30);
    const samples = stamps.map((time) => (time === 9 ? Number.NaN : time));
    const got = windowOf(traceOf({ time: { kind: "stamped", stamps }, samples }), { from: 8, to: 29 }, 100);
    expect([...got.values]).toEqual([7, 8, Number.NaN, 10, Number.NaN, 28, 29]);
    expect(got.times[4]).toBe(19);
  });

  test("keeps a spike of one sample visible at every zoom, wherever it stands", () => {
    const count = 1_000_000;
    fc.assert(
      fc.property(
        fc.nat(count - 1),
        fc.integer({ min: 1, max: 2_000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (at, width, z) => {
          const samples = new Float32Array(count);
          samples[at] = 1;
          const trace = traceOf(even(samples, 0.001));
          const reach = (count * 0.001) ** z;
          const span = { from: at * 0.001 - reach / 3, to: at * 0.001 + reach };
          expect(Math.max(...windowOf(trace, span, width).values.filter((v) => !Number.isNaN(v)))).toBe(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("keeps a spike of one sample among a hundred million visible at every zoom", () => {
    const count = 100_000_000;
    const samples = new Float32Array(count);
    const trace = traceOf(even(samples, 1e-4));
    for (const at of [0, 63, 64, 31_415_926, count - 1]) {
      samples[at] = 1;
      const spiked = { ...trace, pyramid: new Pyramid(samples) };
      for (let length = count * 1e-4; length > 0.01; length /= 10) {
        const span = { from: at * 1e-4 - length / 3, to: at * 1e-4 + (2 * length) / 3 };
        const { values } = windowOf(spiked, span, 1500);
        expect(values.includes(1)).toBe(true);
      }
      samples[at] = 0;
    }
  });

  // Judge: lowest and highest of the samples whose time falls into the pixel column, by a plain scan.
  test("gives the lowest and highest sample of every pixel column", () => {
    const samples = Float64Array.from({ length: 10_000 }, (_, i) => Math.sin(i * i));
    const span = { from: 1_234.5, to: 8_765.4 };
    const width = 130;
    const got = windowOf(traceOf(even(samples)), span, width);
    expect(got.dense).toBe(true);
    const step = (span.to - span.from) / width;
    for (let i = 2; i < got.times.length - 2; i += 2) {
      const column = Math.floor(got.times[i]! / step);
      const inside = [...samples.keys()].filter((k) => k >= column * step && k < (column + 1) * step);
      expect(got.values[i]).toBe(Math.min(...inside.map((k) => samples[k]!)));
      expect(got.values[i + 1]).toBe(Math.max(...inside.map((k) => samples[k]!)));
    }
    expect(got.times.length).toBeLessThanOrEqual(2 * (width + 3));
  });

  test("leaves a gap wider than a pixel column open, and joins nothing across it", () => {
    const samples = Float64Array.from({ length: 10_000 }, (_, i) => (i >= 4_000 && i < 6_000 ? Number.NaN : 1));
    const got = windowOf(traceOf(even(samples)), { from: 0, to: 10_000 }, 100);
    const inGap = got.times.map((time, i) => (time > 4_100 && time < 5_900 ? got.values[i]! : Number.NaN));
    expect(inGap.every(Number.isNaN)).toBe(true);
    const gaps = got.values.filter(Number.isNaN).length;
    expect(gaps).toBe(1);
  });

  test("turns the bounds over with a negative gain", () => {
    const samples = Float64Array.from({ length: 1_000 }, (_, i) => i % 2);
    const { values } = windowOf(traceOf(even(samples), -2, 1), { from: 0, to: 1_000 }, 10);
    expect([values[4], values[5]]).toEqual([-1, 1]);
  });

  test("is empty where the channel holds nothing", () => {
    const got = windowOf(traceOf(even(new Float64Array(0))), { from: 0, to: 1 }, 10);
    expect(got.times.length).toBe(0);
  });
});
