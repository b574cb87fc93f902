// Symmetric, positive linear equations, by Cholesky's factor: A = L L' (Golub and Van Loan, Matrix Computations, 4.2).

/** A matrix up to its diagonal, row after row; once factored, L. Its leading rows are those of the leading block of A. */
export interface Triangle {
  readonly rows: Float64Array;
  /** One over each of L's diagonal. */
  readonly inverse: Float64Array;
}

/** Room for `size` rows, all 0. */
export const triangleOf = (size: number): Triangle => ({
  rows: new Float64Array(rowAt(size)),
  inverse: new Float64Array(size),
});

/** Where row `r` begins. */
function rowAt(r: number): number {
  return (r * (r + 1)) >> 1;
}

/** A pivot that keeps less than this share of its own place on the diagonal is rounding alone. */
const leastKept = 1e-9;

/**
 * Turns the leading `size` rows of A into those of L, in place.
 * @returns how many rows A determines.
 */
export function factorise({ rows, inverse }: Triangle, size: number): number {
  for (let r = 0; r < size; r++) {
    const own = rowAt(r);
    for (let c = 0; c <= r; c++) {
      const other = rowAt(c);
      const given = rows[own + c]!;
      let sum = given;
      for (let k = 0; k < c; k++) sum -= rows[own + k]! * rows[other + k]!;
      if (c < r) {
        rows[own + c] = sum * inverse[c]!;
        continue;
      }
      if (!(sum > leastKept * given)) return r;
      rows[own + r] = Math.sqrt(sum);
      inverse[r] = 1 / rows[own + r]!;
    }
  }
  return size;
}

/** Solves L x = values for the leading `size` rows, in place. @returns the sum of their squares. */
export function solveLower({ rows, inverse }: Triangle, values: Float64Array, size: number): number {
  let at = 0;
  let squares = 0;
  for (let r = 0; r < size; r++) {
    let value = values[r]!;
    for (let c = 0; c < r; c++) value -= rows[at + c]! * values[c]!;
    value *= inverse[r]!;
    values[r] = value;
    squares += value * value;
    at += r + 1;
  }
  return squares;
}

/** Solves L' x = values for the leading `size` rows, in place. */
export function solveUpper({ rows, inverse }: Triangle, values: Float64Array, size: number): void {
  for (let r = size - 1; r >= 0; r--) {
    let value = values[r]!;
    for (let c = r + 1; c < size; c++) value -= rows[rowAt(c) + r]! * values[c]!;
    values[r] = value * inverse[r]!;
  }
}
