// Bytes that can be read by range: a Blob of the browser, memory, or pieces left by an unpacker.

import { ProblemError } from "../../problem.ts";
import type { ByteSource } from "../model/reader.ts";
import { blobStream } from "./byte-stream.ts";

/** A file or Blob of the page. @throws ProblemError "unreadable" on read when the browser refuses it (a folder, a file gone). */
export function blobSource(blob: Blob, name: string): ByteSource {
  const source: ByteSource = {
    name,
    size: blob.size,
    stream: (from) => blobStream(blob, source, from),
    async read(from, to) {
      try {
        return new Uint8Array(await blob.slice(from, to).arrayBuffer());
      } catch {
        throw unreadable(name);
      }
    },
  };
  return source;
}

/** Bytes already in memory. They are not copied until read. */
export function memorySource(bytes: Uint8Array, name: string): ByteSource {
  return piecesSource([bytes], name);
}

/** The bytes of `pieces`, one after another, without joining them. */
export function piecesSource(pieces: readonly Uint8Array[], name: string): ByteSource {
  const size = pieces.reduce((sum, piece) => sum + piece.length, 0);
  return { name, size, read: async (from, to) => joined(pieces, from, Math.min(to, size)) };
}

/** Bytes [from, to) of pieces that lie one behind the other. */
export function joined(pieces: readonly Uint8Array[], from: number, to: number): Uint8Array {
  const out = new Uint8Array(Math.max(0, to - from));
  let start = 0;
  for (const piece of pieces) {
    const [low, high] = [Math.max(from, start), Math.min(to, start + piece.length)];
    if (low < high) out.set(piece.subarray(low - start, high - start), low - from);
    start += piece.length;
  }
  return out;
}

export function unreadable(name: string): ProblemError {
  return new ProblemError({
    code: "unreadable",
    what: `${name} cannot be read: its stick or disk is gone, it was moved, removed or is held by another program, or it is a folder.`,
    remedy: "Choose the recording itself, and see that it still lies where it was.",
    where: name,
  });
}
