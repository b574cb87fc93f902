// Numbers as people read them.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { atLeast, atMost, measured, notResolvable } from "../../../src/signal/numbers/reading.ts";
import { formatNumber } from "../../../src/signal/written/digits.ts";
import { formatReading, formatTime, formatValue, readingInWords } from "../../../src/signal/written/reading-text.ts";

describe("formatReading", () => {
  // Particle Data Group, Review of Particle Physics, section 5.3 "Rounding": 0.827 +- 0.119 is written 0.83 +- 0.12,
  // and 0.827 +- 0.367 is written 0.8 +- 0.4.
  test("gives as many digits as the Particle Data Group's rule does", () => {
    expect(formatReading(measured(0.827, [0.827 - 0.119, 0.827 + 0.119], "V")).value).toBe("0.83\u00a0V");
    expect(formatReading(measured(0.827, [0.827 - 0.367, 0.827 + 0.367], "V")).value).toBe("0.8\u00a0V");
  });

  test("writes value, bounds and unit, and drops zeros that tell nothing", () => {
    expect(formatReading(measured(0.05, [0.04, 0.06], "s"))).toEqual({ value: "0.05\u00a0s", bounds: "0.04 … 0.06" });
    expect(formatReading(measured(1.42, [1.39, 1.45], "Hz"))).toEqual({ value: "1.42\u00a0Hz", bounds: "1.39 … 1.45" });
    expect(formatReading(measured(-0.2, [-0.4, 0.1], "s"))).toEqual({ value: "−0.2\u00a0s", bounds: "−0.4 … 0.1" });
  });

  test("writes no 0 for a low bound that is known to be more", () => {
    expect(readingInWords(measured(3, [0.84, 10.4], "g"))).toBe("3\u00a0g (0.8 … 11)");
    expect(readingInWords(measured(0.02, [0.0085, 0.17], "g"))).toBe("0.02\u00a0g (0.008 … 0.17)");
    expect(readingInWords(measured(3, [1e-9, 10.4], "g"))).toBe("3\u00a0g (0 … 11)");
  });

  test("shows short times in milliseconds when thousandths of a second are known", () => {
    expect(formatReading(measured(0.0423, [0.0391, 0.0452], "s"))).toEqual({
      value: "42.3\u00a0ms",
      bounds: "39.1 … 45.2",
    });
  });

  test("words what is bounded on one side, rounded to the safe side", () => {
    expect(formatReading(atLeast(1.4076, "s"))).toEqual({ value: "at least 1.4\u00a0s", bounds: "" });
    expect(formatReading(atMost(0.2961, "s"))).toEqual({ value: "at most 0.3\u00a0s", bounds: "" });
    expect(formatReading(atMost(0.0423, "s")).value).toBe("at most 43\u00a0ms");
    expect(formatReading(atMost(3, "1")).value).toBe("at most 3");
  });

  test("says that it is not measurable, with what is known", () => {
    expect(formatReading(notResolvable("s", "too slow"))).toEqual({ value: "not measurable", bounds: "" });
    expect(formatReading(notResolvable("s", "too slow", { low: 0.1, high: 0.7 })).bounds).toBe("0.1 … 0.7\u00a0s");
    expect(readingInWords(notResolvable("Hz", "too slow", { low: 2 }))).toBe("not measurable (at least 2\u00a0Hz)");
  });

  test("claims no more than four digits, however narrow the bounds", () => {
    expect(formatReading(measured(0.0588248, [0.0588247, 0.0588249], "Hz")).value).toBe("0.05882\u00a0Hz");
    expect(formatReading(measured(0.1686, [0.16859, 0.16861], "s"))).toEqual({
      value: "168.6\u00a0ms",
      bounds: "168.5 … 168.7",
    });
    expect(formatReading(measured(4491.2, [4491, 4491.4], "1/min")).value).toBe("4491\u00a0rpm");
  });

  test("leaves out bounds that add nothing: a count", () => {
    expect(formatReading(measured(20, [20, 20], "1"))).toEqual({ value: "20", bounds: "" });
  });

  test("never shows bounds narrower than the true ones, nor more than doubles them, and holds the value", () => {
    const plain = (text: string) => Number(text.replace("−", "-").replace(/[\u202f\u00a0V]/g, ""));
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 1e-6, max: 1e3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (low, width, share) => {
          const high = low + width;
          const value = Math.min(high, low + share * width);
          const text = formatReading(measured(value, [low, high], "V"));
          const shown = plain(text.value);
          const [from, to] = (text.bounds === "" ? [text.value, text.value] : text.bounds.split(" … ")).map(plain) as [
            number,
            number,
          ];
          // The fourth digit, of the larger bound.
          const digit = 10 ** (Math.floor(Math.log10(Math.max(Math.abs(low), Math.abs(high)))) - 3);
          const give = 1e-8 * Math.max(1, Math.abs(low), Math.abs(high));
          expect(from).toBeLessThanOrEqual(low + give);
          expect(to).toBeGreaterThanOrEqual(high - give);
          expect(shown).toBeGreaterThanOrEqual(from - give);
          expect(shown).toBeLessThanOrEqual(to + give);
          expect(to - from).toBeLessThanOrEqual(Math.max(2 * width, width + 2 * digit) + give);
        },
      ),
    );
  });
});

describe("formatValue and formatTime", () => {
  test("give the digits a step can tell apart", () => {
    expect(formatTime(31.2, 0.01)).toBe("31.20\u00a0s");
    expect(formatTime(31.2, 0.0078)).toBe("31.200\u00a0s");
    expect(formatValue(812.4, "1/min", 5)).toBe("812\u00a0rpm");
    expect(formatValue(-40, "degC")).toBe("−40\u00a0°C");
    expect(formatValue(Number.NaN, "V")).toBe("no value");
  });

  // ISO 80000-1, 7.3.1: digits in groups of three, set apart by a small space, never by a comma or a point.
  test("set thousands apart by a small space", () => {
    expect(formatNumber(142300, 0)).toBe("142\u202f300");
    expect(formatNumber(4500, 0)).toBe("4500");
  });

  test("a half is rounded away from zero on either side of it", () => {
    expect(formatNumber(12.5, 0)).toBe("13");
    expect(formatNumber(-12.5, 0)).toBe("−13");
    expect(formatNumber(-0.25, 1)).toBe("−0.3");
    expect(formatNumber(-0.4, 0)).toBe("0");
  });
});
