// Two captures at hand laid over each other.

import type { Channel } from "../src/capture/capture.ts";
import { around, type Shift, shiftByCorrelation } from "../src/exhaust/line-up.ts";
import { shiftOfRun } from "../src/exhaust/same-run.ts";
import { ProblemError } from "../src/problem.ts";
import type { HeldCapture } from "./held-capture.ts";
import type { LineUpRequest, SameRunRequest } from "./protocol.ts";

/** @throws ProblemError where one of the two is not at hand. */
export async function lineUp(
  find: (captureId: string) => HeldCapture | undefined,
  { suspect, reference, at, reach, guess, most }: LineUpRequest,
): Promise<Shift> {
  const [mine, theirs] = [find(suspect.captureId), find(reference.captureId)];
  if (!mine || !theirs) throw new ProblemError(notAtHand);
  const [one, other] = [await channelOf(mine, suspect.channelId), await channelOf(theirs, reference.channelId)];
  const rule = { guess, most, says: `where ${one.name} and ${other.name} run most alike` };
  return shiftByCorrelation(around(one.series, at, reach), around(other.series, at - guess, reach + most), rule);
}

/** @throws ProblemError where one of the two is not at hand. */
export async function lineUpRun(
  find: (captureId: string) => HeldCapture | undefined,
  { captureId, otherId, pairs }: SameRunRequest,
): Promise<Shift> {
  const [mine, theirs] = [find(captureId), find(otherId)];
  if (!mine || !theirs) throw new ProblemError(notAtHand);
  const seriesOf = async (held: HeldCapture, id: string) => (await channelOf(held, id)).series;
  const both = pairs.map(async ({ mine: one, other, name }) => ({
    mine: await seriesOf(mine, one),
    theirs: await seriesOf(theirs, other),
    name,
  }));
  return shiftOfRun(await Promise.all(both));
}

/** @throws ProblemError where the capture has no such channel. */
export async function channelOf(held: HeldCapture, channelId: string): Promise<Channel> {
  const channel = (await held.view({ channels: ({ id }) => id === channelId })).channels.find(
    ({ id }) => id === channelId,
  );
  if (!channel) throw new ProblemError(notAtHand);
  return channel;
}

const notAtHand = {
  code: "unreadable",
  what: "One of the two recordings is not at hand any more.",
  remedy: "Choose it again, or open its file again.",
} as const;
