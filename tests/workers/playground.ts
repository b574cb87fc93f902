// Workers with the real service and store, and what they leave in the browser's storage.

import { wrap } from "comlink";
import type { CaptureService } from "../../workers/protocol.ts";
import { type SentService, turnsOf } from "../../workers/service/tickets.ts";
import type { Version } from "../../workers/store/answers.ts";

export interface Playground extends CaptureService {
  sweep(): Promise<void>;
  refuse(how: "denied" | "full" | "narrow" | "mute" | "stalled" | "vanishing" | "alone" | "absent"): Promise<void>;
  setRoom(bytes: number): Promise<void>;
  reads(): Promise<number>;
  wholes(): Promise<number>;
  finds(): Promise<number>;
  setVersion(version: Version): Promise<void>;
}

const workers: Worker[] = [];

export function startPlayground() {
  const worker = new Worker(new URL("./playground.worker.ts", import.meta.url), { type: "module" });
  workers.push(worker);
  const remote = wrap<SentService>(worker);
  const turns = turnsOf(remote);
  const get = (_: unknown, name: string) => Reflect.get(name in turns ? turns : remote, name);
  return { worker, service: new Proxy({}, { get }) as Playground };
}

/** Ends all workers and empties the storage. */
export async function clearCaptures(): Promise<void> {
  for (const worker of workers.splice(0)) worker.terminate();
  const root = await navigator.storage.getDirectory();
  // The browser lets go of a dead worker's files a moment later.
  for (let tries = 0; tries < 50; tries++) {
    const left = await root.removeEntry("captures", { recursive: true }).catch((error: DOMException) => error.name);
    if (left === undefined || left === "NotFoundError") return;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** Names of all there is, finished or not. */
export async function captureFolders(): Promise<string[]> {
  const root = await navigator.storage.getDirectory();
  const captures = await root.getDirectoryHandle("captures", { create: true });
  const names: string[] = [];
  for await (const name of captures.keys()) names.push(name);
  return names;
}
