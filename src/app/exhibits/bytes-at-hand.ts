// Which bytes an exhibit was drawn from: their own digest, and a word where that is not what the job's record says.

import type { CaptureService } from "../../../workers/protocol.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { UnderWay } from "../core/under-way.ts";
import type { DrawnBeside } from "./drawn-beside.ts";

export interface BytesAtHand {
  /** Of the recording on the bench. */
  readonly sha256: string;
  readonly statements: readonly string[];
}

interface Bytes {
  readonly name: string;
  readonly captureId: string;
  /** What the record says; without one the name they go by in storage. */
  readonly said: string;
}

/** Each recording's bytes are looked through once; large ones take a moment. */
export async function bytesAtHand(
  {
    service,
    underWay,
  }: { readonly service: Pick<CaptureService, "sha256">; readonly underWay: Pick<UnderWay, "follow"> },
  { id, fileName, sha256 }: CaptureRecord,
  beside: readonly DrawnBeside[],
): Promise<BytesAtHand> {
  const mine: Bytes = { name: fileName, captureId: id, said: sha256 };
  const others = beside.map(({ name, take: { captureId }, sha256: said = captureId }) => ({ name, captureId, said }));
  return underWay.follow("Looking through the bytes of the recordings", async ({ signal }) => {
    const found = [];
    for (const one of [mine, ...others]) {
      found.push(await Promise.race([lookedThrough(service, one), givenUp(signal, one)]));
    }
    return { sha256: found[0]!.sha256, statements: found.flatMap(({ says }) => says) };
  });
}

interface Looked {
  readonly sha256: string;
  readonly says: readonly string[];
}

/** Where nobody waits for it, the sheet says what the record does, and that it does. */
function givenUp(signal: AbortSignal, { name, said }: Bytes): Promise<Looked> {
  const says = [`SHA-256 of ${name} as its record says: its bytes were not looked through again.`];
  return new Promise((resolve) => {
    if (signal.aborted) resolve({ sha256: said, says });
    else signal.addEventListener("abort", () => resolve({ sha256: said, says }));
  });
}

async function lookedThrough(
  service: Pick<CaptureService, "sha256">,
  { name, captureId, said }: Bytes,
): Promise<Looked> {
  const outcome = await service.sha256(captureId);
  if (!outcome.ok)
    return {
      sha256: said,
      says: [`SHA-256 of ${name} as its record says: the bytes are not kept here to be checked again.`],
    };
  const isSame = outcome.value === said && outcome.value === captureId;
  const says = `The bytes of ${name} at hand are not those of its record, which says SHA-256 ${said.slice(0, 12)}…: they were changed since, or the record was.`;
  return { sha256: outcome.value, says: isSame ? [] : [says] };
}
