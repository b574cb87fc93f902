// Fuel cuts within a span: a ratio taken over all of it holds them too, and that is said beside it.

import type { Seconds } from "../../signal/numbers/units.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import type { LiftOff, Span } from "../terms/analysis.ts";

/** While fuel was cut; at least a second, so that it shows. */
export function cutSpan({ at, fuelReturn, frontFall }: Pick<LiftOff, "at" | "fuelReturn" | "frontFall">): Span {
  const end = fuelReturn.value ?? frontFall.value ?? at;
  return { from: at, to: Math.max(end, at + 1) };
}

export interface CutsIn {
  readonly count: number;
  /** How long fuel was cut within the span, all together. */
  readonly seconds: Seconds;
}

/** The cuts that are at least likely and were not taken out by hand, as far as they lie in the span. */
export function cutsIn(liftOffs: readonly LiftOff[], span: Span): CutsIn {
  const parts = liftOffs
    .filter(({ fuelCut, setAside }) => fuelCut !== "unknown" && setAside !== "hand")
    .map(cutSpan)
    .map(({ from, to }) => Math.min(to, span.to) - Math.max(from, span.from))
    .filter((seconds) => seconds > 0);
  return { count: parts.length, seconds: parts.reduce((sum, seconds) => sum + seconds, 0) };
}

/** "3 fuel cuts in it, 24 s, where both go lean together"; "" where there is none. */
export function cutsInWords({ count, seconds }: CutsIn): string {
  if (count === 0) return "";
  return `${count === 1 ? "1 fuel cut" : `${count} fuel cuts`} in it, ${formatValue(seconds, "s")}, where both go lean`;
}
