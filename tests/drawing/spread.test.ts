// Marks too close for a ring each become ticks, and none is lost without a trace.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { spread } from "../../src/drawing/spread.ts";

describe("spread", () => {
  test("leaves marks with room alone, and turns the others into ticks", () => {
    expect(spread([0, 20, 22, 24, 60], 10, 4)).toEqual({ alone: [0, 4], ticks: [20, 24] });
    expect(spread([], 10, 4)).toEqual({ alone: [], ticks: [] });
    expect(spread([5], 10, 4)).toEqual({ alone: [0], ticks: [] });
  });

  test("keeps rings and ticks apart, and each mark has one of them near", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 800, noNaN: true }), { maxLength: 400 }), (list) => {
        const places = list.sort((a, b) => a - b);
        const { alone, ticks } = spread(places, 12, 4);
        const rings = alone.map((i) => places[i]!);
        const isApart = (all: readonly number[], least: number) =>
          all.every((x, k) => k === 0 || x - all[k - 1]! >= least);
        expect(isApart(rings, 12)).toBe(true);
        expect(isApart(ticks, 4)).toBe(true);
        for (const place of places) {
          expect(rings.includes(place) || ticks.some((tick) => Math.abs(tick - place) < 4)).toBe(true);
        }
      }),
    );
  });
});
