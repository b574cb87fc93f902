// Round steps, and a fit that holds still.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitRange, levelTicks, niceTicks } from "../../src/drawing/scale.ts";

describe("niceTicks", () => {
  // The 1-2-5 series is the series of preferred rounded steps of ISO 3 (R"3), used for graph scales; values by hand.
  test("steps by 1, 2 or 5 times a power of ten", () => {
    expect(niceTicks(0, 1, 5)).toEqual({ step: 0.2, values: [0, 0.2, 0.4, 0.6, 0.8, 1] });
    expect(niceTicks(25, 37, 6)).toEqual({ step: 2, values: [26, 28, 30, 32, 34, 36] });
    expect(niceTicks(-0.05, 0.31, 4).values).toEqual([0, 0.1, 0.2, 0.3]);
  });

  test("stay within the range and carry no binary dust", () => {
    const bound = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(bound, fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (low, width) => {
        const { step, values } = niceTicks(low, low + width, 6);
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(low - 1e-6 * step);
          expect(value).toBeLessThanOrEqual(low + width + 1e-6 * step);
          expect(String(value).length).toBeLessThan(16);
        }
      }),
    );
  });

  test("of a level are two at least, however low the lane", () => {
    expect(niceTicks(5, 90, 4).values).toEqual([50]);
    expect(levelTicks(5, 90, 4).values).toEqual([20, 40, 60, 80]);
    expect(levelTicks(8, 84, 2).values).toEqual([20, 80]);
  });

  test("refuse an empty range", () => {
    expect(() => niceTicks(1, 1, 5)).toThrow(RangeError);
  });
});

describe("fitRange", () => {
  test.each(["constructor", "toString", "__proto__"])("a unit may be any text: %s", (unit) => {
    const [low, high] = fitRange([1, 2], unit, null);
    expect(low).toBeLessThanOrEqual(1);
    expect(high).toBeGreaterThanOrEqual(2);
    expect(high).toBeLessThan(4);
  });

  test("holds what it shows, with air", () => {
    const [low, high] = fitRange([0.05, 0.89], "V", null);
    expect(low).toBeLessThan(0.05);
    expect(high).toBeGreaterThan(0.89);
    expect(high - low).toBeLessThan(1.3 * 0.84);
  });

  test("does not magnify the noise of a calm sensor", () => {
    const [low, high] = fitRange([0.701, 0.706], "V", null);
    expect(high - low).toBeGreaterThanOrEqual(0.2);
  });

  test("holds still while the extent changes little, and follows when it changes much", () => {
    const before = fitRange([0.05, 0.89], "V", null);
    expect(fitRange([0.1, 0.86], "V", before)).toBe(before);
    expect(fitRange([0.05, 1.1], "V", before)[1]).toBeGreaterThan(1.1);
    expect(fitRange([0.6, 0.8], "V", before)).not.toEqual(before);
  });

  test("keeps the scale where nothing is shown", () => {
    expect(fitRange(null, "V", [0, 1])).toEqual([0, 1]);
  });
});
