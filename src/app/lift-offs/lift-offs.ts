// The lift-offs of the recording: which one is looked at, and what the technician's hand changes about them.

import { type Accessor, createEffect, createMemo, createSignal, on } from "solid-js";
import type { LiftOff } from "../../exhaust/terms/analysis.ts";
import { acceptLiftOff, addLiftOff, moveLiftOff, rejectLiftOff } from "../../job/edits/lift-off-edits.ts";
import { newId } from "../../job/record/new-id.ts";
import type { DimensionLook } from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";

/** The next tap on the lanes places a new lift-off, or moves this one. */
export type Placing = { readonly kind: "add" } | { readonly kind: "move"; readonly id: string };

export interface LiftOffs {
  readonly list: Accessor<readonly LiftOff[]>;
  readonly selected: Accessor<LiftOff | null>;
  /** Shows one: from 2 s before to 6 s after. */
  select(id: string | null): void;
  next(): void;
  previous(): void;
  readonly placing: Accessor<Placing | null>;
  place(placing: Placing | null): void;
  /** A tap while placing. */
  placeAt(time: number): void;
  reject(id: string, because: string): void;
  accept(lift: LiftOff): void;
  /** The selected one's delay, drawn as a dimension between the two falls; null where a fall is not known. */
  readonly dimension: Accessor<DimensionLook | null>;
}

export const { Context: LiftOffsContext, use: useLiftOffs } = subject<LiftOffs>("Lift-offs");

const before = 2;
const after = 6;
/** Where the dimension line stands: above the fall level, below the rich level. */
const lineLevel = 0.62;

export function createLiftOffs({ desk, bench, view, readings, shown, summary, captureId }: Ground): LiftOffs {
  const [selectedId, setSelectedId] = createSignal<string | null>(null);
  const [placing, place] = createSignal<Placing | null>(null);
  const forget = () => {
    setSelectedId(null);
    place(null);
  };
  createEffect(on(captureId, forget, { defer: true }));
  const list = createMemo(() => readings.whole()?.liftOffs ?? []);
  const selected = createMemo(() => list().find((one) => one.id === selectedId()) ?? null);

  const select = (id: string | null) => {
    setSelectedId(id);
    const one = list().find((lift) => lift.id === id);
    if (!one) return;
    shown.clear();
    view.show({ from: one.at - before, to: one.at + after });
  };
  const step = (by: 1 | -1) => {
    const all = list();
    const at = all.findIndex((one) => one.id === selectedId());
    const middle = (view.view().from + view.view().to) / 2;
    const near = by === 1 ? all.findIndex((one) => one.at > middle) : all.findLastIndex((one) => one.at < middle);
    const to = at >= 0 ? at + by : near;
    const wanted = all[Math.min(Math.max(to, 0), all.length - 1)];
    if (wanted) select(wanted.id);
  };
  return {
    list,
    selected,
    select,
    next: () => step(1),
    previous: () => step(-1),
    placing,
    place,
    placeAt(time) {
      const what = placing();
      place(null);
      if (what?.kind === "add") {
        const id = newId();
        bench.edit((state) => addLiftOff(state, id, time));
        setSelectedId(id);
      } else if (what) bench.edit((state) => moveLiftOff(state, what.id, time));
    },
    reject: (id, because) => bench.edit((state) => rejectLiftOff(state, id, because)),
    accept(lift) {
      const byHand = bench.state().liftOffEdits.some((e) => e.kind === "reject" && e.id === lift.id);
      bench.edit((state) => acceptLiftOff(state, lift.id, !byHand));
    },
    dimension: createMemo(() => {
      const one = selected();
      const front = summary()?.channels.find((c) => c.role === "front-o2" && c.bank === bench.state().bank);
      const lane = bench.state().lanes.find((l) => front && l.channelIds.includes(front.id));
      return one && lane ? delayDimension(one, lane.id, desk.limits().switchLevel) : null;
    }),
  };
}

/** From front fall to rear fall; an open delay is drawn as far as it is known. */
export function delayDimension(lift: LiftOff, laneId: string, level: number): DimensionLook | null {
  const from = lift.frontFall.value;
  const to = lift.rearFall.value ?? (from !== null && lift.delay.value !== null ? from + lift.delay.value : null);
  if (from === null || to === null) return null;
  return {
    id: `lift-off-${lift.id}`,
    kind: "time",
    laneId,
    from: { time: from, level },
    to: { time: to, level },
    place: lineLevel,
    label: "front to rear",
    reading: lift.delay,
    isCursor: false,
  };
}
