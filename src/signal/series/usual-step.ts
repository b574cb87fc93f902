// The usual step between samples.

import type { Seconds } from "../numbers/units.ts";
import { onceOf } from "./once.ts";
import { type AnyTime, countOf, timeAt } from "./series.ts";

/** A median over this many steps is as good as over all; more are taken evenly spread. */
const most = 4096;

/**
 * Median step, s; the step itself for even steps. NaN below two samples.
 *
 * @param time  any length.
 */
export const usualStep = onceOf((time: AnyTime): Seconds => {
  const all = countOf(time) - 1;
  if (all < 1) return NaN;
  if (time.kind === "even") return time.step;
  const count = Math.min(all, most);
  const steps = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = 1 + Math.floor((k * all) / count);
    steps[k] = timeAt(time, i) - timeAt(time, i - 1);
  }
  return steps.sort()[count >> 1]!;
});
