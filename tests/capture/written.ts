// Channels as a NumPy array, in one piece.

import { npyPieces } from "../../src/capture/writing/write-npy.ts";

export function writeNpy(...given: Parameters<typeof npyPieces>): Uint8Array<ArrayBuffer> {
  return new Uint8Array(Buffer.concat([...npyPieces(...given)]));
}
