// The bytes that were opened, kept beside the columns that were read of them.

import { blobSource, unreadable } from "../../src/capture/bytes/sources.ts";
import { ProblemError } from "../../src/problem.ts";
import { fileIn, original } from "./kept-folder.ts";
import { freeRoom, isFull, removeQuietly, swapIn, writeAt } from "./private-files.ts";

const pieceSize = 4 << 20;
/** Bytes that are left to others. */
const spare = 64 << 20;

/**
 * Keeps the file's bytes where there is room for them beside the columns; without, a later reading asks for the file.
 *
 * @returns false where the file cannot be read any more: its stick was pulled.
 */
export async function putOriginal(
  folder: FileSystemDirectoryHandle,
  file: Blob,
  signal: AbortSignal,
): Promise<boolean> {
  const kept = await fileIn(folder, original);
  if (kept?.size === file.size) return true;
  if ((await freeRoom()) < file.size + (file.size > spare ? spare : 0)) {
    await removeQuietly(folder, original);
    return true;
  }
  const stream = blobSource(file, "").stream!(0);
  try {
    await swapIn(folder, original, async (handle) => {
      // Into the same memory again and again: many GB go through here.
      let bytes = new Uint8Array(pieceSize);
      for (let at = 0; at < file.size; ) {
        const filled = await stream.fill(bytes, 0);
        if (filled.end === 0) throw unreadable("");
        await writeAt(handle, filled.bytes.subarray(0, filled.end), at, signal);
        at += filled.end;
        bytes = filled.bytes;
      }
    });
    return true;
  } catch (error) {
    await removeQuietly(folder, original);
    if (isUnreadable(error)) return false;
    if (!isFull(error)) throw error;
    return true;
  } finally {
    stream.close();
  }
}

const isUnreadable = (error: unknown): boolean => error instanceof ProblemError && error.problem.code === "unreadable";
