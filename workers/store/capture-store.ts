// Captures kept in the browser's own storage: the file's bytes, and its columns ready to be drawn.
//
// A capture is there when its record is. The record is written last and swapped in in one step, and names the file of
// arrays it belongs to: a tab killed in the middle of writing leaves what was there before.

import type { Remark } from "../../src/capture/capture.ts";
import type { ReadChoices } from "../../src/capture/reader.ts";
import type { MemoryBody } from "../memory-body.ts";
import { bytesOf, type KeptCapture, layOut, layoutVersion } from "./layout.ts";
import {
  capturesFolder,
  isMissing,
  readHandle,
  type SyncHandle,
  storageProblem,
  swapIn,
  textOf,
  writeHandle,
} from "./private-files.ts";

const record = "record.json";
const original = "original";
const pieceSize = 4 << 20;

export interface ToKeep {
  readonly id: string;
  readonly file: Blob;
  readonly body: MemoryBody;
  readonly choices: ReadChoices;
  readonly warnings: readonly Remark[];
}

/** A kept capture, open for reading. */
export interface KeptFile {
  readonly kept: KeptCapture & { readonly warnings: readonly Remark[] };
  readonly handle: SyncHandle;
}

export const captureStore = {
  /**
   * Keeps a capture and its file's bytes. Other work goes on between two pieces.
   *
   * @throws ProblemError "storage-full" or "storage-denied"; nothing half-written is left.
   */
  async keep({ id, file, warnings, ...rest }: ToKeep, signal: AbortSignal): Promise<void> {
    const capture = await rest.body.capture();
    const arrays = `arrays-${crypto.randomUUID()}`;
    await navigator.locks.request(lockOf(id), async () => {
      const folder = await folderOf(id, true);
      try {
        const { kept, pieces } = layOut(capture, rest.body, rest.choices, arrays);
        const parts = pieces.map(({ place, array }) => ({ at: place.at, bytes: bytesOf(array) }));
        await write(folder, arrays, parts, signal);
        await keepOriginal(folder, file, signal);
        await swapIn(folder, record, JSON.stringify({ ...kept, warnings }));
        await removeOthers(folder, [record, original, arrays]);
      } catch (error) {
        await removeQuietly(folder, arrays);
        throw storageProblem(error);
      }
    });
  },

  /** Null when it is not kept, or kept by a version that laid it out otherwise. */
  async find(id: string): Promise<KeptFile | null> {
    const folder = await folderOf(id, false);
    const text = folder && (await textOf(folder, record));
    if (!folder || !text) return null;
    const kept = JSON.parse(text) as KeptFile["kept"];
    if (kept.version !== layoutVersion) return null;
    return { kept, handle: await readHandle(folder, kept.arrays) };
  },

  /** The bytes that were opened; null when they are not kept. */
  async file(id: string): Promise<File | null> {
    const folder = await folderOf(id, false);
    if (!folder || (await textOf(folder, record)) === null) return null;
    return (await folder.getFileHandle(original)).getFile();
  },

  async remove(id: string): Promise<void> {
    const captures = await capturesFolder();
    await removeQuietly(captures, id);
  },

  /** Removes what a tab left behind that was killed while it wrote. */
  async sweep(): Promise<void> {
    const captures = await capturesFolder();
    for await (const [id, folder] of captures.entries()) {
      if (folder.kind !== "directory") continue;
      await navigator.locks.request(lockOf(id), { ifAvailable: true }, async (lock) => {
        if (!lock) return;
        const text = await textOf(folder, record);
        if (text === null) await removeQuietly(captures, id);
        else await removeOthers(folder, [record, original, (JSON.parse(text) as KeptCapture).arrays]);
      });
    }
  },
};
export type CaptureStore = typeof captureStore;

/** True when a kept capture was read with the same choices: its columns may be used as they are. */
export function sameChoices(one: ReadChoices, other: ReadChoices): boolean {
  return JSON.stringify(sorted(one)) === JSON.stringify(sorted(other));
}

/** The same for any order of the keys. */
function sorted(value: unknown): unknown {
  if (value === null || typeof value !== "object") return value;
  const present = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return present.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, sorted(inner)]);
}

const lockOf = (id: string) => `keeping-${id}`;

function folderOf(id: string, create: true): Promise<FileSystemDirectoryHandle>;
function folderOf(id: string, create: false): Promise<FileSystemDirectoryHandle | null>;
async function folderOf(id: string, create: boolean): Promise<FileSystemDirectoryHandle | null> {
  const captures = await capturesFolder();
  try {
    return await captures.getDirectoryHandle(id, { create });
  } catch (error) {
    if (isMissing(error)) return null;
    throw storageProblem(error);
  }
}

async function keepOriginal(folder: FileSystemDirectoryHandle, file: Blob, signal: AbortSignal): Promise<void> {
  const kept = await folder.getFileHandle(original).then(
    (handle) => handle.getFile(),
    () => null,
  );
  if (kept?.size === file.size) return;
  const pieces = Array.from({ length: Math.ceil(file.size / pieceSize) }, (_, i) => ({
    at: i * pieceSize,
    bytes: file.slice(i * pieceSize, (i + 1) * pieceSize),
  }));
  await write(folder, original, pieces, signal);
}

/** Writes pieces of a new file. @throws the signal's reason when it is aborted. */
async function write(
  folder: FileSystemDirectoryHandle,
  name: string,
  pieces: readonly { readonly at: number; readonly bytes: Uint8Array<ArrayBuffer> | Blob }[],
  signal: AbortSignal,
): Promise<void> {
  const handle = await writeHandle(folder, name);
  try {
    for (const { at, bytes } of pieces) {
      const whole = bytes instanceof Blob ? new Uint8Array(await bytes.arrayBuffer()) : bytes;
      for (let from = 0; from < whole.length; from += pieceSize) {
        signal.throwIfAborted();
        const piece = whole.subarray(from, from + pieceSize);
        if (handle.write(piece, { at: at + from }) < piece.length)
          throw new DOMException("short", "QuotaExceededError");
        await otherWork();
      }
    }
    handle.flush();
  } finally {
    handle.close();
  }
}

/** Lets messages that wait be answered. */
function otherWork(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}

async function removeOthers(folder: FileSystemDirectoryHandle, names: readonly string[]): Promise<void> {
  for await (const name of folder.keys()) if (!names.includes(name)) await removeQuietly(folder, name);
}

/** What cannot be removed now (another tab reads it) goes at the next sweep. */
async function removeQuietly(folder: FileSystemDirectoryHandle, name: string): Promise<void> {
  await folder.removeEntry(name, { recursive: true }).catch(() => {});
}
