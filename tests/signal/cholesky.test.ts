// Cholesky's factor against a worked example and against what it must give back.

import { expect, test } from "vitest";
import { factorise, solveLower, solveUpper, triangleOf } from "../../src/signal/numbers/cholesky.ts";

// By hand: L = (2; 6 1; -8 5 3) gives A = L L' = (4; 12 37; -16 -43 98).
function example() {
  const triangle = triangleOf(3);
  triangle.rows.set([4, 12, 37, -16, -43, 98]);
  return triangle;
}

test("a matrix made of whole numbers is factored into them", () => {
  const triangle = example();
  expect(factorise(triangle, 3)).toBe(3);
  expect([...triangle.rows]).toEqual([2, 6, 1, -8, 5, 3]);
});

test("both triangles together give back what the matrix was multiplied by", () => {
  const triangle = example();
  factorise(triangle, 3);
  const x = Float64Array.of(4 - 24 - 48, 12 - 74 - 129, -16 + 86 + 294); // A (1, -2, 3)
  solveLower(triangle, x, 3);
  solveUpper(triangle, x, 3);
  expect([...x]).toEqual([1, -2, 3]);
});

test("rows that say again what those before said end the factor", () => {
  const triangle = triangleOf(2);
  triangle.rows.set([1, 2, 4]);
  expect(factorise(triangle, 2)).toBe(1);
});
