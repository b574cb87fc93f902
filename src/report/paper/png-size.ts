// Says in a PNG how large it is on paper, so that it prints at the size of its sheet. Chunk pHYs of ISO/IEC 15948.

import { Crc32 } from "../../capture/bytes/crc32.ts";

const signatureLength = 8;
/** Length, name, 13 bytes and check sum of the chunk IHDR, which always comes first. */
const headerLength = 25;
const millimetresPerMetre = 1000;

/** @param perMillimetre pixels. */
export function withPaperSize(png: Uint8Array, perMillimetre: number): Uint8Array<ArrayBuffer> {
  const at = signatureLength + headerLength;
  const chunk = sizeChunk(Math.round(perMillimetre * millimetresPerMetre));
  const sized = new Uint8Array(png.length + chunk.length);
  sized.set(png.subarray(0, at));
  sized.set(chunk, at);
  sized.set(png.subarray(at), at + chunk.length);
  return sized;
}

function sizeChunk(perMetre: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4); // "pHYs"
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  view.setUint8(16, 1); // the unit is the metre
  const check = new Crc32();
  check.take(chunk.subarray(4, 17));
  view.setUint32(17, check.value);
  return chunk;
}
