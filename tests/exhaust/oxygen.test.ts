// Closed forms of oxygen and gas transport.

import { describe, expect, test } from "vitest";
import { oxygenPassed, transportTime } from "../../src/exhaust/lift-offs/oxygen.ts";
import { totalTrim } from "../../src/exhaust/running/trims.ts";

describe("oxygenPassed", () => {
  // By hand: share of oxygen x air x time x (1 - 1/lambda); 0.23 and 0.2314 (0.2095 x 32.00 / 28.97) for the share.
  test.each([
    [{ gramsPerSecond: 10 }, 0.6, 1.388],
    [{ gramsPerSecond: 10, share: 0.23 }, 0.6, 1.38],
    [{ gramsPerSecond: 15, lambda: 1.05, share: 0.23 }, 1.2, 0.197],
    [{ gramsPerSecond: 20, lambda: 0.9, share: 0.23 }, 1, -0.511],
    [{ gramsPerSecond: 3, share: 0.23 }, 0.2, 0.138],
  ])("of %o over %f s is %f g", (flow, seconds, grams) => {
    expect(Math.abs(oxygenPassed(flow, seconds) / grams - 1)).toBeLessThan(0.01);
  });

  test("is nothing at lambda 1", () => {
    expect(oxygenPassed({ gramsPerSecond: 10, lambda: 1 }, 5)).toBe(0);
  });
});

describe("transportTime", () => {
  // Ideal gas law by hand, 101.3 kPa: 2 L at 700 K and 10 g/s take 0.101 s; at 900 K and 20 g/s 0.039 s.
  test.each([
    [{ litres: 2, kelvin: 700, gramsPerSecond: 10 }, 0.101],
    [{ litres: 2, kelvin: 900, gramsPerSecond: 20 }, 0.039],
  ])("of %o is %f s", (way, seconds) => {
    expect(Math.abs(transportTime(way) / seconds - 1)).toBeLessThan(0.02);
  });
});

describe("totalTrim", () => {
  // By hand: 1.08 x 1.12 = 1.2096.
  test("multiplies, it does not add", () => {
    expect(totalTrim(8, 12)).toBeCloseTo(20.96, 9);
    expect(totalTrim(-10, 10)).toBeCloseTo(-1, 9);
  });
});
