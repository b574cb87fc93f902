// Arithmetic of the visible span: zoom at a point, pan, stay within the capture.

import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import type { View } from "../stage/types.ts";

/** Nothing recorded by the instruments we read tells half a millisecond apart. */
const leastSpan: Seconds = 5e-4;

/** The view moved and narrowed as little as needed to lie within `whole`. */
export function within(view: View, whole: Span): View {
  const most = Math.max(whole.to - whole.from, leastSpan);
  const span = Math.min(most, Math.max(leastSpan, view.to - view.from));
  const middle = (view.from + view.to) / 2;
  const from = Math.min(Math.max(middle - span / 2, whole.from), whole.from + most - span);
  return { from, to: from + span };
}

/** Spans `factor` times as much, with the instant `at` staying where it is on screen. */
export function zoomed(view: View, whole: Span, at: Seconds, factor: number): View {
  const span = view.to - view.from;
  const most = Math.max(whole.to - whole.from, leastSpan);
  const wanted = Math.min(most, Math.max(leastSpan, span * factor));
  const share = (at - view.from) / span;
  return within({ from: at - share * wanted, to: at + (1 - share) * wanted }, whole);
}

export function panned(view: View, whole: Span, by: Seconds): View {
  return within({ from: view.from + by, to: view.to + by }, whole);
}

export interface Keyed {
  readonly key: string;
  readonly isFast: boolean;
  /** Stays where it is when zooming, if it is in view; else the middle does. */
  readonly about?: Seconds | null;
}

/** What a key does to the view; null for keys that mean nothing here. */
export function keyed(view: View, whole: Span, { key, isFast, about = null }: Keyed): View | null {
  const span = view.to - view.from;
  const stride = span * (isFast ? 0.9 : 0.15);
  const isSeen = about !== null && about >= view.from && about <= view.to;
  const still = isSeen ? about : (view.from + view.to) / 2;
  switch (key) {
    case "ArrowLeft":
      return panned(view, whole, -stride);
    case "ArrowRight":
      return panned(view, whole, stride);
    case "PageUp":
      return panned(view, whole, -span);
    case "PageDown":
      return panned(view, whole, span);
    case "Home":
      return within({ from: whole.from, to: whole.from + span }, whole);
    case "End":
      return within({ from: whole.to - span, to: whole.to }, whole);
    case "+":
    case "=":
      return zoomed(view, whole, still, 0.6);
    case "-":
    case "_":
      return zoomed(view, whole, still, 1 / 0.6);
    case "0":
      return whole;
    default:
      return null;
  }
}
