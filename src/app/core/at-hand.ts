// Recordings of the job or the shelf brought to hand out of the browser's storage, as their own records correct them.

import { takenSummary } from "../../../workers/client.ts";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { ShelfTrace } from "../../job/shelf/shelf-trace.ts";
import { type Outcome, ProblemError, settle } from "../../problem.ts";
import type { Captures } from "./captures.ts";

/** Another recording of the job, as its own bench corrects it. */
export function broughtToHand(
  { id, fileName, choices, bench }: CaptureRecord,
  captures: Captures,
): Promise<Outcome<CaptureSummary>> {
  return settle(async () => {
    await readAtHand({ captureId: id, fileName, choices }, captures);
    return captures.summary(id, bench)!;
  });
}

/** A trace of the shelf, as it was corrected when it was kept. */
export async function atHand(trace: ShelfTrace, captures: Captures): Promise<CaptureSummary> {
  const { corrections = {}, bank } = trace;
  return takenSummary(await readAtHand(trace, captures), { corrections, bank });
}

/** As it was read, corrected by nobody. */
export async function readAtHand(
  { captureId, fileName, choices }: Pick<ShelfTrace, "captureId" | "fileName" | "choices">,
  captures: Captures,
): Promise<CaptureSummary> {
  return captures.asRead(captureId) ?? good(await captures.reopen(captureId, fileName, choices));
}

/** @throws ProblemError the problem of an outcome that is not good. */
export function good<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new ProblemError(outcome.problem);
}
