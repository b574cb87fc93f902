// The equations behind the fit of the store.

import fc from "fast-check";
import { expect, test } from "vitest";
import { solved } from "../../src/exhaust/store/solved.ts";

// By hand: 4x + 2y = 10, 2x + 3y = 9 has x = 1.5, y = 2.
test("two equations with two unknowns are solved", () => {
  const [x, y] = solved([Float64Array.of(4, 2), Float64Array.of(2, 3)], Float64Array.of(10, 9), 0);
  expect(x).toBeCloseTo(1.5, 5);
  expect(y).toBeCloseTo(2, 5);
});

test("an unknown without any effect stays where it is", () => {
  const [x, y] = solved([Float64Array.of(4, 0), Float64Array.of(0, 0)], Float64Array.of(8, 0), 0);
  expect(x).toBeCloseTo(2, 5);
  expect(y).toBe(0);
});

test("damping shortens the step, and turns it downhill at most", () => {
  const value = fc.double({ min: -3, max: 3, noNaN: true });
  const three = fc.array(value, { minLength: 3, maxLength: 3 });
  fc.assert(
    fc.property(fc.array(three, { minLength: 3, maxLength: 3 }), three, (rows, right) => {
      // B'B + I is symmetric and positive whatever B is.
      const matrix = rows.map((_, i) =>
        Float64Array.from(rows, (_, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, i === j ? 1 : 0)),
      );
      const b = Float64Array.from(right);
      const [free, damped] = [solved(matrix, b, 0), solved(matrix, b, 10)];
      const back = matrix.map((row) => row.reduce((sum, a, j) => sum + a * free[j]!, 0));
      for (const [i, one] of back.entries()) expect(one).toBeCloseTo(b[i]!, 3);
      const downhill = damped.reduce((sum, one, i) => sum + one * b[i]!, 0);
      expect(downhill).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 50 },
  );
});
