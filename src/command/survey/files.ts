// The files below a folder, and which of them a shard has.

import { createHash } from "node:crypto";
import type { Dirent } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { ProblemError } from "../../problem.ts";

/** The `part`-th of so many parts, 1 … of. */
export interface Shard {
  readonly part: number;
  readonly of: number;
}

export interface FoundFile {
  /** Path below the folder, with "/" on every system. */
  readonly file: string;
  readonly path: string;
  readonly bytes: number;
  /** Changed last, ms since 1970. */
  readonly changed: number;
}

/**
 * Every ordinary file of the shard, in the order of their paths. Hidden files and folders are left out; linked folders are
 * not followed, so that no circle is walked.
 *
 * @param but  paths left out: what the survey itself writes.
 * @throws ProblemError "unreadable" where there is no such folder, or it may not be read.
 */
export async function filesBelow(folder: string, shard: Shard, but: readonly string[]): Promise<FoundFile[]> {
  const found: FoundFile[] = [];
  for await (const file of walk(folder, "")) {
    const path = join(folder, file);
    if (!isOf(shard, file) || but.includes(path)) continue;
    const about = await stat(path).catch(() => null);
    if (about?.isFile()) found.push({ file, path, bytes: about.size, changed: about.mtimeMs });
  }
  return found.sort((a, b) => (a.file < b.file ? -1 : 1));
}

async function* walk(folder: string, below: string): AsyncGenerator<string> {
  for (const entry of await entriesOf(join(folder, below))) {
    if (entry.name.startsWith(".")) continue;
    const name = below === "" ? entry.name : `${below}/${entry.name}`;
    if (entry.isDirectory()) yield* walk(folder, name);
    else yield name;
  }
}

async function entriesOf(place: string): Promise<Dirent[]> {
  return readdir(place, { withFileTypes: true }).catch((error: NodeJS.ErrnoException) => {
    const what =
      error.code === "ENOENT"
        ? "There is no such folder."
        : error.code === "ENOTDIR"
          ? "This is no folder."
          : `The folder could not be read (${error.code}).`;
    throw new ProblemError({
      code: "unreadable",
      what,
      remedy: "Name a folder with recordings that you may read.",
      where: place,
    });
  });
}

/** By the path alone, so that a file keeps its shard whatever comes and goes beside it. */
function isOf({ part, of }: Shard, file: string): boolean {
  if (of === 1) return true;
  return createHash("sha256").update(file).digest().readUInt32BE(0) % of === part - 1;
}
