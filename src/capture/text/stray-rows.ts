// Rows of numbers right below the names that are no samples: limits or scales without a word in front of them.

import type { HeadColumn } from "./head-columns.ts";
import { numberIn } from "./numbers.ts";

/** More rows than that are a part of a recording. */
const most = 3;
/** Rows below them that must run forward all the way. */
const least = 10;

/**
 * How many rows at the head of the body are no samples: the time stands back behind them, runs forward from there on, and the
 * steps ahead are none of its own.
 *
 * @param column  the time, in plain numbers.
 */
export function strayRows({ cells, mark }: HeadColumn): number {
  const values = cells.map((cell) => numberIn(cell, mark));
  const back = values.findIndex((value, i) => i > 0 && value < values[i - 1]!);
  if (back < 1 || back > most || values.length - back < least) return 0;
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  const after = steps.slice(back);
  if (!after.every((step) => step >= 0)) return 0;
  const usual = after.reduce((sum, step) => sum + step, 0) / after.length;
  const isItsOwn = (step: number) => Math.abs(step) < 2 * usual;
  return steps.slice(0, back).some(isItsOwn) ? 0 : back;
}
