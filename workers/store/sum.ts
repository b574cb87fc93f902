// A sum over all bytes of a file of arrays: what comes out of storage is what went in.

import { createXXHash64 } from "hash-wasm";
import type { SyncHandle } from "./private-files.ts";

const pieceSize = 4 << 20;

/** A handle that adds up what is written through it, from the first byte on without a step back; holes count as zeros. */
export async function summing(handle: SyncHandle): Promise<{ readonly handle: SyncHandle; sum(): string }> {
  const hash = await createXXHash64();
  let end = 0;
  const skipTo = (at: number) => {
    if (at < end) throw new RangeError(`bytes at ${at} were added up to ${end} already`);
    hash.update(new Uint8Array(at - end));
    end = at;
  };
  return {
    handle: {
      read: (into, options) => handle.read(into, options),
      flush: () => handle.flush(),
      close: () => handle.close(),
      getSize: () => handle.getSize(),
      truncate: (size) => handle.truncate(size),
      write(bytes, { at }) {
        skipTo(at);
        const written = handle.write(bytes, { at });
        hash.update(bytes.subarray(0, written));
        end += written;
        return written;
      },
    },
    sum: () => hash.digest("hex"),
  };
}

/** The same sum over what lies in storage, with other work between two pieces. @throws the signal's reason */
export async function sumOf(handle: SyncHandle, signal: AbortSignal): Promise<string> {
  const hash = await createXXHash64();
  const piece = new Uint8Array(pieceSize);
  for (let at = 0; ; ) {
    signal.throwIfAborted();
    const count = handle.read(piece, { at });
    hash.update(piece.subarray(0, count));
    at += count;
    if (count < pieceSize) return hash.digest("hex");
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
}
