// Keeps the worker in step with the settings of the channels on the bench.

import { createEffect, createMemo, on } from "solid-js";
import { correctionsOf } from "./corrections.ts";
import type { Ground } from "./ground.ts";

/** Roles, units, gains and offsets go to the worker whenever they change, undo and reload included. */
export function applyCorrections({
  bench,
  captures,
  captureId,
  notices,
}: Pick<Ground, "bench" | "captures" | "captureId" | "notices">) {
  const channels = createMemo(() => bench.state().channels);
  const bank = createMemo(() => bench.state().bank);
  const read = createMemo(() => captures.readings(captureId() ?? ""));
  /** What the worker holds, as text, by capture and reading of it. */
  const inForce = new Map<string, string>();
  createEffect(
    on([captureId, channels, bank, read], async ([id, settings, judged, count]) => {
      if (!id || count === 0) return;
      const wanted = JSON.stringify([correctionsOf(settings), judged]);
      if (wanted === (inForce.get(`${id} ${count}`) ?? asRead)) return;
      inForce.set(`${id} ${count}`, wanted);
      const outcome = await captures.correct(id, correctionsOf(settings), judged);
      if (!outcome.ok) notices.show(outcome.problem);
    }),
  );
}

/** A capture that was just read: no corrections, bank 1. */
const asRead = JSON.stringify([{}, 1]);
