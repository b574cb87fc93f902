// From which step on two samples of a channel have a gap between them.

import type { Seconds } from "../../src/signal/numbers/units.ts";
import { longestStep } from "../../src/signal/series/gaps.ts";
import type { TimeBase } from "../../src/signal/series/series.ts";

/** The longest step that is no gap. Even sampling has no gap but NaN. */
export function longestStepOf(time: TimeBase): Seconds {
  return time.kind === "even" ? Number.POSITIVE_INFINITY : longestStep(time.stamps);
}
