// Samples as files to take along.

import { csvPieces } from "../../src/capture/writing/write-csv.ts";
import { writeNpy } from "../../src/capture/writing/write-npy.ts";
import { ProblemError } from "../../src/problem.ts";
import type { TakenCapture } from "../held/taken-capture.ts";
import type { SaveRequest } from "../protocol.ts";
import { tooMuchToSave } from "./service-problems.ts";

/** @throws ProblemError "too-large" where memory cannot hold the span. */
export async function spanFile(
  taken: TakenCapture,
  { channelIds, span, format }: Omit<SaveRequest, "take">,
): Promise<Blob> {
  const isWanted = ({ id }: { readonly id: string }) => channelIds.includes(id);
  if (taken.blockOver({ span, channels: isWanted }) > 1) throw new ProblemError(tooMuchToSave);
  const { channels } = await taken.view({ span, channels: isWanted });
  const wanted = channels.filter(isWanted);
  return format === "npy"
    ? new Blob([writeNpy(wanted, span)])
    : new Blob([...csvPieces(wanted, span)], { type: "text/csv" });
}
