// Peer: the bytes alone, as fast as the browser gives them.

import { blobSource } from "../../../src/capture/bytes/sources.ts";

self.onmessage = async ({ data }: MessageEvent<File>) => {
  const started = performance.now();
  const stream = blobSource(data, "bytes").stream!(0);
  let bytes = new Uint8Array(2 << 20);
  for (;;) {
    const filled = await stream.fill(bytes, 0);
    bytes = filled.bytes;
    if (filled.end < bytes.length) break;
  }
  self.postMessage(performance.now() - started);
};
