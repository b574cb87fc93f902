// Names one file and ends: the digest of a large file runs beside its reading.

import { blobSource } from "../../src/capture/bytes/sources.ts";
import { sha256Of } from "./sha256.ts";

self.onmessage = async ({ data }: MessageEvent<Blob>) => {
  try {
    self.postMessage(await sha256Of(blobSource(data, ""), new AbortController().signal));
  } catch {
    self.postMessage(null); // the reader meets the same trouble and tells it
  }
};
