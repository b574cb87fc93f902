// The name of a capture: SHA-256 of the file's bytes.

import { sha256 } from "@noble/hashes/sha2.js";
import type { ByteSource } from "../src/capture/reader.ts";

/** Up to here the browser's own digest takes the bytes at once; it cannot take them piece by piece. */
const atOnce = 32 << 20;
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
  const hash = sha256.create();
  for (let from = 0; from < source.size; from += pieceSize) {
    signal.throwIfAborted();
    hash.update(await source.read(from, Math.min(source.size, from + pieceSize)));
  }
  return hex(hash.digest());
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
