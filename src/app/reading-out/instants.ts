// The instants that are read out: where the pointer is, and one held beside it, against which the rest is told.

import { type Accessor, createEffect, createSignal, on } from "solid-js";
import type { Readout } from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";

export interface Instants {
  /** Where the mouse hovers, or a finger or a key reads; null: nowhere. */
  readonly at: Accessor<number | null>;
  /** The same, where it stays when the hand is gone. */
  readonly kept: Accessor<number | null>;
  readonly held: Accessor<number | null>;
  /** The instant in view that was pointed at last: what zooming keeps in place. */
  touched(): number | undefined;
  point(time: number | null, isKept: boolean): void;
  /** In the middle of the view, for those who use no pointer. */
  start(): void;
  /** Holds the instant that is read, or another; null lets go. */
  hold(time: number | null): void;
  clear(): void;
  readonly times: Accessor<readonly Pick<Readout, "time" | "kind">[]>;
}

export const { Context: InstantsContext, use: useInstants } = subject<Instants>("Instants");

export function createInstants({ captureId, view }: Pick<Ground, "captureId" | "view">): Instants {
  const [at, setAt] = createSignal<number | null>(null);
  const [isKept, setKept] = createSignal(false);
  const [held, hold] = createSignal<number | null>(null);
  let last: number | null = null;
  const point = (time: number | null, kept: boolean) => {
    if (time !== null) last = time;
    setAt(time);
    setKept(kept && time !== null);
  };
  const clear = () => {
    point(null, false);
    hold(null);
  };
  createEffect(on(captureId, clear, { defer: true }));
  return {
    at,
    kept: () => (isKept() ? at() : null),
    held,
    touched: () => (last !== null && last >= view.view().from && last <= view.view().to ? last : undefined),
    point,
    start: () => point((view.view().from + view.view().to) / 2, true),
    hold,
    clear,
    times: () => [...one(held(), "held"), ...one(at(), "pointer")],
  };
}

const one = (time: number | null, kind: "held" | "pointer") => (time === null ? [] : [{ time, kind }]);
