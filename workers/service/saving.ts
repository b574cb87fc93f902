// Samples as files to take along: written piece by piece, while the browser already takes what is written.

import { csvPieces } from "../../src/capture/writing/write-csv.ts";
import { npyPieces } from "../../src/capture/writing/write-npy.ts";
import { ProblemError } from "../../src/problem.ts";
import type { TakenCapture } from "../held/taken-capture.ts";
import type { SaveRequest, Watching } from "../protocol.ts";
import { notAtHand, savingCancelled, tooMuchToSave } from "./service-problems.ts";

type Piece = string | Uint8Array<ArrayBuffer>;

/** Bytes that are handed to the browser at once, and held here until it has them. */
const handedOver = 4 << 20;
/** Other work waits no longer than this, ms, and what one piece takes. */
const restEvery = 8;

/**
 * @throws ProblemError "too-large" where the browser has no room for the file, "cancelled", "unreadable" where the recording
 *         leaves meanwhile, "not-possible-here" as `npyPieces`.
 */
export async function spanFile(
  taken: TakenCapture,
  { channelIds, span, format }: Omit<SaveRequest, "take">,
  watching: Watching = {},
): Promise<Blob> {
  let share = 0;
  const onShare = (done: number) => {
    share = done;
  };
  const channels = await taken.series(channelIds);
  const written = format === "npy" ? npyPieces(channels, span, onShare) : csvPieces(channels, span, onShare);
  return gathered(atHand(written), { type: format === "csv" ? "text/csv" : "", share: () => share, watching });
}

/** What is read of storage can be gone. */
function* atHand(pieces: Iterable<Piece>): Generator<Piece> {
  try {
    yield* pieces;
  } catch (error) {
    throw error instanceof DOMException ? new ProblemError(notAtHand) : error;
  }
}

interface Gathering {
  readonly type: string;
  /** How much is written. */
  share(): number;
  readonly watching: Watching;
}

async function gathered(
  pieces: Iterable<Piece>,
  { type, share, watching: { signal, onProgress } }: Gathering,
): Promise<Blob> {
  const taken: Blob[] = [];
  let waiting: Piece[] = [];
  let size = 0;
  let rested = performance.now();
  for (const piece of pieces) {
    waiting.push(piece);
    size += piece.length;
    if (size >= handedOver) {
      taken.push(await takenBy(new Blob(waiting)));
      [waiting, size] = [[], 0];
    }
    if (performance.now() - rested < restEvery) continue;
    onProgress?.(share(), 1);
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (signal?.aborted) throw new ProblemError(savingCancelled);
    rested = performance.now();
  }
  return takenBy(new Blob([...taken, ...waiting], { type }));
}

/** Waits until the browser has the bytes. */
async function takenBy(blob: Blob): Promise<Blob> {
  try {
    await blob.slice(-1).arrayBuffer();
    return blob;
  } catch {
    throw new ProblemError(tooMuchToSave);
  }
}
