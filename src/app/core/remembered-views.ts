// Where each recording was last looked at, and the span chosen in it: kept in this browser, apart from the job and its undo.

import type { Span } from "../../exhaust/terms/analysis.ts";

export interface Remembered {
  readonly view: Span | null;
  readonly span: Span | null;
}

/** Newest last; of more than this many the oldest go. */
const most = 60;
const place = "tracewright-views";

type All = readonly (readonly [key: string, Remembered])[];

export function remembered(key: string): Remembered | null {
  return all().find(([one]) => one === key)?.[1] ?? null;
}

export function remember(key: string, what: Remembered): void {
  const others = all().filter(([one]) => one !== key);
  try {
    localStorage.setItem(place, JSON.stringify([...others, [key, what]].slice(-most)));
  } catch {
    // storage is denied or full: the view lasts as long as the page
  }
}

/** What is not of ours is passed over: storage of the browser is open to other hands. */
function all(): All {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(place) ?? "[]");
    return Array.isArray(found) ? found.flatMap(oneOf) : [];
  } catch {
    return [];
  }
}

function oneOf(found: unknown): All {
  if (!Array.isArray(found) || typeof found[0] !== "string") return [];
  const what = (found[1] ?? {}) as Partial<Record<keyof Remembered, unknown>>;
  return [[found[0], { view: spanOf(what.view), span: spanOf(what.span) }]];
}

function spanOf(found: unknown): Span | null {
  const { from, to } = (found ?? {}) as Partial<Record<keyof Span, unknown>>;
  return typeof from === "number" && typeof to === "number" && from < to ? { from, to } : null;
}
