// The bytes that were opened, kept beside the columns that were read of them.

import { blobSource } from "../../src/capture/bytes/sources.ts";
import { fileIn, original } from "./kept-folder.ts";
import { freeRoom, isFull, removeQuietly, swapIn, writeAt } from "./private-files.ts";

const pieceSize = 4 << 20;
/** Bytes that are left to others. */
const spare = 64 << 20;

/** Keeps the file's bytes where there is room for them beside the columns; without, a later reading asks for the file. */
export async function putOriginal(folder: FileSystemDirectoryHandle, file: Blob, signal: AbortSignal): Promise<void> {
  const kept = await fileIn(folder, original);
  if (kept?.size === file.size) return;
  if ((await freeRoom()) < file.size + (file.size > spare ? spare : 0)) return removeQuietly(folder, original);
  const stream = blobSource(file, "").stream!(0);
  try {
    await swapIn(folder, original, async (handle) => {
      // Into the same memory again and again: many GB go through here.
      let bytes = new Uint8Array(pieceSize);
      for (let at = 0; at < file.size; ) {
        const filled = await stream.fill(bytes, 0);
        if (filled.end === 0) throw new DOMException("short", "NotReadableError");
        await writeAt(handle, filled.bytes.subarray(0, filled.end), at, signal);
        at += filled.end;
        bytes = filled.bytes;
      }
    });
  } catch (error) {
    await removeQuietly(folder, original);
    if (!isFull(error)) throw error;
  } finally {
    stream.close();
  }
}
