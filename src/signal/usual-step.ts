// The usual step between samples.

import { countOf, type TimeBase } from "./series.ts";
import type { Seconds } from "./units.ts";

/** A median over this many steps is as good as over all; more are taken evenly spread. */
const most = 4096;

/**
 * Median step, s; the step itself for even steps. NaN below two samples.
 *
 * @param time  any length.
 */
export function usualStep(time: TimeBase): Seconds {
  if (countOf(time) < 2) return NaN;
  if (time.kind === "even") return time.step;
  const { stamps } = time;
  const count = Math.min(stamps.length - 1, most);
  const steps = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = 1 + Math.floor((k * (stamps.length - 1)) / count);
    steps[k] = stamps[i]! - stamps[i - 1]!;
  }
  return steps.sort()[count >> 1]!;
}
