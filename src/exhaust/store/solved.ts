// A small set of symmetric linear equations.

/**
 * (A + damping x its diagonal) x = b, by Cholesky's factors; an unknown without any effect stays where it is.
 * Held at `least` and divided as it goes, apart from `numbers/cholesky.ts`: the descent is so sensitive that another order of rounding
 * leads it to other bounds of the store.
 *
 * @param matrix  A, n x n, symmetric, not negative. Read only, as is `right`, b.
 * @returns new, n long.
 */
export function solved(matrix: readonly Float64Array[], right: Float64Array, damping: number): Float64Array {
  const factor = factored(matrix, damping);
  const n = right.length;
  const x = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= factor[i]![k]! * x[k]!;
    x[i]! /= factor[i]![i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= factor[k]![i]! * x[k]!;
    x[i]! /= factor[i]![i]!;
  }
  return x;
}

/** Keeps a direction without effect from being divided by nothing. */
const least = 1e-6;

function factored(matrix: readonly Float64Array[], damping: number): Float64Array[] {
  const factor = matrix.map((row) => Float64Array.from(row));
  for (let i = 0; i < factor.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? matrix[i]![i]! * (1 + damping) + least : matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!;
      factor[i]![j] = i === j ? Math.sqrt(Math.max(sum, least)) : sum / factor[j]![j]!;
    }
  }
  return factor;
}
