// A dropped or chosen file as the readers take it.

import type { ByteSource } from "../src/capture/reader.ts";
import { ProblemError } from "../src/problem.ts";

/** @throws ProblemError "unreadable" from `read` when the browser will not give the bytes: a folder, a file gone or locked. */
export function blobSource(blob: Blob, name: string): ByteSource {
  return {
    name,
    size: blob.size,
    async read(from, to) {
      try {
        return new Uint8Array(await blob.slice(from, to).arrayBuffer());
      } catch (error) {
        if (error instanceof DOMException) throw unreadable(name);
        throw error;
      }
    },
  };
}

export function unreadable(name: string): ProblemError {
  return new ProblemError({
    code: "unreadable",
    what: `${name} could not be read: it is a folder, or the file was moved, changed or locked.`,
    remedy: "Choose the file itself, and check that no other program is writing to it.",
    where: name,
  });
}
