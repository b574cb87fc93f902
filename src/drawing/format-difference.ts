// A difference of two values of one channel, with its sign: "+0.31 V". Where a unit has a zero of its own (°F), only its size counts.

import { decimalsOfStep, formatNumber, storedUnit } from "./format.ts";
import { shownAs } from "./shown-units.ts";

/** @param step what can be told apart, in `unit`; > 0. */
export function formatDifference(value: number, unit: string, step: number): string {
  const { unit: shown, times } = shownAs(unit);
  const decimals = decimalsOfStep(step * times);
  const size = formatNumber(Math.abs(value * times), decimals);
  const isZero = Number(Math.abs(value * times).toFixed(decimals)) === 0;
  const sign = isZero ? "±" : value < 0 ? "\u2212" : "+";
  const named = storedUnit(shown);
  return `${sign}${size}${named === "" ? "" : `\u00a0${named}`}`;
}
