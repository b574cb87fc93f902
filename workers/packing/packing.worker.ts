// Packs or unpacks one zip and ends.

import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import type { Said, ToDo } from "./packing.ts";

/** Progress is told at most so often, ms. */
const tellEvery = 100;
let toldAt = 0;

const say = (said: Said) => self.postMessage(said);

function onProgress(done: number, total: number): void {
  if (performance.now() - toldAt < tellEvery) return;
  toldAt = performance.now();
  say({ done, total });
}

self.onmessage = async ({ data }: MessageEvent<ToDo>) => {
  try {
    if ("files" in data) say({ zip: await packEntries(data.files, { onProgress }) });
    else say({ entries: await unpackEntries(data.file, data.limits, { onProgress }) });
  } catch (error) {
    const isGone = error instanceof DOMException && /^Not(Readable|Found)Error$/.test(error.name);
    say({ failed: isGone ? "gone" : "memory" });
  }
};
