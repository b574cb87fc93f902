// Which reference the bench is compared with: the one chosen, the one on its way, the one it was compared with before.

import { type Accessor, batch, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { Shelf } from "../../job/shelf/shelf.ts";
import type { Ground } from "../core/ground.ts";
import { nameOf } from "./band.ts";
import { anew } from "./laying.ts";
import { type Choice, choiceOf, fetchReference, keyOf, type Reference } from "./reference.ts";

export interface Choosing {
  readonly reference: Accessor<Reference | null>;
  /** Name of the reference on its way. */
  readonly fetching: Accessor<string | null>;
  /** The bench says what it is compared with, and it is not here yet: it was not found missing either. */
  readonly isAwaited: Accessor<boolean>;
  /** It lies there because it did when the page was last open, or before undo: nobody has just chosen it. */
  readonly isResumed: Accessor<boolean>;
  start(choice: Choice): Promise<void>;
  end(): void;
}

/** A reference on its way. */
interface Coming {
  /** The recording it is to lie under. */
  readonly onto: string | null;
  readonly key: string;
  readonly name: string;
  readonly giving: AbortController;
}

export function createChoosing(ground: Ground, shelf: Shelf): Choosing {
  const { desk, bench, summary, captureId } = ground;
  const [reference, setReference] = createSignal<Reference | null>(null);
  const { coming, comes, fetch } = createFetching(ground);
  const [missed, setMissed] = createSignal<string | null>(null);
  const [resumed, setResumed] = createSignal<Reference | null>(null);

  /** What the bench says it is compared with: when the page was last open, or before undo and redo. */
  const compared = createMemo(() => bench.state().compared);
  const isComing = (id: string | null, key: string) => coming()?.onto === id && coming()?.key === key;
  createEffect(
    on([captureId, summary, compared], async ([id, capture, key]) => {
      if (reference()?.key === key && id === capture?.id) return;
      setReference(null);
      if (!capture || !key || isComing(id, key)) return;
      const kept = await shelf.list();
      const choice = choiceOf(key, kept.ok ? kept.value.traces : [], desk.job().captures);
      const brought = choice && captureId() === id ? await fetch(choice) : null;
      if (compared() !== key) return;
      if (brought) {
        batch(() => {
          setResumed(brought);
          setReference(brought);
        });
      } else if (captureId() === id) setMissed(key);
    }),
  );

  return {
    reference,
    fetching: () => coming()?.name ?? null,
    isAwaited: () => reference() === null && compared() !== undefined && compared() !== missed(),
    isResumed: () => reference() !== null && reference() === resumed(),
    async start(choice) {
      const brought = await fetch(choice);
      if (!brought) return;
      batch(() => {
        bench.edit((state) => ({ ...state, compared: keyOf(choice), laid: anew(state.laid) }));
        setReference(brought);
      });
    },
    end() {
      comes(null);
      setReference(null);
      bench.edit(({ compared: _, banded: __, laid: ___, ...state }) => state);
    },
  };
}

/** One reference is on its way at a time. */
function createFetching(ground: Ground) {
  const { notices, captureId } = ground;
  const [coming, setComing] = createSignal<Coming | null>(null);

  /** Gives up the one on its way, for another or none. */
  const comes = (next: Coming | null) => {
    coming()?.giving.abort();
    setComing(next);
  };
  onCleanup(() => comes(null));

  /** Null where it could not be brought, or another choice or another recording on the bench came meanwhile. */
  async function fetch(choice: Choice): Promise<Reference | null> {
    const giving = new AbortController();
    const asked: Coming = { onto: captureId(), key: keyOf(choice), name: nameOf(choice), giving };
    comes(asked);
    const { signal } = giving;
    const outcome = await fetchReference(choice, { ...ground, signal });
    const isWanted = !signal.aborted && captureId() === asked.onto;
    setComing((now) => (now === asked ? null : now));
    if (!isWanted) return null;
    if (outcome.ok) return outcome.value;
    notices.show(outcome.problem);
    return null;
  }
  return { coming, comes, fetch };
}
