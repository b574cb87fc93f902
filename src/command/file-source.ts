// A file on disk, read by range.

import { existsSync } from "node:fs";
import { type FileHandle, open } from "node:fs/promises";
import { basename, resolve } from "node:path";
import type { ByteSource } from "../capture/model/reader.ts";
import { type Problem, ProblemError } from "../problem.ts";

export interface OpenFile extends ByteSource {
  close(): Promise<void>;
}

/**
 * Looked for where the user called from (npm tells in INIT_CWD), then in the current folder.
 *
 * @throws ProblemError when there is no such file, it is a folder, or it may not be read.
 */
export async function openFile(path: string): Promise<OpenFile> {
  const full = whereItIs(path);
  const handle = await open(full, "r").catch((error: NodeJS.ErrnoException) => {
    throw new ProblemError(problemOf(error, path));
  });
  const { size } = await regularFile(handle, path);
  return {
    name: basename(full),
    size,
    read: (from, to) => readRange(handle, from, Math.min(to, size)),
    close: () => handle.close(),
  };
}

function whereItIs(path: string): string {
  const places = [process.env.INIT_CWD ?? process.cwd(), process.cwd()].map((folder) => resolve(folder, path));
  return places.find((place) => existsSync(place)) ?? places[0]!;
}

async function regularFile(handle: FileHandle, path: string) {
  const about = await handle.stat();
  if (about.isFile()) return about;
  await handle.close();
  throw new ProblemError({
    code: "not-a-recording",
    what: about.isDirectory() ? "This is a folder, not a recording." : "This is no ordinary file.",
    remedy: "Name one recording inside it.",
    where: path,
  });
}

async function readRange(handle: FileHandle, from: number, to: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(Math.max(0, to - from));
  let filled = 0;
  while (filled < bytes.length) {
    const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled, from + filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return bytes.subarray(0, filled);
}

function problemOf(error: NodeJS.ErrnoException, path: string): Problem {
  if (error.code === "ENOENT" || error.code === "ENOTDIR")
    return { code: "unreadable", what: "There is no such file.", remedy: "Check its name and folder.", where: path };
  const what = error.code === "EACCES" ? "The file may not be read." : `The file could not be opened (${error.code}).`;
  return { code: "unreadable", what, remedy: "Check that you may read it, and try again.", where: path };
}
