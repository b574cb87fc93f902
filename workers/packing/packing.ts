// Zips packed and unpacked in a thread of their own, for the page's must stay free; the library for it is loaded there, when
// it is wanted.

import type { Entries, Watched, ZipFault, ZipLimits } from "../../src/capture/archives/zip-entries.ts";
import { type Outcome, type Problem, ProblemError } from "../../src/problem.ts";

export type Files = Readonly<Record<string, Uint8Array | Blob>>;

/** Asked of the thread. */
export type ToDo = { readonly files: Files } | { readonly file: Blob; readonly limits: ZipLimits };
/** What it says. */
export type Said =
  | { readonly done: number; readonly total: number }
  | { readonly zip: Blob }
  | { readonly entries: Entries | ZipFault }
  /** "gone": a file in it cannot be read any more. */
  | { readonly failed: "gone" | "memory" };

/** @returns a zip; a Problem "unreadable" where a file in it is gone, "too-large" where the browser has no room, "cancelled". */
export async function packFiles(files: Files, watched: Watched = {}): Promise<Outcome<Blob>> {
  const said = await inThread({ files }, watched);
  if (said === "cancelled") return { ok: false, problem: cancelled };
  if ("zip" in said) return { ok: true, value: said.zip };
  return { ok: false, problem: "failed" in said && said.failed === "gone" ? gone : notPacked };
}

/** @returns the entries, or what stands against them. @throws ProblemError "cancelled" */
export async function unpackFile(file: Blob, limits: ZipLimits, watched: Watched = {}): Promise<Entries | ZipFault> {
  const said = await inThread({ file, limits }, watched);
  if (said === "cancelled") throw new ProblemError(cancelled);
  if ("entries" in said) return said.entries;
  return "failed" in said && said.failed === "memory" ? "too-large" : "unreadable";
}

/** The last that the thread said, or that it was given up. */
function inThread(work: ToDo, { signal, onProgress }: Watched): Promise<Said | "cancelled"> {
  const worker = new Worker(new URL("./packing.worker.ts", import.meta.url), { type: "module" });
  const done = new Promise<Said | "cancelled">((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Said>) => {
      if ("done" in data) onProgress?.(data.done, data.total);
      else resolve(data);
    };
    worker.onerror = () => resolve({ failed: "memory" });
    signal?.addEventListener("abort", () => resolve("cancelled"));
    if (signal?.aborted) resolve("cancelled");
  });
  worker.postMessage(work);
  return done.finally(() => worker.terminate());
}

const notPacked: Problem = {
  code: "too-large",
  what: "The zip could not be packed: the browser has no room for so much.",
  remedy: "Free space on the disk, close other tabs and try again; nothing was lost.",
};

const gone: Problem = {
  code: "unreadable",
  what: "The zip could not be packed: one of its files cannot be read any more.",
  remedy:
    "Was it on a stick that is pulled, or was it changed? Open the file again, and pack once more; nothing was lost.",
};

const cancelled: Problem = {
  code: "cancelled",
  what: "It was cancelled.",
  remedy: "Begin again when you want it.",
};
