// Edges and waves with a closed form: their value at any time, the true time they cross a level, and the best that any
// estimator could do on their samples.

/** An edge between two levels around time 0. */
export interface EdgeShape {
  readonly kind: "exponential" | "ramp" | "erf";
  readonly from: number;
  readonly to: number;
  /** Time constant, total length, or deviation of the underlying Gaussian, s. */
  readonly width: number;
}

/** Share of the way done at time t, 0 … 1. */
function progress({ kind, width }: EdgeShape, t: number): number {
  if (kind === "ramp") return Math.min(1, Math.max(0, t / width + 0.5));
  if (kind === "erf") return 0.5 * (1 + erf(t / (width * Math.SQRT2)));
  return t < 0 ? 0 : 1 - Math.exp(-t / width);
}

export function edgeValue(shape: EdgeShape, t: number): number {
  return shape.from + (shape.to - shape.from) * progress(shape, t);
}

/** Where the edge crosses the level, in closed form; the erf edge by bisection to 1e-12 s. */
export function edgeCrossing(shape: EdgeShape, level: number): number {
  const share = (level - shape.from) / (shape.to - shape.from);
  if (shape.kind === "ramp") return (share - 0.5) * shape.width;
  if (shape.kind === "exponential") return -shape.width * Math.log(1 - share);
  let [low, high] = [-8 * shape.width, 8 * shape.width];
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (progress(shape, middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Error function to 1.2e-7: W. J. Cody's style rational fit as given in Numerical Recipes, erfc Chebyshev form. */
export function erf(x: number): number {
  const z = Math.abs(x);
  const t = 1 / (1 + 0.5 * z);
  const c = [-1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587];
  const poly = [...c, -0.82215223, 0.17087277].reduceRight((sum, k) => sum * t + k, 0);
  const complement = t * Math.exp(-z * z + poly);
  return x >= 0 ? 1 - complement : complement - 1;
}

/** Information is a sum over samples; beyond this many an even part of them, weighted, gives the same to a few percent. */
const mostStamps = 300;

/**
 * Cramer-Rao deviation of functions of an edge's crossing times, from its samples, when both levels, the width and the
 * place are unknown and the noise is white with deviation sigma.
 *
 * @param target  the quantity, as a function of the shape and its place: differentiated numerically.
 * Source: variance >= g' I^-1 g with the Fisher information I = J'J / sigma² (S. M. Kay, Estimation Theory, 1993, 3.6).
 */
export function bestDeviation(
  shape: EdgeShape,
  stamps: Float64Array,
  sigma: number,
  target: (shape: EdgeShape, place: number) => number,
): number {
  const theta = [shape.from, shape.to, shape.width, 0];
  const made = (p: readonly number[]): [EdgeShape, number] => [
    { ...shape, from: p[0]!, to: p[1]!, width: p[2]! },
    p[3]!,
  ];
  const small = [1e-5, 1e-5, 1e-5 * shape.width, 1e-5 * shape.width];
  const moved = (k: number, sign: number) => made(theta.map((v, j) => (j === k ? v + sign * small[k]! : v)));
  const slope = (f: (s: EdgeShape, place: number) => number) =>
    small.map((h, k) => (f(...moved(k, 1)) - f(...moved(k, -1))) / (2 * h));
  const information = [0, 1, 2, 3].map(() => [0, 0, 0, 0]);
  const stride = Math.ceil(stamps.length / mostStamps);
  for (let i = 0; i < stamps.length; i += stride) {
    const t = stamps[i]!;
    const j = slope((s, place) => edgeValue(s, t - place));
    for (let a = 0; a < 4; a++) for (let b = 0; b < 4; b++) information[a]![b]! += stride * j[a]! * j[b]!;
  }
  const gradient = slope(target);
  const solved = solve(information, gradient);
  return solved === null ? Infinity : sigma * Math.sqrt(gradient.reduce((sum, g, k) => sum + g * solved[k]!, 0));
}

/** Gauss elimination with pivoting; null for a singular matrix. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const rows = matrix.map((row, k) => [...row, right[k]!]);
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    const pivot = rows
      .slice(c)
      .reduce((best, row, k) => (Math.abs(row[c]!) > Math.abs(rows[best]![c]!) ? c + k : best), c);
    [rows[c], rows[pivot]] = [rows[pivot]!, rows[c]!];
    if (Math.abs(rows[c]![c]!) < 1e-14) return null;
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const factor = rows[r]![c]! / rows[c]![c]!;
      for (let k = c; k <= n; k++) rows[r]![k]! -= factor * rows[c]![k]!;
    }
  }
  return rows.map((row, k) => row[n]! / row[k]!);
}
