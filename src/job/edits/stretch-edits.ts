// Stretches put right by hand. Found stretches are derived; only the edits are kept.

import type { StretchEdit } from "../../exhaust/terms/analysis.ts";
import type { BenchState } from "../record/job.ts";

/** The span becomes `edit.kind`; an earlier word on the same span is replaced. */
export function editStretch(bench: BenchState, edit: StretchEdit): BenchState {
  return { ...bench, stretchEdits: [...others(bench, edit), edit] };
}

/** Back to what was found there. */
export function resetStretch(bench: BenchState, span: Pick<StretchEdit, "from" | "to">): BenchState {
  return { ...bench, stretchEdits: others(bench, span) };
}

const others = (bench: BenchState, { from, to }: Pick<StretchEdit, "from" | "to">) =>
  (bench.stretchEdits ?? []).filter((one) => one.from !== from || one.to !== to);
