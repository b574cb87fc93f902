// Peer: the least that reading a text costs. The bytes, as fast as the browser gives them, and columns written once meanwhile.

import { blobSource } from "../../../src/capture/bytes/sources.ts";

export interface Floor {
  readonly part: Blob;
  /** Bytes of the columns that come of it; 0 where none is touched. */
  readonly columns: number;
}

self.onmessage = async ({ data: { part, columns } }: MessageEvent<Floor>) => {
  const started = performance.now();
  const stream = blobSource(part, "bytes").stream!(0);
  const numbers = new Float32Array(columns / 4);
  let bytes = new Uint8Array(2 << 20);
  for (let read = 0, touched = 0; ; ) {
    const filled = await stream.fill(bytes, 0);
    bytes = filled.bytes;
    read += filled.end;
    const until = Math.floor((numbers.length * read) / part.size);
    for (; touched < until; touched++) numbers[touched] = read;
    if (filled.end < bytes.length) break;
  }
  self.postMessage(performance.now() - started);
};
