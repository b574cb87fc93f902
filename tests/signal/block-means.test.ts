// Means of neighbouring samples: closed forms, and that no time lies outside of what its doubt allows.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { blockFor, blockMeans } from "../../src/signal/series/block-means.ts";
import { reelOver } from "../../src/signal/series/reel.ts";
import { type AnySeries, type Series, timeAt } from "../../src/signal/series/series.ts";
import { sampled } from "./signals.ts";

function means(series: AnySeries, size: number): Series {
  const work = blockMeans(series, size);
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

describe("means of neighbouring samples", () => {
  test("of even steps stand in the middle of their blocks, the last over what is left", () => {
    const samples = Float64Array.of(1, 3, NaN, 5, NaN, NaN, 7);
    const found = means({ time: { kind: "even", start: 10, step: 0.5, count: 7 }, samples }, 2);
    expect([...found.samples]).toEqual([2, 5, NaN, 7]);
    expect(found.time).toEqual({ kind: "even", start: 10.25, step: 1, count: 4, doubt: { early: 0.25, late: 0.25 } });
  });

  test("of stamps do not reach over a gap or a missing sample", () => {
    const stamps = Float64Array.of(0, 1, 2, 3, 4, 104, 105, 106, 107, 108);
    const samples = Float64Array.of(2, 4, 6, 8, 10, 1, 3, NaN, 5, 7);
    const found = means({ time: { kind: "stamped", stamps, gapAbove: 5 }, samples }, 4);
    const time = found.time as Extract<Series["time"], { kind: "stamped" }>;
    expect([...found.samples]).toEqual([5, 10, NaN, 2, NaN, 6]);
    expect([...time.stamps]).toEqual([1.5, 4, 54, 104.5, 106, 107.5]);
    expect(time.doubt).toEqual({ early: 1.5, late: 1.5 });
  });

  test("keep single precision, and are the same of a reel", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 60 }), (part, size) => {
        const time = { kind: "even" as const, start: 0, step: 1, count: 1000 };
        const samples = Float32Array.from({ length: 1000 }, (_, i) => (i % 37 === 0 ? NaN : Math.sin(i)));
        const [whole, read] = [
          means({ time, samples }, size),
          means(
            reelOver({ time, samples }, part, () => {}),
            size,
          ),
        ];
        expect(read.samples).toBeInstanceOf(Float32Array);
        expect(read.samples).toEqual(whole.samples);
        const stamped = {
          kind: "stamped" as const,
          stamps: Float64Array.from(samples, (_, i) => i + (i > 500 ? 90 : 0)),
        };
        const [all, parts] = [
          means({ time: stamped, samples }, size),
          means(
            reelOver({ time: stamped, samples }, part, () => {}),
            size,
          ),
        ];
        expect(parts).toEqual(all);
      }),
    );
  });

  // Closed form: a sine of 1 Hz about 0.45 rises through it at whole seconds.
  test("leave every crossing within its bounds and the doubt of its stamps", () => {
    const series = sampled((t) => 0.45 + 0.4 * Math.sin(2 * Math.PI * t), 1000, 20.5, -0.25);
    for (const size of [2, 8, 32]) {
      const found = means(series, size);
      const { times, low, high, rising } = findCrossings(found, { level: 0.45, hysteresis: 0.05, noise: 0 });
      const { late } = found.time.doubt!;
      expect(late).toBeCloseTo(((size - 1) / 2) * 0.001, 12);
      const rises = times.map((_, k) => k).filter((k) => rising[k] === 1);
      expect(rises.length).toBe(21);
      rises.forEach((k, n) => {
        expect(low[k]! - late).toBeLessThanOrEqual(n + 1e-9);
        expect(high[k]! + late).toBeGreaterThanOrEqual(n - 1e-9);
      });
      expect(timeAt(found.time, 1) - timeAt(found.time, 0)).toBeCloseTo(size / 1000, 12);
    }
  });

  test("are over as few samples as room asks for, a power of two", () => {
    expect([1, 100, 101, 200, 201, 1600].map((count) => blockFor(count, 100))).toEqual([1, 1, 2, 2, 4, 16]);
  });
});
