// Every format that opens, in the order it is tried.

import type { Capture } from "./capture.ts";
import { refuseOtherKinds, unknownBytes } from "./not-recording.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "./reader.ts";
import { emptyFile } from "./text/rows.ts";
import { textReader } from "./text/text-reader.ts";

export const readers: readonly Reader[] = [textReader];

const headBytes = 4096;

/**
 * Reads a recording of whatever format its first bytes show.
 *
 * @throws ProblemError when it cannot be read: what is wrong, where, and what would help.
 */
export async function readCapture(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  if (source.size === 0) throw emptyFile(source.name);
  const head = await source.read(0, Math.min(headBytes, source.size));
  if (head.length === 0) throw emptyFile(source.name);
  refuseOtherKinds(head, source.name);
  const reader = readers.find(({ recognises }) => recognises(head));
  if (!reader) throw unknownBytes(source.name);
  return reader.read(source, choices, report);
}
