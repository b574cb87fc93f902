import { describe, expect, test } from "vitest";
import {
  delayBetween,
  difference,
  integralTimes,
  medianOf,
  ratio,
  scaled,
} from "../../src/signal/combining/combine.ts";
import { atLeast, measured } from "../../src/signal/numbers/reading.ts";

describe("delayBetween", () => {
  const fall = { time: 0.5, low: 0, high: 1 };
  const later = { time: 1.5, low: 1, high: 2 };

  // Interval arithmetic by hand: falls in neighbouring rows of a 1 Hz log.
  test("says 0 to 2 s for neighbouring rows asked at once, 0 to 3 s when the order of asking is unknown", () => {
    expect(delayBetween(fall, later)).toMatchObject({ low: 0, high: 2, value: 2, grade: "at-most" });
    const doubt = { early: 1, late: 0 };
    expect(delayBetween(fall, later, { a: doubt, b: doubt })).toMatchObject({ low: 0, high: 3, grade: "at-most" });
  });

  test("is measured when zero lies outside", () => {
    const reading = delayBetween({ time: 0, low: -0.1, high: 0.1 }, { time: 0.6, low: 0.5, high: 0.7 });
    expect(reading.grade).toBe("measured");
    expect(reading.low).toBeCloseTo(0.4, 12);
    expect(reading.high).toBeCloseTo(0.8, 12);
  });
});

describe("combining readings", () => {
  const a = measured(4, [3, 5], "V");
  const b = measured(2, [1, 3], "V");

  // Interval arithmetic (R. E. Moore, Interval Analysis, 1966).
  test("takes errors as common unless told otherwise", () => {
    expect(difference(a, b, "V")).toMatchObject({ value: 2, low: 0, high: 4 });
    const apart = difference(a, b, "V", { independent: true });
    expect(apart.low).toBeCloseTo(2 - Math.SQRT2, 12);
    expect(ratio(a, b)).toMatchObject({ value: 2, low: 1, high: 5, unit: "1" });
  });

  test("keeps an open side open", () => {
    expect(difference(atLeast(2, "s"), measured(1, [0.5, 1.5], "s"), "s")).toMatchObject({
      grade: "at-least",
      low: 0.5,
      high: null,
    });
    expect(ratio(a, measured(0.5, [-1, 2], "V")).grade).toBe("at-least");
    expect(ratio(a, measured(0, [0, 0], "V")).grade).toBe("not-resolvable");
    expect(medianOf([a, atLeast(5, "V"), atLeast(6, "V")], "V").grade).toBe("at-least");
  });

  // Rows 36 and section 4: 10 g/s for 0.60 ± 0.05 s, weight share of oxygen in air 0.2314, air flow ± 10 %: ± 13 %.
  test("turns a delay and a flow into grams with bounds", () => {
    const flow = {
      time: { kind: "even" as const, start: 0, step: 0.5, count: 10 },
      samples: new Float64Array(10).fill(10),
    };
    const grams = integralTimes(flow, 1, measured(0.6, [0.55, 0.65], "s"), {
      factor: 0.2314,
      tolerance: 0.1,
      unit: "g",
    });
    expect(grams.value).toBeCloseTo(1.388, 3);
    expect(grams.high! / grams.value!).toBeCloseTo(1.13, 2);
    expect(scaled(measured(6, [5.5, 6.5], "1"), 0.2314, "g", { tolerance: 0.1 }).value).toBeCloseTo(1.3884, 4);
  });
});
