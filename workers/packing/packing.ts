// Zips packed and unpacked in a thread of their own, for the page's must stay free.

import type { Entries, ZipFault, ZipLimits } from "../../src/capture/archives/zip-entries.ts";
import type { Outcome, Problem } from "../../src/problem.ts";

export interface ToPack {
  readonly files: Readonly<Record<string, Uint8Array | Blob>>;
}
export interface ToUnpack {
  readonly file: Blob;
  readonly limits: ZipLimits;
}

/** @returns a zip; a Problem "too-large" where the browser has not the memory for it, or a file cannot be read any more. */
export async function packFiles(files: ToPack["files"]): Promise<Outcome<Blob>> {
  const zip = await inThread<Blob>({ files });
  return zip ? { ok: true, value: zip } : { ok: false, problem: notPacked };
}

/** @returns the entries, or what stands against them; a file that cannot be read counts as damaged. */
export async function unpackFile(file: Blob, limits: ZipLimits): Promise<Entries | ZipFault> {
  return (await inThread<Entries | ZipFault>({ file, limits })) ?? "damaged";
}

/** Null where the thread gave up. */
function inThread<T>(work: ToPack | ToUnpack): Promise<T | null> {
  const worker = new Worker(new URL("./packing.worker.ts", import.meta.url), { type: "module" });
  const done = new Promise<T | null>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<T>) => resolve(data);
    worker.onerror = () => resolve(null);
  });
  worker.postMessage(work);
  return done.finally(() => worker.terminate());
}

const notPacked: Problem = {
  code: "too-large",
  what: "The zip could not be packed: the browser ran out of memory, or a file in it cannot be read any more.",
  remedy: "Close other tabs and try again; nothing was lost.",
};
