// The origin private file system as the capture store uses it. Only in a worker: it takes synchronous file handles.

import { inTime } from "../../src/capture/bytes/in-time.ts";
import { ProblemError } from "../../src/problem.ts";

/** A file opened in a worker (File System standard, section 2.6). The page's type library does not have it. */
export interface SyncHandle {
  read(into: Uint8Array<ArrayBuffer>, options: { at: number }): number;
  write(bytes: Uint8Array<ArrayBuffer>, options: { at: number }): number;
  flush(): void;
  close(): void;
  /** Bytes. */
  getSize(): number;
  truncate(size: number): void;
}

interface SyncFile {
  createSyncAccessHandle(options: { mode: "readwrite" }): Promise<SyncHandle>;
}

/** The folder of all captures. @throws ProblemError "storage-denied". */
export async function capturesFolder(): Promise<FileSystemDirectoryHandle> {
  // WebKitGTK and pages without https have none.
  if (!navigator.storage?.getDirectory) refuseDenied();
  try {
    const root = await navigator.storage.getDirectory();
    return await root.getDirectoryHandle("captures", { create: true });
  } catch (error) {
    throw storageProblem(error);
  }
}

/** How long the browser may take to open a file for writing before it is asked again, ms; and how often it is asked. */
const patience = 3_000;
const mostTries = 4;

/**
 * For writing; nobody else may have the file open. On a busy machine Chromium now and then never answers: then it is asked
 * again.
 *
 * @throws DOMException as the browser does, and where it does not answer at all.
 */
export async function writeHandle(folder: FileSystemDirectoryHandle, name: string): Promise<SyncHandle> {
  for (let tries = 0; tries < mostTries; tries++) {
    const opening = openForWriting(folder, name);
    const handle = await inTime(opening, patience);
    if (handle) return handle;
    // An answer that comes too late would keep the next one from the file.
    opening.then(
      (late) => late.close(),
      () => {},
    );
  }
  throw new DOMException("no answer", "TimeoutError");
}

async function openForWriting(folder: FileSystemDirectoryHandle, name: string): Promise<SyncHandle> {
  const file = (await folder.getFileHandle(name, { create: true })) as unknown as SyncFile;
  return file.createSyncAccessHandle({ mode: "readwrite" });
}

const pieceSize = 4 << 20;

/** Writes `bytes` piece by piece; other work goes on between two. @throws the signal's reason when it is aborted. */
export async function writeAt(
  handle: SyncHandle,
  bytes: Uint8Array<ArrayBuffer>,
  at: number,
  signal: AbortSignal,
): Promise<void> {
  for (let from = 0; from < bytes.length; from += pieceSize) {
    signal.throwIfAborted();
    const piece = bytes.subarray(from, from + pieceSize);
    if (handle.write(piece, { at: at + from }) < piece.length) throw new DOMException("short", "QuotaExceededError");
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
}

interface MovableFile {
  move(folder: FileSystemDirectoryHandle, name: string): Promise<void>;
}

/** Takes a file that nobody has open to another place, over what is there. */
export async function moveFile(
  from: FileSystemDirectoryHandle,
  name: string,
  to: FileSystemDirectoryHandle,
  newName = name,
): Promise<void> {
  const file = (await from.getFileHandle(name)) as unknown as MovableFile;
  await file.move(to, newName);
}

export const canMoveFiles = (): boolean => "move" in FileSystemFileHandle.prototype;

/** Bytes that may still be stored, as far as the browser says. */
export async function freeRoom(): Promise<number> {
  const said = await navigator.storage.estimate().catch((): StorageEstimate => ({}));
  return (said.quota ?? Number.POSITIVE_INFINITY) - (said.usage ?? 0);
}

/** Takes a lock. @returns what lets go of it. */
export function lockHeld(name: string, mode: LockMode = "exclusive"): Promise<() => void> {
  return new Promise((taken) => {
    void navigator.locks.request(name, { mode }, () => new Promise<void>((release) => taken(release)));
  });
}

/** What cannot be removed now (another tab reads it) goes at the next sweep. */
export async function removeQuietly(folder: FileSystemDirectoryHandle, name: string): Promise<void> {
  await folder.removeEntry(name, { recursive: true }).catch(() => {});
}

/** A lock, if nobody else holds it in another way; else `work` is not done. */
export async function ifFree(name: string, work: () => Promise<void>): Promise<boolean> {
  return navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
    if (lock) await work();
    return lock !== null;
  });
}

/** Whole text of a file, null when there is none. */
export async function textOf(folder: FileSystemDirectoryHandle, name: string): Promise<string | null> {
  try {
    return await (await (await folder.getFileHandle(name)).getFile()).text();
  } catch (error) {
    if (isMissing(error)) return null;
    throw error;
  }
}

/**
 * Takes the place of the file in one step: written whole under another name, then moved. Killed before, the old one stands.
 *
 * @param fill  writes the new bytes.
 */
export async function swapIn(
  folder: FileSystemDirectoryHandle,
  name: string,
  fill: (handle: SyncHandle) => Promise<void>,
): Promise<void> {
  const coming = canMoveFiles() ? `${name}.coming` : name;
  try {
    await written(folder, coming, fill);
    if (coming !== name) await moveFile(folder, coming, folder, name);
  } catch (error) {
    await removeQuietly(folder, coming);
    throw error;
  }
}

/** Writes a file anew. */
export async function written(
  folder: FileSystemDirectoryHandle,
  name: string,
  fill: (handle: SyncHandle) => Promise<void>,
): Promise<void> {
  const handle = await writeHandle(folder, name);
  try {
    handle.truncate(0);
    await fill(handle);
    handle.flush();
  } finally {
    handle.close();
  }
}

export function isMissing(error: unknown): boolean {
  return error instanceof DOMException && error.name === "NotFoundError";
}

export function isFull(error: unknown): boolean {
  return error instanceof DOMException && error.name === "QuotaExceededError";
}

/** The user's trouble behind a refusal of the browser; anything else is passed on. */
export function storageProblem(error: unknown): unknown {
  if (!(error instanceof DOMException)) return error;
  if (isFull(error)) return new ProblemError(full);
  return new ProblemError(denied);
}

/** @throws ProblemError "storage-full" */
export function refuseFull(): never {
  throw new ProblemError(full);
}

/** @throws ProblemError "storage-denied" */
export function refuseDenied(): never {
  throw new ProblemError(denied);
}

const full = {
  code: "storage-full",
  what: "The browser's storage is full: this recording will not be here after a reload.",
  remedy: "Remove recordings you no longer need, or free space on the disk; work goes on in memory meanwhile.",
} as const;

const denied = {
  code: "storage-denied",
  what: "The browser does not let this page store anything: this recording will not be here after a reload.",
  remedy: "Allow storage for this page, or leave private browsing; work goes on in memory meanwhile.",
} as const;
