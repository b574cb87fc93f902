// Back and forward through the views of a recording: a step is where the view came to rest, not each frame on the way.

import type { Span } from "../../exhaust/terms/analysis.ts";

export interface ViewSteps {
  readonly past: readonly Span[];
  readonly future: readonly Span[];
  /** When the view last moved, ms. */
  readonly movedAt: number;
}

export const noSteps: ViewSteps = { past: [], future: [], movedAt: Number.NEGATIVE_INFINITY };

/** Movements closer than this are one. */
const restMs = 700;
const most = 50;

/** The view moves on from `before`. */
export function moved(steps: ViewSteps, before: Span, at: number): ViewSteps {
  if (at - steps.movedAt < restMs) return { ...steps, movedAt: at };
  return { past: [...steps.past, before].slice(-most), future: [], movedAt: at };
}

/** To where it rested before, or after; null where there is no such. */
export function stepped(
  steps: ViewSteps,
  now: Span,
  way: "back" | "forward",
): { readonly steps: ViewSteps; readonly view: Span } | null {
  const [from, onto] = way === "back" ? [steps.past, steps.future] : [steps.future, steps.past];
  const view = from.at(-1);
  if (!view) return null;
  const [left, grown] = [from.slice(0, -1), [...onto, now]];
  // What moves next is a step of its own.
  const movedAt = Number.NEGATIVE_INFINITY;
  return {
    view,
    steps: way === "back" ? { past: left, future: grown, movedAt } : { past: grown, future: left, movedAt },
  };
}
