import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apart } from "../../src/plot/lanes/time-flags.ts";

describe("apart", () => {
  test("leaves places that do not meet where they are", () => {
    expect(apart([10, 100], [50, 50])).toEqual([10, 100]);
  });

  // By reasoning: 30 px too close, shared evenly.
  test("moves two that meet by half of what they lack each", () => {
    expect(apart([100, 120], [50, 50])).toEqual([85, 135]);
  });

  test("keeps order and room for any crowd, about its middle", () => {
    const crowd = fc.array(
      fc.record({ place: fc.integer({ min: 0, max: 400 }), room: fc.integer({ min: 1, max: 80 }) }),
      {
        minLength: 1,
        maxLength: 8,
      },
    );
    fc.assert(
      fc.property(crowd, (list) => {
        const places = list.map(({ place }) => place).sort((a, b) => a - b);
        const rooms = list.map(({ room }) => room);
        const placed = apart(places, rooms);
        const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
        expect(mean(placed)).toBeCloseTo(mean(places), 6);
        for (let k = 1; k < placed.length; k++) {
          expect(placed[k]! - placed[k - 1]!).toBeGreaterThanOrEqual(rooms[k - 1]! - 1e-9);
        }
      }),
      { numRuns: 200, seed: 1 },
    );
  });
});
