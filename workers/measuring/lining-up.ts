// Two captures at hand laid over each other.

import type { Channel } from "../../src/capture/model/capture.ts";
import type { Take } from "../../src/capture/model/take.ts";
import { around, firstCrossing, type Shift, shiftByCorrelation } from "../../src/exhaust/lining-up/line-up.ts";
import { shiftOfRun } from "../../src/exhaust/lining-up/same-run.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import type { TakenCapture } from "../held/taken-capture.ts";
import type { CrossingRequest, LineUpRequest, SameRunRequest } from "../protocol.ts";

/** Seconds fetched beside a span, for what is seen of its ends. */
const margin = 5;

/** @throws ProblemError where one of the two is not at hand. */
export async function lineUp(
  find: (take: Take) => TakenCapture | null,
  { suspect, reference, at, reach, guess, most }: LineUpRequest,
): Promise<Shift> {
  const [mine, theirs] = [find(suspect.take), find(reference.take)];
  if (!mine || !theirs) throw new ProblemError(notAtHand);
  const near = (instant: Seconds, far: Seconds) => ({ from: instant - far - margin, to: instant + far + margin });
  const one = await channelOf(mine, suspect.channelId, near(at, reach));
  const other = await channelOf(theirs, reference.channelId, near(at - guess, reach + most));
  const rule = { guess, most, says: `where ${one.name} and ${other.name} run most alike` };
  return shiftByCorrelation(around(one.series, at, reach), around(other.series, at - guess, reach + most), rule);
}

/** @throws ProblemError where one of the two is not at hand. */
export async function lineUpRun(
  find: (take: Take) => TakenCapture | null,
  { take, other: otherTake, pairs }: SameRunRequest,
): Promise<Shift> {
  const [mine, theirs] = [find(take), find(otherTake)];
  if (!mine || !theirs) throw new ProblemError(notAtHand);
  const seriesOf = async (held: TakenCapture, id: string) => (await channelOf(held, id)).series;
  const both = pairs.map(async ({ mine: one, other, name }) => ({
    mine: await seriesOf(mine, one),
    theirs: await seriesOf(theirs, other),
    name,
  }));
  return shiftOfRun(await Promise.all(both));
}

/** Seconds looked into for a crossing; where there is none, eight times as many, and so on to the end. */
const firstLook = 60;

/** First crossing of a level after an instant; of a capture larger than memory no more is fetched than it takes. */
export async function nextCrossing(
  held: TakenCapture,
  { channelId, after, level }: Pick<CrossingRequest, "channelId" | "after" | "level">,
): Promise<Reading> {
  const end = held.endOf(channelId) ?? after;
  for (let look = firstLook; ; look *= 8) {
    const span = { from: after - margin, to: after + look };
    const found = firstCrossing((await channelOf(held, channelId, span)).series, after, level);
    // At the edge of what was fetched an edge looks otherwise than with more of it behind.
    const isClear = found.value !== null && found.value < after + look / 2;
    if (isClear || after + look > end) return found;
  }
}

/** At least a span of a channel. @throws ProblemError where the capture has no such channel. */
async function channelOf(held: TakenCapture, channelId: string, span?: Span): Promise<Channel> {
  const wanted = { channels: ({ id }: { readonly id: string }) => id === channelId, ...(span ? { span } : {}) };
  const channel = (await held.view(wanted)).channels.find(({ id }) => id === channelId);
  if (!channel) throw new ProblemError(notAtHand);
  return channel;
}

const notAtHand = {
  code: "unreadable",
  what: "One of the two recordings is not at hand any more.",
  remedy: "Choose it again, or open its file again.",
} as const;
