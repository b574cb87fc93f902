// SHA-256 of a file that another thread reads.

import { unreadable } from "../../src/capture/bytes/sources.ts";
import type { ToName } from "../held/engine.ts";
import { atOnce, sha256Of } from "./sha256.ts";

/** Reading a file and drawing it keep two cores busy: only a third makes the digest of a large one meanwhile. */
const isRoomBeside = navigator.hardwareConcurrency > 2;

/**
 * Names a file: a large one in a thread of its own, on few cores once it has been read.
 *
 * @throws ProblemError "unreadable"; the signal's reason when it is aborted; what `reading` throws.
 */
export async function nameOf(
  { file, source }: ToName,
  signal: AbortSignal,
  reading: Promise<unknown>,
): Promise<string> {
  if (file.size <= atOnce) return sha256Of(source, signal);
  if (!isRoomBeside) await reading;
  signal.throwIfAborted();
  const worker = new Worker(new URL("./naming.worker.ts", import.meta.url), { type: "module" });
  const named = new Promise<string>((resolve, reject) => {
    worker.onmessage = ({ data }) => (data ? resolve(data) : reject(unreadable(source.name)));
    worker.onerror = () => reject(unreadable(source.name));
    signal.addEventListener("abort", () => reject(signal.reason));
  });
  worker.postMessage(file);
  return named.finally(() => worker.terminate());
}
