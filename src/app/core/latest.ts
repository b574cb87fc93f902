// Asks a worker for what is shown now. One request at a time; of those that wait only the newest is asked.

import { type Accessor, createEffect, createSignal, onCleanup } from "solid-js";

export interface Latest<R> {
  /** The newest answer; null before the first, and when there is nothing to ask. */
  readonly value: Accessor<R | null>;
  /** True while a newer answer is on its way. */
  readonly isPending: Accessor<boolean>;
}

export interface LatestOptions<A> {
  readonly about?: (ask: A) => string;
  readonly delayMs?: number;
}

/**
 * @param ask     what to ask for now; null: nothing. A new object asks again.
 * @param answer  asks; null where what it was asked was given up, which the signal tells as soon as a newer ask waits.
 *                Rejections are bugs and go to the page's error handler.
 * @param options `about` names the subject (a capture's id): answers about another subject than the newest ask are
 *                dropped. `delayMs` waits for the asking to calm down.
 */
export function createLatest<A, R>(
  ask: Accessor<A | null>,
  answer: (ask: A, signal: AbortSignal) => Promise<R | null>,
  options: LatestOptions<A> = {},
): Latest<R> {
  const [value, setValue] = createSignal<R | null>(null);
  const [isPending, setPending] = createSignal(false);
  const about = options.about ?? (() => "");
  let newest: A | null = null;
  let waiting: A | null = null;
  let underWay: AbortController | null = null;
  let gone = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const pump = async () => {
    if (waiting === null || gone) return;
    if (underWay) return underWay.abort();
    const asked = waiting;
    waiting = null;
    const mine = new AbortController();
    underWay = mine;
    try {
      const got = await answer(asked, mine.signal);
      if (!gone && got !== null && newest !== null && about(newest) === about(asked)) setValue(() => got);
    } finally {
      underWay = null;
      if (waiting === null) setPending(false);
      else void pump();
    }
  };

  createEffect(() => {
    const wanted = ask();
    if (wanted === null || (newest !== null && about(newest) !== about(wanted))) setValue(null);
    newest = wanted;
    waiting = wanted;
    clearTimeout(timer);
    if (wanted === null) return void setPending(false);
    setPending(true);
    if (options.delayMs) timer = setTimeout(pump, options.delayMs);
    else void pump();
  });
  onCleanup(() => {
    gone = true;
    underWay?.abort();
    clearTimeout(timer);
  });
  return { value, isPending };
}
