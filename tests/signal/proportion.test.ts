// Bounds of counted shares against closed forms and published tables.

import { describe, expect, test } from "vitest";
import { proportionBounds, ratioOfSums } from "../../src/signal/numbers/proportion.ts";

describe("proportionBounds", () => {
  // Closed form: none of n leaves 1 - 0.05^(1/n); for n = 20 that is 13.9 %, near the rule of three's 15 %.
  test("of none in 20 is 0 to 13.9 %", () => {
    const [low, high] = proportionBounds(0, 20);
    expect(low).toBe(0);
    expect(high).toBeCloseTo(0.1391, 4);
    expect(proportionBounds(20, 20)[0]).toBeCloseTo(1 - high, 12);
  });

  // Beta quantiles, SciPy 1.x: beta.ppf(0.025, k, n - k + 1), beta.ppf(0.975, k + 1, n - k).
  test.each([
    [5, 10, 0.187086, 0.812914],
    [1, 50, 0.000506, 0.10647],
    [90, 300, 0.248682, 0.35532],
  ])("of %i in %i agrees with the exact interval", (hits, trials, low, high) => {
    const got = proportionBounds(hits, trials);
    expect(got[0]).toBeCloseTo(low, 5);
    expect(got[1]).toBeCloseTo(high, 5);
  });

  test("refuses counts that are no share", () => {
    expect(() => proportionBounds(3, 2)).toThrow(RangeError);
    expect(() => proportionBounds(0, 0)).toThrow(RangeError);
  });
});

describe("ratioOfSums", () => {
  test("has no width where every piece has the same ratio", () => {
    const found = ratioOfSums([1, 2, 3, 4], [2, 4, 6, 8])!;
    expect(found.value).toBe(0.5);
    expect(found.bounds[1] - found.bounds[0]).toBeCloseTo(0, 12);
  });

  test("is nothing with too few pieces, or nothing below", () => {
    expect(ratioOfSums([1, 2, 3], [1, 2, 3])).toBeNull();
    expect(ratioOfSums([1, 1, 1, 1], [0, 0, 0, 0])).toBeNull();
  });
});
