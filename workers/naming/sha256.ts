// The name of a capture: SHA-256 of the file's bytes.

import { createSHA256 } from "hash-wasm";
import { sliceStream } from "../../src/capture/bytes/byte-stream.ts";
import type { ByteSource } from "../../src/capture/model/reader.ts";

/** Up to here the browser's own digest takes the bytes at once; it cannot take them piece by piece. */
export const atOnce = 32 << 20;
const pieceSize = 4 << 20;

/**
 * SHA-256 of all bytes, lower-case hex. Source: FIPS 180-4.
 *
 * @throws the signal's reason when it is aborted between two pieces.
 */
export async function sha256Of(source: ByteSource, signal: AbortSignal): Promise<string> {
  if (source.size <= atOnce && globalThis.crypto?.subtle) {
    const bytes = await source.read(0, source.size);
    return hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>)));
  }
  const hash = (await createSHA256()).init();
  const stream = source.stream?.(0) ?? sliceStream(source, 0);
  let bytes = new Uint8Array(pieceSize);
  try {
    for (;;) {
      signal.throwIfAborted();
      const filled = await stream.fill(bytes, 0);
      bytes = filled.bytes;
      hash.update(bytes.subarray(0, filled.end));
      if (filled.end < pieceSize) return hash.digest();
    }
  } finally {
    stream.close();
  }
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
