// What steady running says of the catalyst, stretch by stretch: the rear follows, keeps calm, or something between.

import type { Reading } from "../../signal/numbers/reading.ts";
import type { Stretch } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";

/**
 * "busy": swings far and often. "partial": swings far, but seldom passes either level, or the other way round. "quiet":
 * neither. "between": none of these is certain.
 */
export type SteadyVerdict = "busy" | "partial" | "quiet" | "between";

export interface SteadyEvidence {
  readonly stretch: Stretch;
  readonly verdict: SteadyVerdict;
}

const worstFirst: readonly SteadyVerdict[] = ["busy", "partial", "between", "quiet"];

/** Every fit stretch, the worst first: a catalyst lets go where it is weakest. */
export function steadyEvidence(fit: readonly Stretch[], limits: Limits): SteadyEvidence[] {
  const all = fit.map((stretch) => ({ stretch, verdict: verdictOf(stretch, limits) }));
  return all.sort((a, b) => worstFirst.indexOf(a.verdict) - worstFirst.indexOf(b.verdict) || swing(b) - swing(a));
}

const swing = ({ stretch }: SteadyEvidence): number => stretch.activity?.amplitudeRatio.value ?? 0;

function verdictOf({ activity }: Stretch, limits: Limits): SteadyVerdict {
  if (!activity) return "between";
  const { amplitudeRatio, crossingRatio, ownLevelRatio } = activity;
  const wide = isAbove(amplitudeRatio, limits.busyAmplitude);
  // A rear that swings beside 0.45 V is seen by its own mid-level; a small ripple about 0.45 V is not, for it is not wide.
  const often = isAbove(crossingRatio, limits.busyCrossing) || (wide && isAbove(ownLevelRatio, limits.busyCrossing));
  if (wide && often) return "busy";
  const small = isBelow(amplitudeRatio, limits.quietAmplitude);
  const seldom = isBelow(crossingRatio, limits.quietCrossing);
  if (small && seldom) return "quiet";
  if ((wide && seldom) || (small && often)) return "partial";
  return "between";
}

const isAbove = ({ low }: Reading, least: number): boolean => low !== null && low > least;
const isBelow = ({ high }: Reading, most: number): boolean => high !== null && high < most;
