// Numbers said in the units chosen on this machine.

import { formatValue } from "../../drawing/format.ts";
import { shownAs } from "../../drawing/shown-units.ts";

/** A value with its unit, to a step that suits it. @param isStep a difference: a scale's zero does not shift it. */
export function sayIn(value: number, unit: string, isStep = false): string {
  const { unit: shown, times, plus } = shownAs(unit);
  const said = value * times + (isStep ? 0 : plus);
  const size = Math.abs(said);
  const isWhole = Math.abs(said - Math.round(said)) < 1e-9;
  return formatValue(said, shown, isWhole || size >= 20 ? 1 : size >= 2 ? 0.1 : 0.01);
}
