// The folder of one kept capture: its record, what lies in it, and how much room that takes.

import type { Remark } from "../../src/capture/model/capture.ts";
import type { KeptCapture } from "./layout.ts";
import {
  capturesFolder,
  isMissing,
  moveFile,
  removeQuietly,
  storageProblem,
  swapIn,
  textOf,
  writeAt,
} from "./private-files.ts";

export const record = "record.json";
/** The bytes that were opened. */
export const original = "original";

/** What the record tells of a capture; without one there is none. */
export type KeptRecord = KeptCapture & { readonly warnings: readonly Remark[] };

/** Null where there is none, or none that can be read: written by half, garbled. */
export async function recordIn(folder: FileSystemDirectoryHandle): Promise<KeptRecord | null> {
  const text = await textOf(folder, record);
  try {
    const kept: unknown = JSON.parse(text ?? "null");
    const isRecord = typeof kept === "object" && kept !== null && "arrays" in kept && typeof kept.arrays === "string";
    return isRecord ? (kept as KeptRecord) : null;
  } catch {
    return null;
  }
}

export function putRecord(folder: FileSystemDirectoryHandle, kept: KeptRecord): Promise<void> {
  const bytes = new TextEncoder().encode(JSON.stringify(kept));
  return swapIn(folder, record, (handle) => writeAt(handle, bytes, 0, new AbortController().signal));
}

/** Null where the folder goes while it is looked into: another tab sweeps. */
export async function bytesIn(folder: FileSystemDirectoryHandle): Promise<number | null> {
  try {
    let bytes = 0;
    for await (const entry of folder.values()) {
      if (entry.kind === "file") bytes += await sizeOf(entry as FileSystemFileHandle);
    }
    return bytes;
  } catch (error) {
    return unlessMissing(error);
  }
}

const sizeOf = (file: FileSystemFileHandle): Promise<number> =>
  file.getFile().then(
    ({ size }) => size,
    () => 0,
  );

export function unlessMissing(error: unknown): null {
  if (isMissing(error)) return null;
  throw storageProblem(error);
}

export function folderOf(id: string, create: true): Promise<FileSystemDirectoryHandle>;
export function folderOf(id: string, create: false): Promise<FileSystemDirectoryHandle | null>;
export async function folderOf(id: string, create: boolean): Promise<FileSystemDirectoryHandle | null> {
  const captures = await capturesFolder();
  try {
    return await captures.getDirectoryHandle(id, { create });
  } catch (error) {
    if (isMissing(error)) return null;
    throw storageProblem(error);
  }
}

/** Moves written columns to the capture they belong to. */
export async function named(from: FileSystemDirectoryHandle, id: string, kept: KeptRecord): Promise<void> {
  const folder = await folderOf(id, true);
  await moveFile(from, kept.arrays, folder);
  await putRecord(folder, kept);
  await removeOthers(folder, [record, original, kept.arrays]);
}

export async function fileIn(folder: FileSystemDirectoryHandle, name: string): Promise<File | null> {
  return folder.getFileHandle(name).then(
    (handle) => handle.getFile(),
    () => null,
  );
}

export async function removeOthers(
  folder: FileSystemDirectoryHandle,
  names: readonly string[],
  isOther: (name: string) => boolean = () => false,
): Promise<void> {
  for await (const name of folder.keys()) {
    if (!names.includes(name) && !isOther(name)) await removeQuietly(folder, name);
  }
}
