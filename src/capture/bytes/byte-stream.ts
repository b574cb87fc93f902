// The bytes of a source from front to back, into memory that is used again and again.

import type { ByteSource, ByteStream, Filled } from "../model/reader.ts";
import { inTime } from "./in-time.ts";

/** By ranges of the source. */
export function sliceStream(source: ByteSource, from: number): ByteStream {
  let next = from;
  return {
    async fill(bytes, at) {
      const piece = await source.read(next, Math.min(source.size, next + bytes.length - at));
      bytes.set(piece, at);
      next += piece.length;
      return { bytes, end: at + piece.length };
    },
    close() {},
  };
}

/** How long a read of the browser's stream may take before ranges are read instead, ms. */
const patience = 3_000;

/**
 * By the browser's own byte stream into our memory: two to four times as fast as ranges in Chromium. Now and then such a
 * read never ends there; it is then given up, and the rest is read by ranges.
 */
export function blobStream(blob: Blob, source: ByteSource, from: number): ByteStream {
  const stream = blob.slice(from).stream() as ReadableStream<Uint8Array<ArrayBuffer>>;
  const reader = stream.getReader({ mode: "byob" });
  let next = from;
  let slices: ByteStream | null = null;

  /**
   * All that there is room for, where the browser knows `min`: each answer hands the memory over as if it were new, and makes
   * the collector of garbage run the sooner. Else what the stream gives at once. Null when it does not answer.
   */
  async function read(bytes: Uint8Array<ArrayBuffer>, at: number): Promise<Filled | null> {
    const answer = await inTime(
      reader.read(bytes.subarray(at), { min: bytes.length - at }).catch(() => null),
      patience,
    );
    if (!answer?.value) return null;
    next += answer.value.byteLength;
    return { bytes: new Uint8Array(answer.value.buffer), end: at + answer.value.byteLength };
  }

  return {
    async fill(bytes, at) {
      if (slices) return slices.fill(bytes, at);
      const { length } = bytes;
      let filled: Filled = { bytes, end: at };
      while (filled.end < length && next < source.size) {
        const before = filled.end;
        const more = await read(filled.bytes, before);
        if (!more || more.end === before) {
          // The memory went with the read: what stood in it is read again.
          slices = sliceStream(source, next - before);
          return slices.fill(new Uint8Array(length), 0);
        }
        filled = more;
      }
      return filled;
    },
    close() {
      reader.cancel().catch(() => {});
    },
  };
}
