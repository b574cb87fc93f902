// A comparable of a part of a recording.

import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";

/** Only the lift-offs and stretches that lie in the span; all of it where there is none. */
export function partOf(comparable: Comparable, span: Span | null): Comparable {
  if (!span) return comparable;
  return {
    ...comparable,
    liftOffs: comparable.liftOffs.filter(({ at }) => at >= span.from && at < span.to),
    stretches: comparable.stretches.filter(({ from, to }) => from >= span.from && to <= span.to),
  };
}
