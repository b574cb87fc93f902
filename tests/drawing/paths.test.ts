// A window as a line with gaps.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawLine, extentWithin, firstAfter, mapping, textPen, toPixel } from "../../src/drawing/paths.ts";

const one = { offset: 0, factor: 1 };

function path(times: number[], values: number[], dense = false): string {
  const pen = textPen();
  drawLine({ times: Float64Array.from(times), values: Float64Array.from(values), dense }, one, one, pen);
  return pen.text();
}

describe("drawLine", () => {
  test("lifts the pen over a gap", () => {
    expect(path([0, 1, 2, 3, 4], [1, 2, Number.NaN, 4, 5])).toBe("M0.0 1.0L0.0 1.0L1.0 2.0M3.0 4.0L3.0 4.0L4.0 5.0");
  });

  test("shows a lone sample between two gaps", () => {
    expect(path([0, 1, 2], [Number.NaN, 2, Number.NaN])).toBe("M1.0 2.0L1.0 2.0");
  });

  test("draws each column of a dense window once, entering at its nearer end", () => {
    expect(path([0, 0, 1, 1], [0, 5, 4, 9], true)).toBe("M0.0 0.0L0.0 0.0L0.0 5.0L1.0 4.0L1.0 9.0");
    expect(path([0, 0, 1, 1], [0, 5, 4, 6], true)).toBe("M0.0 0.0L0.0 0.0L0.0 5.0L1.0 4.0L1.0 6.0");
    expect(path([0, 0, 1, 1], [0, 5, -4, 6], true)).toBe("M0.0 0.0L0.0 0.0L0.0 5.0L1.0 6.0L1.0 -4.0");
  });
});

describe("extentWithin", () => {
  test("holds the neighbours just outside, and ignores gaps", () => {
    const line = {
      times: Float64Array.of(0, 1, 2, 3, 4),
      values: Float64Array.of(9, 1, Number.NaN, 3, -9),
      dense: false,
    };
    expect(extentWithin(line, 1.5, 2.5)).toEqual([1, 3]);
    expect(extentWithin(line, 10, 11)).toEqual([-9, -9]);
    expect(extentWithin({ ...line, values: new Float64Array(5).fill(Number.NaN) }, 0, 4)).toBeNull();
  });
});

describe("firstAfter and mapping", () => {
  test("finds the same place as a walk through the array", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 })), fc.integer({ min: -1, max: 21 }), (numbers, at) => {
        const times = Float64Array.from(numbers).sort();
        const found = [...times].findIndex((time) => time > at);
        expect(firstAfter(times, at)).toBe(found < 0 ? times.length : found);
      }),
    );
  });

  test("maps both ends where they belong", () => {
    const map = mapping(2, 4, 100, 0);
    expect([toPixel(map, 2), toPixel(map, 3), toPixel(map, 4)]).toEqual([100, 50, 0]);
  });
});
