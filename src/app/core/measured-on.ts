// Recordings beside the one on the bench, measured when what the bench itself wants is done.

import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import { good } from "./at-hand.ts";
import type { Ground } from "./ground.ts";
import { wholeChoices } from "./whole-choices.ts";

export interface Hands extends Pick<Ground, "service" | "captures" | "desk"> {
  /** Gives up what is on its way. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * Everything measured on it that a comparison must know.
 *
 * @param record  whose edits by hand count; without it there are none.
 * @throws ProblemError the service's, "cancelled" too.
 */
export async function measuredOn(
  { take }: Pick<CaptureSummary, "take">,
  { service, desk, signal }: Hands,
  record?: CaptureRecord,
): Promise<Comparable> {
  const request = { take, choices: wholeChoices(desk.job(), record?.bench) };
  return good(await service.comparable(request, { urgency: "beside", signal }));
}
