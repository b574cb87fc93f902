// Fuel cuts within a span: a ratio taken over all of it holds them too, and that is said beside it.

import type { Seconds } from "../../signal/numbers/units.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import type { LiftOff, Span } from "../terms/analysis.ts";

type Cut = Pick<LiftOff, "at" | "fuelReturn" | "frontFall">;

/** When fuel came back; where that was not seen, until when it was seen not to. */
const endOf = ({ at, fuelReturn, frontFall }: Cut): Seconds =>
  fuelReturn.value ?? fuelReturn.low ?? frontFall.value ?? at;

/** While fuel was cut, with a second around short ones: no stretch is measured there. */
export const cutSpan = (cut: Cut): Span => ({ from: cut.at, to: Math.max(endOf(cut), cut.at + 1) });

export interface CutsIn {
  readonly count: number;
  /** How long fuel was cut within the span, all together. */
  readonly seconds: Seconds;
  /** Whether the end of one was not seen: it may have been longer. */
  readonly isOpen: boolean;
}

/** The cuts that are at least likely and were not taken out by hand, as far as they lie in the span. */
export function cutsIn(liftOffs: readonly LiftOff[], span: Span): CutsIn {
  const parts = liftOffs
    .filter(({ fuelCut, setAside }) => fuelCut !== "unknown" && setAside !== "hand")
    .map((cut) => ({
      seconds: Math.min(endOf(cut), span.to) - Math.max(cut.at, span.from),
      isOpen: cut.fuelReturn.value === null && endOf(cut) < span.to,
    }))
    .filter(({ seconds }) => seconds > 0);
  const seconds = parts.reduce((sum, part) => sum + part.seconds, 0);
  return { count: parts.length, seconds, isOpen: parts.some(({ isOpen }) => isOpen) };
}

/** "3 fuel cuts in it, 24 s, where both go lean together"; "" where there is none. */
export function cutsInWords({ count, seconds, isOpen }: CutsIn): string {
  if (count === 0) return "";
  const length = `${isOpen ? "at least " : ""}${formatValue(seconds, "s")}`;
  return `${count === 1 ? "1 fuel cut" : `${count} fuel cuts`} in it, ${length}, where both go lean`;
}
