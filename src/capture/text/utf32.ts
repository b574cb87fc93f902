// Text of four bytes a letter (UTF-32), which no platform decodes: the same text in two bytes a letter, by range.

import type { ByteSource } from "../model/reader.ts";

type Order = "low first" | "high first";

/** Bytes that are looked at, and the letters that without a mark tell such text from whole numbers. */
const looked = 4096;
const fewest = 8;

/** Which byte of a letter comes first; null where the bytes are no text of four bytes a letter. */
export function utf32Order(head: Uint8Array): Order | null {
  if (head.length < 4) return null;
  const view = new DataView(head.buffer, head.byteOffset, Math.min(looked, head.length - (head.length % 4)));
  if (view.getUint32(0) === 0xfffe0000) return "low first";
  if (view.getUint32(0) === 0xfeff) return "high first";
  if (view.byteLength < 4 * fewest) return null;
  return (["low first", "high first"] as const).find((order) => isLetters(view, order)) ?? null;
}

/** All are letters of texts, most of them plain ones: counts in a raw file are not. */
function isLetters(view: DataView, order: Order): boolean {
  const count = view.byteLength / 4;
  let plain = 0;
  for (let i = 0; i < count; i++) {
    const letter = view.getUint32(4 * i, order === "low first");
    if (letter > 0x10ffff || (letter < 32 && letter !== 9 && letter !== 10 && letter !== 13)) return false;
    if (letter < 127) plain++;
  }
  return plain > 0.7 * count;
}

/** Letters of the higher planes, of which no number or unit is made, become the mark for an unknown one. */
const unknownLetter = 0xfffd;

/** @returns `source` itself where its text is not of four bytes a letter. */
export function inTwoBytes(source: ByteSource, head: Uint8Array): ByteSource {
  const order = utf32Order(head);
  if (order === null) return source;
  return {
    name: source.name,
    ...(source.isSizeGuessed ? { isSizeGuessed: true } : {}),
    get size() {
      return 2 * Math.floor(source.size / 4);
    },
    async read(from, to) {
      const first = from - (from % 2);
      const bytes = await source.read(2 * first, 4 * Math.ceil(to / 2));
      return halved(bytes, order).subarray(from - first, to - first);
    },
  };
}

function halved(bytes: Uint8Array, order: Order): Uint8Array {
  const count = Math.floor(bytes.length / 4);
  const [from, into] = [new DataView(bytes.buffer, bytes.byteOffset), new DataView(new ArrayBuffer(2 * count))];
  const isLowFirst = order === "low first";
  for (let i = 0; i < count; i++) {
    const letter = from.getUint32(4 * i, isLowFirst);
    into.setUint16(2 * i, letter > 0xffff ? unknownLetter : letter, isLowFirst);
  }
  return new Uint8Array(into.buffer);
}
