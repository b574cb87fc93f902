// What the technician's hand changes about lift-offs. Found events are derived; only the edits are kept.

import type { LiftOffEdit } from "../../exhaust/terms/analysis.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import type { BenchState } from "../record/job.ts";

export function addLiftOff(bench: BenchState, id: string, at: Seconds): BenchState {
  return withEdit(bench, { kind: "add", id, at });
}

/** Moving one added by hand changes where it was added. */
export function moveLiftOff(bench: BenchState, id: string, at: Seconds): BenchState {
  const added = bench.liftOffEdits.some((e) => e.kind === "add" && e.id === id);
  return withEdit(bench, { kind: added ? "add" : "move", id, at });
}

/** It stays listed, with its reason, and no longer counts. */
export function rejectLiftOff(bench: BenchState, id: string, because: string): BenchState {
  return withEdit(acceptLiftOff(bench, id), { kind: "reject", id, because });
}

/** Counts again, whatever hand or rule set it aside. */
export function acceptLiftOff(bench: BenchState, id: string, overrule = false): BenchState {
  const rest = bench.liftOffEdits.filter((e) => e.id !== id || (e.kind !== "reject" && e.kind !== "accept"));
  return { ...bench, liftOffEdits: overrule ? [...rest, { kind: "accept", id }] : rest };
}

function withEdit(bench: BenchState, edit: LiftOffEdit): BenchState {
  const rest = bench.liftOffEdits.filter((e) => e.id !== edit.id || e.kind !== edit.kind);
  return { ...bench, liftOffEdits: [...rest, edit] };
}
