// Unpacking by the platform's own stream, several times as quick as in our code. It gives up on what is damaged.

import type { ByteSource } from "../model/reader.ts";

export interface PackedRange {
  readonly source: ByteSource;
  readonly from: number;
  readonly to: number;
  readonly kind: "gzip" | "deflate";
}

const pieceBytes = 64 * 1024;

/** Whether the platform has it for this kind. */
export function isAtHand(kind: PackedRange["kind"]): boolean {
  try {
    return typeof DecompressionStream !== "undefined" && streamOf(kind) !== null;
  } catch {
    return false; // it knows the stream, but not the kind
  }
}

const streamOf = (kind: PackedRange["kind"]) => new DecompressionStream(kind === "gzip" ? "gzip" : "deflate-raw");

/**
 * The unpacked bytes in pieces, from front to back.
 *
 * @param onTaken  told how many packed bytes were taken each time.
 * @throws what the stream throws at damage, a second member or a wrong checksum: all of them are left to our own code.
 */
export async function* inflated(
  { source, from, to, kind }: PackedRange,
  onTaken: (bytes: number) => void,
): AsyncGenerator<Uint8Array> {
  let at = from;
  const packed = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      if (at >= to) return controller.close();
      const bytes = await source.read(at, Math.min(at + pieceBytes, to));
      at += pieceBytes;
      onTaken(bytes.length);
      controller.enqueue(bytes as Uint8Array<ArrayBuffer>);
    },
  });
  const reader = packed.pipeThrough(streamOf(kind)).getReader();
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) yield read.value;
  } finally {
    await reader.cancel().catch(() => {});
  }
}
