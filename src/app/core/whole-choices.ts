// What the job and a recording's bench say that its readings honour.

import type { WholeChoices } from "../../../workers/protocol.ts";
import { evidenceOf } from "../../job/edits/paper-edits.ts";
import { frameConditionsOf } from "../../job/freeze-frame/conditions.ts";
import type { BenchState, Job } from "../../job/record/job.ts";
import { handChecksOf } from "../../job/ruled-out/ruled-out.ts";
import { litresOf } from "../../signal/written/engine-size.ts";
import { writingInForce } from "../../signal/written/writing.ts";

/** @param bench  of the recording; without it there are no edits by hand. */
export function wholeChoices(
  { limits, pipe, intake }: Pick<Job, "limits" | "pipe" | "intake">,
  bench?: Pick<BenchState, "liftOffEdits" | "stretchEdits">,
): WholeChoices {
  const edits = bench ? { edits: bench.liftOffEdits, stretches: bench.stretchEdits ?? [] } : {};
  const litres = litresOf(intake?.engineSize ?? "");
  return {
    ...edits,
    ...(limits ? { limits } : {}),
    ...(pipe ? { pipe } : {}),
    ...(litres ? { litres } : {}),
    writing: writingInForce(),
  };
}

/** The same for the recording on the bench, with the freeze frame as conditions and what was checked by hand. */
export function benchChoices(job: Job, bench: BenchState): WholeChoices {
  const { frame } = evidenceOf(job, "before");
  const byHand = handChecksOf(job.ruledOut ?? []);
  return {
    ...wholeChoices(job, bench),
    ...(frame ? { frame: frameConditionsOf(frame, bench.bank) } : {}),
    ...(Object.keys(byHand).length > 0 ? { byHand } : {}),
  };
}
