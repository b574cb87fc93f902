// Closed forms of oxygen and gas transport.

import { describe, expect, test } from "vitest";
import { transportTime } from "../../src/exhaust/lift-offs/oxygen.ts";
import { totalTrim } from "../../src/exhaust/running/trims.ts";

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
