// Recordings of the job or the shelf brought to hand out of the browser's storage, as their own records correct them.

import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { ShelfTrace } from "../../job/shelf/shelf-trace.ts";
import { type Outcome, ProblemError, settle } from "../../problem.ts";
import type { Captures } from "./captures.ts";
import { correctionsOf } from "./corrections.ts";

/** Another recording of the job, as its own bench corrects it. */
export async function broughtToHand(
  { id, fileName, choices, bench }: CaptureRecord,
  captures: Captures,
): Promise<Outcome<CaptureSummary>> {
  const outcome = await settle(() => atHand({ captureId: id, fileName, choices, bank: bench.bank }, captures));
  return outcome.ok ? captures.correct(id, correctionsOf(bench.channels), bench.bank) : outcome;
}

export async function atHand(
  { captureId, fileName, choices, bank }: Pick<ShelfTrace, "captureId" | "fileName" | "choices" | "bank">,
  captures: Captures,
): Promise<CaptureSummary> {
  const known = captures.summary(captureId);
  if (known) return known;
  const summary = good(await captures.reopen(captureId, fileName, choices));
  return bank === 1 ? summary : good(await captures.correct(captureId, {}, bank));
}

/** @throws ProblemError the problem of an outcome that is not good. */
export function good<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new ProblemError(outcome.problem);
}
