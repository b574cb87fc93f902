// Median time of a cycle, and of the half-cycles between crossings, with what hidden edges leave open.

import type { Crossings } from "../edges/crossings.ts";
import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import type { Seconds } from "../numbers/units.ts";
import { medianOfNumbers, spreadOfMedian } from "../statistics/statistics.ts";

/** Median of the times from one rising crossing to the next; see `medianSpell`. */
export const medianPeriodOf = (crossings: Crossings): Reading => medianSpell(crossings, "period");

/** Median of the times from each crossing to the next, rising or falling; see `medianSpell`. */
export const medianHalfCycleOf = (crossings: Crossings): Reading => medianSpell(crossings, "half-cycle");

/**
 * Median with bounds.
 *
 * @param crossings  of one channel, in the order of time; spells across a gap are left out.
 * @returns s; count = spells. `not-resolvable` without any, or where the bounds would be wider than the value.
 *
 * Bounds: the spread of the spells and the noise of their edges, in squares, get smaller with the root of their number. What sampling
 * leaves open at the two ends of a spell (an edge that hides between two samples) does not: cycles may run in step with the
 * samples, and then every edge errs alike. It is added in full, as is what the stamps leave open.
 */
function medianSpell(crossings: Crossings, kind: "period" | "half-cycle"): Reading {
  const { lengths, open, noise } = spellsOf(crossings, kind);
  const count = lengths.length;
  if (count === 0) return notResolvable("s", "it did not switch often enough in this span", { count });
  const value = medianOfNumbers(lengths);
  const half = Math.hypot(spreadOfMedian(lengths), medianOfNumbers(noise) / Math.sqrt(count));
  const reach = half + medianOfNumbers(open) + crossings.slack;
  if (2 * reach > value) {
    const because =
      "too few, too uneven or too coarsely sampled cycles for a median; a longer span or a higher rate would tell";
    return notResolvable("s", because, { low: Math.max(0, value - reach), high: value + reach, count });
  }
  return measured(value, [value - reach, value + reach], "s", { count });
}

interface Spells {
  /** s, and of each what sampling leaves open at its ends, and 95 % of the noise there. */
  readonly lengths: Float64Array;
  readonly open: Seconds[];
  readonly noise: Seconds[];
}

function spellsOf({ times, low, high, deviations, rising, runs }: Crossings, kind: "period" | "half-cycle"): Spells {
  const [lengths, open, noise]: [number[], number[], number[]] = [[], [], []];
  const rest = (k: number) => Math.max(0, (high[k]! - low[k]!) / 2 - coverage * deviations[k]!);
  let before = -1;
  for (let k = 0; k < times.length; k++) {
    if (kind === "period" && rising[k] !== 1) continue;
    if (before >= 0 && runs[k] === runs[before]) {
      lengths.push(times[k]! - times[before]!);
      open.push(rest(before) + rest(k));
      // Twice the error of the two ends: that of a median is a quarter more than that of a mean, and deviations are estimates.
      noise.push(2 * coverage * Math.hypot(deviations[before]!, deviations[k]!));
    }
    before = k;
  }
  return { lengths: Float64Array.from(lengths), open, noise };
}
