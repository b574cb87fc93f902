// Quantiles of Student's t, for intervals from few events.

/** Two-sided 95 % of a normal distribution, in deviations. */
export const coverage = 1.96;

/** Two-sided 95 % quantiles for 1 … 10 degrees of freedom (published tables, e.g. NIST/SEMATECH handbook 1.3.6.7.2). */
const table = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];

/**
 * Two-sided 95 % quantile of Student's t.
 *
 * @param freedom  degrees of freedom, >= 1.
 * Beyond the table z + (z³ + z) / 4f + (5z⁵ + 16z³ + 3z) / 96f² (Cornish-Fisher), right to 0.1 %.
 * @throws RangeError below one degree of freedom (a caller's bug).
 */
export function studentQuantile(freedom: number): number {
  if (!(freedom >= 1)) throw new RangeError(`want at least one degree of freedom, got ${freedom}`);
  if (freedom <= table.length) return table[Math.floor(freedom) - 1]!;
  const z = 1.959964;
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  return z + first / freedom + second / freedom ** 2;
}
