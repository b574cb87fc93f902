// The visible span of time, one for each capture, with the way back through those before. A view only: nothing recorded and no
// choice depends on it.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { moved, noSteps, stepped, type ViewSteps } from "./view-steps.ts";

export interface ViewState {
  readonly view: Accessor<Span>;
  show(span: Span): void;
  seeAll(): void;
  /** @param factor above 1 shows more time. @param about stays where it is; the middle by default. */
  zoom(factor: number, about?: number): void;
  /** Through the views that were rested at; apart from undo. */
  back(): void;
  forward(): void;
  readonly canBack: Accessor<boolean>;
  readonly canForward: Accessor<boolean>;
}

/** Shorter than this is less than one sample of the fastest recorder, s. */
const shortest = 1e-5;

export interface OnAxis {
  /** The capture on the bench; null while there is none. */
  readonly whole: Accessor<Span | null>;
  /** Where it was looked at last; null: nowhere yet. */
  readonly first: () => Span | null;
}

export function createView(captureId: Accessor<string | null>, { whole, first }: OnAxis): ViewState {
  const [views, setViews] = createSignal<Readonly<Record<string, Span>>>({});
  const [steps, setSteps] = createSignal<Readonly<Record<string, ViewSteps>>>({});
  const stepsNow = () => steps()[captureId() ?? ""] ?? noSteps;
  const begin = createMemo(() => {
    const [known, limits] = [captureId() === null ? null : first(), whole()];
    return known && limits ? within(known, limits) : limits;
  });
  const view = () => views()[captureId() ?? ""] ?? begin() ?? { from: 0, to: 1 };
  const put = (span: Span, next: ViewSteps) => {
    const id = captureId();
    if (!id) return;
    setSteps({ ...steps(), [id]: next });
    setViews({ ...views(), [id]: span });
  };
  const show = (span: Span) => {
    const limits = whole();
    if (!limits) return;
    const wanted = within(span, limits);
    if (wanted.from === view().from && wanted.to === view().to) return;
    put(wanted, moved(stepsNow(), view(), performance.now()));
  };
  const step = (way: "back" | "forward") => {
    const there = stepped(stepsNow(), view(), way);
    if (there) put(there.view, there.steps);
  };
  return {
    view,
    show,
    seeAll: () => show(whole() ?? view()),
    zoom(factor, about = (view().from + view().to) / 2) {
      const { from, to } = view();
      show({ from: about - (about - from) * factor, to: about + (to - about) * factor });
    },
    back: () => step("back"),
    forward: () => step("forward"),
    canBack: () => stepsNow().past.length > 0,
    canForward: () => stepsNow().future.length > 0,
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
