// Whether a line runs through a text's room: closed forms of straight lines.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { struck } from "../../src/drawing/line-room.ts";
import { mapping } from "../../src/drawing/paths.ts";

const across = [mapping(0, 100, 0, 100), mapping(0, 100, 100, 0)] as const;
const line = (times: readonly number[], values: readonly number[]) => ({
  times: Float64Array.from(times),
  values: Float64Array.from(values),
  dense: false,
});

describe("struck", () => {
  test("a level line takes the whole width of a box that it runs through, and none of one beside it", () => {
    const level = line([0, 100], [50, 50]);
    expect(struck(level, { left: 20, right: 50, top: 40, bottom: 60 }, across)).toBeCloseTo(30, 9);
    expect(struck(level, { left: 20, right: 50, top: 51, bottom: 70 }, across)).toBe(0);
  });

  test("between two samples far apart it is the line that joins them that counts, not their levels", () => {
    const slope = line([0, 100], [0, 100]);
    // The diagonal is at 80 ± 1 px there.
    expect(struck(slope, { left: 19, right: 21, top: 0, bottom: 70 }, across)).toBe(0);
    expect(struck(slope, { left: 19, right: 21, top: 75, bottom: 90 }, across)).toBeCloseTo(2, 9);
  });

  test("nothing runs through a gap", () => {
    const gap = line([0, 10, 50, 90, 100], [50, 50, NaN, 50, 50]);
    expect(struck(gap, { left: 20, right: 80, top: 0, bottom: 100 }, across)).toBe(0);
  });

  test("is never more than the box is wide, and grows with its height", () => {
    const box = fc.record({
      left: fc.integer({ min: 0, max: 50 }),
      width: fc.integer({ min: 1, max: 50 }),
      top: fc.integer({ min: 0, max: 50 }),
      height: fc.integer({ min: 1, max: 40 }),
      values: fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 11, maxLength: 11 }),
    });
    fc.assert(
      fc.property(box, ({ left, width, top, height, values }) => {
        const drawn = line(
          values.map((_, i) => 10 * i),
          values,
        );
        const low = { left, right: left + width, top, bottom: top + height };
        const [short, tall] = [low, { ...low, bottom: low.bottom + 10 }].map((one) => struck(drawn, one, across));
        expect(short).toBeLessThanOrEqual(width + 1e-9);
        expect(tall).toBeGreaterThanOrEqual(short!);
      }),
      { numRuns: 60 },
    );
  });
});
