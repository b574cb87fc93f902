// Quantiles of a mixture of normal distributions.

export interface Normal {
  /** Relative weight, >= 0. */
  readonly weight: number;
  readonly middle: number;
  /** >= 0; 0 is a single value. */
  readonly variance: number;
}

/** A part lighter than this share of the heaviest moves no quantile that is looked at. */
const lightest = 1e-5;

/**
 * Value below which a share of the mixture lies.
 *
 * @param parts  at least one, not all without weight; any one unit.
 * @param share  0.001 … 0.999.
 * @returns in that unit, to 1e-7 of the range of the parts, by bisection.
 */
export function quantileOf(parts: readonly Normal[], share: number): number {
  const heaviest = largestOf(parts.map(({ weight }) => weight));
  const kept = parts.filter(({ weight }) => weight >= lightest * heaviest);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const widest = 6 * Math.sqrt(largestOf(kept.map(({ variance }) => variance)));
  let low = -largestOf(kept.map(({ middle }) => -middle)) - widest;
  let high = largestOf(kept.map(({ middle }) => middle)) + widest;
  for (let round = 0; round < 40; round++) {
    const middle = (low + high) / 2;
    let below = 0;
    for (const part of kept) below += part.weight * shareBelow(part, middle);
    if (below < share * total) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function shareBelow({ middle, variance }: Normal, value: number): number {
  if (!(variance > 0)) return value < middle ? 0 : 1;
  const z = (value - middle) / Math.sqrt(variance);
  const beyond = normalBeyond(Math.abs(z)) / 2;
  return z < 0 ? beyond : 1 - beyond;
}

/** Share of a normal distribution beyond ± z, z >= 0: Abramowitz & Stegun 7.1.26, to 1.5e-7. */
function normalBeyond(z: number): number {
  if (!(z < 8)) return 0;
  const x = z / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return poly * Math.exp(-x * x);
}

/**
 * Largest of some numbers; -Infinity of none.
 *
 * @param values  NaN spreads.
 */
export function largestOf(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, value), -Infinity);
}
