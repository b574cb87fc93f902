// What the page knows of a capture as the user corrects it, from what it knows of it as it was read.

import { correctedBounds, correctionIn, labelsIn } from "../../src/capture/meaning/corrections.ts";
import type { Take } from "../../src/capture/model/take.ts";
import type { CaptureSummary } from "../protocol.ts";

/** Warnings stay those of the recording as it was read. */
export function takenSummary(
  asRead: CaptureSummary,
  { corrections, bank }: Pick<Take, "corrections" | "bank">,
): CaptureSummary {
  const channels = asRead.channels.map((channel) => ({
    ...channel,
    ...labelsIn(corrections, channel),
    range: channel.range && correctedBounds(channel.range, correctionIn(corrections, channel)),
  }));
  return { ...asRead, take: { ...asRead.take, corrections, bank }, channels };
}
