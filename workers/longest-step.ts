// From which step on two samples have a gap between them.

import type { TimeBase } from "../src/signal/series.ts";
import type { Seconds } from "../src/signal/units.ts";

/** Steps looked at for the usual one; a longer capture is sampled evenly. */
const looked = 2_001;

/** The longest step that is no gap: five usual ones (the median). Even sampling has no gap but NaN. Common practice. */
export function longestStepOf(time: TimeBase): Seconds {
  if (time.kind === "even") return Number.POSITIVE_INFINITY;
  const { stamps } = time;
  if (stamps.length < 3) return Number.POSITIVE_INFINITY;
  const stride = Math.max(1, Math.floor((stamps.length - 1) / looked));
  const steps: number[] = [];
  for (let i = 1; i < stamps.length; i += stride) steps.push(stamps[i]! - stamps[i - 1]!);
  steps.sort((a, b) => a - b);
  return 5 * steps[steps.length >> 1]!;
}
