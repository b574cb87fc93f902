// What a dimension says.

import { describe, expect, test } from "vitest";
import { asFrequency, dimensionTexts } from "../../src/drawing/dimension-text.ts";
import { atLeast, atMost, measured, notResolvable } from "../../src/signal/numbers/reading.ts";

describe("dimensionTexts", () => {
  test("gives the value, then bounds and label", () => {
    const reading = measured(0.05, [0.04, 0.06], "s");
    expect(dimensionTexts(reading, "front to rear")).toEqual(["0.05\u00a0s", "0.04 … 0.06, front to rear"]);
    expect(dimensionTexts(atLeast(1.4, "s"), "")).toEqual(["at least 1.4\u00a0s"]);
  });
});

// Closed form: f = 1 / T; the longest time is the lowest frequency.
describe("asFrequency", () => {
  test("turns a time and its bounds round", () => {
    expect(asFrequency(measured(0.5, [0.4, 0.8], "s"))).toMatchObject({ value: 2, low: 1.25, high: 2.5, unit: "Hz" });
    expect(asFrequency(measured(-0.5, [-0.8, -0.4], "s"))).toMatchObject({ value: 2, low: 1.25, high: 2.5 });
  });

  test("a time that may be zero gives a lowest frequency only; a longer time a highest one", () => {
    expect(asFrequency(measured(0.1, [-0.1, 0.25], "s"))).toMatchObject({ low: 4, high: null, grade: "at-least" });
    expect(asFrequency(atMost(0.25, "s"))).toMatchObject({ low: 4, high: null, grade: "at-least" });
    expect(asFrequency(atLeast(2, "s"))).toMatchObject({ value: 0.5, low: 0, high: 0.5, grade: "at-most" });
  });

  test("cannot say what the time cannot say, and leaves volts alone", () => {
    expect(asFrequency(notResolvable("s", "too slow"))).toMatchObject({ value: null, because: "too slow" });
    const volts = measured(0.4, [0.3, 0.5], "V");
    expect(asFrequency(volts)).toBe(volts);
  });
});
