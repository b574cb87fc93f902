// Recordings beside the one on the bench, measured as a whole one after the other. The worker gives up a measurement of a
// whole for a newer one: two that were asked for at once would give each other up again and again.

import type { CaptureService, WholeReadings } from "../../../workers/protocol.ts";
import type { Comparable } from "../../exhaust/comparing/comparison.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import { type Problem, ProblemError } from "../../problem.ts";
import { good } from "./at-hand.ts";
import type { Ground } from "./ground.ts";

export interface Hands extends Pick<Ground, "service" | "captures" | "desk" | "readings"> {
  /** False once another recording is wanted in its place: it is not measured then. Without it, it stays wanted. */
  readonly isWanted?: () => boolean;
}

/** The last of those that wait for a service. */
const lines = new WeakMap<CaptureService, Promise<unknown>>();

/**
 * Everything measured on a recording that is at hand, as the command line would. The bench's own measurement goes first,
 * and one that it gave up is asked again.
 *
 * @param record  whose edits by hand count; without it there are none.
 * @throws ProblemError the service's, or "cancelled" where it is no longer wanted.
 */
export function wholeInTurn(
  captureId: string,
  { service, desk, readings, isWanted = () => true }: Hands,
  record?: CaptureRecord,
): Promise<WholeReadings> {
  const before = lines.get(service);
  const limits = desk.job().limits ?? {};
  const { liftOffEdits: edits = [], stretchEdits: stretches = [] } = record?.bench ?? {};
  const measure = async () => {
    await before;
    for (;;) {
      while (readings.isReadingWhole()) await new Promise((done) => setTimeout(done, 50));
      if (!isWanted()) throw new ProblemError(notWanted);
      const outcome = await service.whole(captureId, { limits, edits, stretches });
      if (outcome.ok || outcome.problem.code !== "cancelled") return good(outcome);
    }
  };
  const measured = measure();
  lines.set(
    service,
    measured.catch(() => {}),
  );
  return measured;
}

/** Everything measured on it that a comparison must know. @throws as `wholeInTurn`. */
export async function measuredOn(captureId: string, hands: Hands, record?: CaptureRecord): Promise<Comparable> {
  const limits = hands.desk.job().limits ?? {};
  const whole = await wholeInTurn(captureId, hands, record);
  return good(await hands.service.comparable(captureId, whole, limits));
}

const notWanted: Problem = {
  code: "cancelled",
  what: "The recording was not measured: another was chosen.",
  remedy: "Choose it again when you need it.",
};
