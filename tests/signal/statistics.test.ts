import { describe, expect, test } from "vitest";
import { studentQuantile } from "../../src/signal/numbers/student.ts";
import { quantilesOf } from "../../src/signal/statistics/quantiles.ts";
import { percentile, spreadOfMedian } from "../../src/signal/statistics/statistics.ts";
import { normal } from "./signals.ts";

describe("statistics", () => {
  test("takes the same percentiles by counting as by sorting", () => {
    const next = normal(5);
    const values = Float64Array.from({ length: 100_000 }, (_, i) => (i % 97 === 0 ? NaN : next()));
    expectPercentilesAsSorted(values);
    // Classes narrower than two neighbouring numbers are apart, and many equal values.
    expectPercentilesAsSorted(values.map((v) => 1e15 + v));
    expectPercentilesAsSorted(values.map((v) => Math.round(20 * v) / 20));
    expect(percentile(Float64Array.of(NaN, NaN), 0.5)).toBeNaN();
  });

  function expectPercentilesAsSorted(values: Float64Array): void {
    const sorted = values.filter((v) => !Number.isNaN(v)).sort();
    const { count, at } = quantilesOf(values);
    expect(count).toBe(sorted.length);
    for (const share of [0, 0.001, 0.05, 0.5, 0.95, 1]) {
      const place = share * (sorted.length - 1);
      const below = Math.floor(place);
      const want = sorted[below]! + (place - below) * ((sorted[below + 1] ?? 0) - sorted[below]!);
      expect(at(share)).toBeCloseTo(place === below ? sorted[below]! : want, 12);
    }
  }

  // Two-sided 95 %, to more digits than the NIST/SEMATECH e-Handbook's table 1.3.6.7.2 has; from scipy.stats.t.ppf(0.975, f), from memory.
  test.each([
    [10, 2.228139],
    [12, 2.178813],
    [15, 2.13145],
    [20, 2.085963],
    [30, 2.042272],
    [100, 1.983972],
  ])("knows Student's quantile of %d degrees of freedom to 0.1 %", (freedom, want) => {
    expect(Math.abs(studentQuantile(freedom) / want - 1)).toBeLessThan(0.001);
  });

  test("knows no quantile below one degree of freedom, and no spread of one value", () => {
    expect(() => studentQuantile(0.5)).toThrow(RangeError);
    expect(() => studentQuantile(Number.NaN)).toThrow("got NaN");
    expect(spreadOfMedian(Float64Array.of(1))).toBe(0);
  });
});
