// SHA-256 of a file while another thread reads it.

import type { ByteSource } from "../src/capture/reader.ts";
import { unreadable } from "../src/capture/sources.ts";
import { atOnce, sha256Of } from "./sha256.ts";

/** @throws ProblemError "unreadable"; the signal's reason when it is aborted. */
export function nameOf(file: Blob, source: ByteSource, signal: AbortSignal): Promise<string> {
  if (file.size <= atOnce) return sha256Of(source, signal);
  const worker = new Worker(new URL("./naming.worker.ts", import.meta.url), { type: "module" });
  const named = new Promise<string>((resolve, reject) => {
    worker.onmessage = ({ data }) => (data ? resolve(data) : reject(unreadable(source.name)));
    worker.onerror = () => reject(unreadable(source.name));
    signal.addEventListener("abort", () => reject(signal.reason));
  });
  worker.postMessage(file);
  return named.finally(() => worker.terminate());
}
