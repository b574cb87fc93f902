// One step of the fit: a small set of symmetric linear equations.

import { factorise, solveLower, solveUpper, triangleOf } from "../../signal/numbers/cholesky.ts";

/**
 * (A + damping x its diagonal) x = b; an unknown without any effect stays where it is.
 *
 * @param matrix  A, n x n, symmetric, not negative. Read only, as is `right`, b.
 * @returns new, n long.
 */
export function solved(matrix: readonly Float64Array[], right: Float64Array, damping: number): Float64Array {
  const n = right.length;
  const factor = triangleOf(n);
  const { rows } = factor;
  for (let i = 0, at = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) rows[at++] = i === j ? matrix[i]![i]! * (1 + damping) + least : matrix[i]![j]!;
  }
  factorise(factor, n, least);
  const x = Float64Array.from(right);
  solveLower(factor, x, n);
  solveUpper(factor, x, n);
  return x;
}

/** Keeps a direction without effect from being divided by nothing. */
const least = 1e-6;
