// The evidence shown on the trace: the samples and crossings behind the reading that was touched last.

import { type Accessor, createEffect, createSignal, on, untrack } from "solid-js";
import type { Evidence, EvidenceKey, Span, SpanReadings } from "../../exhaust/terms/analysis.ts";
import type { ViewState } from "./view.ts";

export interface ShownEvidence {
  /** Which reading it stands behind; the same key again takes it away. */
  readonly key: string;
  readonly evidence: Evidence;
  /** Behind a reading of the view or the chosen span: as that is measured anew, so are the marks. */
  readonly follows: boolean;
}

export interface Shown {
  readonly evidence: Accessor<ShownEvidence | null>;
  /**
   * Marks the evidence, and goes there when it is not in view.
   * @param stale measured before the view moved on: the marks are about to follow, and the view stays.
   */
  toggle(key: EvidenceKey, evidence: Evidence, stale: boolean): void;
  /** Goes to a span and marks it. */
  go(key: string, span: Span): void;
  clear(): void;
}

/** Room left and right of what is gone to, as a share of its length. */
const room = 0.08;
/** Evidence that takes less of the view than this is gone to. */
const smallPart = 0.2;

export function createShown(
  view: ViewState,
  whole: Accessor<Span | null>,
  measured: Accessor<SpanReadings | null>,
): Shown {
  const [evidence, setEvidence] = createSignal<ShownEvidence | null>(null);
  const goTo = (span: Span) => {
    const edge = room * (span.to - span.from);
    const everything = whole();
    const wanted = { from: span.from - edge, to: span.to + edge };
    if (everything) view.show(wanted);
  };
  createEffect(
    on(measured, (readings) => {
      const now = untrack(evidence);
      if (!readings || !now?.follows) return;
      const next = readings.evidence[now.key as EvidenceKey];
      setEvidence(next ? { ...now, evidence: next } : null);
    }),
  );
  return {
    evidence,
    toggle(key, shown, stale) {
      if (evidence()?.key === key) return void setEvidence(null);
      setEvidence({ key, evidence: shown, follows: true });
      if (!stale && !isPlain(shown.span, view.view())) goTo(shown.span);
    },
    go(key, span) {
      setEvidence({ key, evidence: { span, marks: [], levels: [], count: 0 }, follows: false });
      goTo(span);
    },
    clear: () => setEvidence(null),
  };
}

/** Evidence inside the view can be seen, unless it takes a small part of it. */
function isPlain(span: Span, view: Span): boolean {
  const length = view.to - view.from;
  const give = 1e-9 * length;
  const inside = span.from >= view.from - give && span.to <= view.to + give;
  return inside && span.to - span.from > smallPart * length;
}
