// Bounds of a mean period whose cycles follow each other: the factor of the doc block, by the same cycles in two orders.

import { describe, expect, test } from "vitest";
import { meanPeriodBounds } from "../../src/signal/cycles/mean-period.ts";
import { random } from "../reference/recorders.ts";

const exact = { noise: 0, open: 0 };
const widthOf = (lengths: readonly number[]) => {
  const periods = lengths.map((length, i) => ({ length, start: exact, end: exact, isLinked: i > 0 }));
  const { low, high } = meanPeriodBounds(periods);
  return high - low;
};

/** Correlation of neighbours (Box, Jenkins & Reinsel, Time Series Analysis, eq. 2.1.12). */
function correlation(values: readonly number[]): number {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const apart = values.map((one) => one - mean);
  const squares = apart.reduce((sum, one) => sum + one ** 2, 0);
  return apart.slice(1).reduce((sum, one, i) => sum + one * apart[i]!, 0) / squares;
}

/** A first-order autoregression about 1 s. */
function wandering(share: number, count: number, seed: number): number[] {
  const next = random(seed);
  let off = 0;
  return Array.from({ length: count }, () => {
    off = share * off + 0.05 * next.normal();
    return 1 + off;
  });
}

/** The same cycles, long and short by turns: neighbours are as unlike as can be. */
function byTurns(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.map((_, i) => (i % 2 === 0 ? sorted[i / 2]! : sorted[sorted.length - (i + 1) / 2]!));
}

describe("without edge errors, bounds of the mean period", () => {
  test.each([1, 2, 3])("are wider by (1 + r) / (1 - r) where neighbours are alike (seed %d)", (seed) => {
    const alike = wandering(0.7, 48, seed);
    const r = correlation(alike);
    expect(r).toBeGreaterThan(1.64 / Math.sqrt(48));
    expect((widthOf(alike) / widthOf(byTurns(alike))) ** 2).toBeCloseTo((1 + r) / (1 - r), 6);
  });

  test("are no wider for a likeness within chance, nor for cycles that are all the same", () => {
    const free = wandering(0, 48, 5);
    expect(Math.abs(correlation(free))).toBeLessThan(1.64 / Math.sqrt(48));
    expect(widthOf(free)).toBeCloseTo(widthOf(byTurns(free)), 9);
    expect(widthOf(Array.from({ length: 12 }, () => 1))).toBeLessThan(1e-3);
  });

  test("know no likeness beyond 0.9", () => {
    const rising = Array.from({ length: 60 }, (_, i) => 1 + i / 100);
    expect(correlation(rising)).toBeGreaterThan(0.9);
    expect((widthOf(rising) / widthOf(byTurns(rising))) ** 2).toBeCloseTo(1.9 / 0.1, 6);
  });
});
