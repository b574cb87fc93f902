// The visible span of time, one for each capture. A view only: nothing recorded and no choice depends on it.

import { type Accessor, createSignal } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";

export interface ViewState {
  readonly view: Accessor<Span>;
  show(span: Span): void;
  seeAll(): void;
  /** @param factor above 1 shows more time. @param about stays where it is; the middle by default. */
  zoom(factor: number, about?: number): void;
}

/** Shorter than this is less than one sample of the fastest recorder, s. */
const shortest = 1e-5;

/** @param whole the capture on the bench; null while there is none. */
export function createView(captureId: Accessor<string | null>, whole: Accessor<Span | null>): ViewState {
  const [views, setViews] = createSignal<Readonly<Record<string, Span>>>({});
  const view = () => views()[captureId() ?? ""] ?? whole() ?? { from: 0, to: 1 };
  const show = (span: Span) => {
    const [id, limits] = [captureId(), whole()];
    if (id && limits) setViews({ ...views(), [id]: within(span, limits) });
  };
  return {
    view,
    show,
    seeAll: () => show(whole() ?? view()),
    zoom(factor, about = (view().from + view().to) / 2) {
      const { from, to } = view();
      show({ from: about - (about - from) * factor, to: about + (to - about) * factor });
    },
  };
}

/** The span, no longer than the limits, moved inside them. */
export function within(span: Span, limits: Span): Span {
  const most = limits.to - limits.from;
  const length = Math.min(most, Math.max(shortest, span.to - span.from));
  const middle = (span.from + span.to) / 2;
  const from = Math.min(Math.max(middle - length / 2, limits.from), limits.to - length);
  return length === most ? limits : { from, to: from + length };
}
