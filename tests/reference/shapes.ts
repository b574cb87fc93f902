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

/** A level that an edge meets; the weighted sum of those instants is wanted. */
export interface Meeting {
  readonly level: number;
  readonly weight: number;
}

/** Cramer-Rao deviations, s; Infinity where the samples leave the sum open. */
export interface BestDeviations {
  /** For one who knows the form: both levels, the width and the place are unknown. */
  readonly ofForm: number;
  /** For one who does not: the edge may be any mixture of the three forms as well. */
  readonly ofAnyForm: number;
}

/**
 * Cramer-Rao deviations of a sum of instants at which an edge around time 0 meets levels, from its samples in white noise.
 *
 * @param sigma  deviation of the noise.
 * Source: variance >= g' I^-1 g with the Fisher information I = J'J / sigma² (S. M. Kay, Estimation Theory, 1993, 3.6);
 * dt/dp = -(dy/dp) / (dy/dt) where the edge meets a level. The forms mixed in have the same middle and 10-90 % time.
 */
export function bestDeviations(
  shape: EdgeShape,
  stamps: Float64Array,
  sigma: number,
  meetings: readonly Meeting[],
): BestDeviations {
  const derivatives = derivativesOf(shape);
  const information = derivatives.map(() => derivatives.map(() => 0));
  const stride = Math.ceil(stamps.length / mostStamps);
  for (let i = 0; i < stamps.length; i += stride) {
    const row = derivatives.map((by) => by(stamps[i]!));
    row.forEach((p, a) => {
      row.forEach((q, b) => {
        information[a]![b]! += stride * p * q;
      });
    });
  }
  const byPlace = derivatives[3]!;
  const gradient = derivatives.map((by) =>
    meetings.reduce((sum, { level, weight }) => {
      const at = edgeCrossing(shape, level);
      return sum + (weight * by(at)) / byPlace(at);
    }, 0),
  );
  const among = (unknowns: number) => {
    const used = gradient.slice(0, unknowns);
    const matrix = information.slice(0, unknowns).map((row) => row.slice(0, unknowns));
    const solved = solve(matrix, used);
    const square = solved === null ? NaN : used.reduce((sum, g, k) => sum + g * solved[k]!, 0);
    return square >= 0 ? sigma * Math.sqrt(square) : Infinity;
  };
  return { ofForm: among(4), ofAnyForm: among(derivatives.length) };
}

/** Of the value at a time: by the first level, the second, the width, the place, and the share of each other form. */
function derivativesOf(shape: EdgeShape): ((t: number) => number)[] {
  const { from, to, width } = shape;
  const small = 1e-5;
  const between = (up: (t: number) => number, down: (t: number) => number, step: number) => (t: number) =>
    (up(t) - down(t)) / (2 * step);
  const wider = (by: number) => (t: number) => edgeValue({ ...shape, width: width * (1 + by) }, t);
  const later = (by: number) => (t: number) => edgeValue(shape, t - width * by);
  return [
    (t) => 1 - progress(shape, t),
    (t) => progress(shape, t),
    between(wider(small), wider(-small), width * small),
    between(later(small), later(-small), width * small),
    ...kinds
      .filter((kind) => kind !== shape.kind)
      .map((kind) => {
        const other = { ...shape, kind, width: (width * spanOf(shape.kind)) / spanOf(kind) };
        const shift = width * middleOf(shape.kind) - other.width * middleOf(kind);
        return (t: number) => (to - from) * (progress(other, t - shift) - progress(shape, t));
      }),
  ];
}

const kinds = ["exponential", "ramp", "erf"] as const;

/** Of an edge of width 1: the time from 10 to 90 %, and that of 50 %. */
const spanOf = (kind: EdgeShape["kind"]) =>
  edgeCrossing({ kind, from: 0, to: 1, width: 1 }, 0.9) - edgeCrossing({ kind, from: 0, to: 1, width: 1 }, 0.1);
const middleOf = (kind: EdgeShape["kind"]) => edgeCrossing({ kind, from: 0, to: 1, width: 1 }, 0.5);

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
