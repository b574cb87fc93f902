// A zip written by hand, so that it can lie: entries twice, names that climb, sizes that are false. Source: APPNOTE.TXT 4.3.

import { deflateRawSync } from "node:zlib";
import { strToU8 } from "fflate";

export interface Entry {
  readonly name: string | Uint8Array;
  readonly bytes: Uint8Array;
  /** 0 stored, 8 deflated; any other is written as it is said. */
  readonly method?: number;
  /** What the headers say instead of the truth. */
  readonly says?: Partial<Readonly<Record<"crc" | "packed" | "size" | "flags" | "at", number>>>;
  /** Only in the list at the end: its bytes are those of the entry before. */
  readonly shared?: boolean;
}

export interface Lies {
  readonly before?: Uint8Array;
  readonly comment?: Uint8Array;
  readonly count?: number;
  readonly listAt?: number;
}

export function zipOf(entries: readonly Entry[], lies: Lies = {}): Uint8Array {
  const parts: Uint8Array[] = lies.before ? [lies.before] : [];
  const list: Uint8Array[] = [];
  let at = lies.before?.length ?? 0;
  let last = at;
  for (const entry of entries) {
    const name = typeof entry.name === "string" ? strToU8(entry.name) : entry.name;
    const data = entry.method === 0 ? entry.bytes : new Uint8Array(deflateRawSync(entry.bytes));
    const method = entry.method ?? 8;
    const crc = crc32(entry.bytes);
    const truth = { crc, packed: data.length, size: entry.bytes.length, flags: 0x800, at: entry.shared ? last : at };
    const said = { ...truth, ...entry.says };
    const fields = [20, said.flags, method, 0, 0x21];
    const numbers = [said.crc, said.packed, said.size];
    if (!entry.shared) {
      parts.push(header("PK\x03\x04", fields, numbers, [name.length, 0]), name, data);
      last = at;
      at += 30 + name.length + data.length;
    }
    const central = header("PK\x01\x02", [20, ...fields], numbers, [name.length, 0, 0, 0, 0]);
    list.push(central, words32([0, said.at]), name);
  }
  const size = list.reduce((sum, { length }) => sum + length, 0);
  const count = lies.count ?? entries.length;
  const comment = lies.comment ?? new Uint8Array(0);
  const end = [strToU8("PK\x05\x06"), words16([0, 0, count, count]), words32([size, lies.listAt ?? at])];
  return joined([...parts, ...list, ...end, words16([comment.length]), comment]);
}

function header(mark: string, before: readonly number[], numbers: readonly number[], after: readonly number[]) {
  return joined([strToU8(mark), words16(before), words32(numbers), words16(after)]);
}

const words16 = (numbers: readonly number[]) =>
  Uint8Array.from(numbers.flatMap((one) => [one & 255, (one >>> 8) & 255]));
const words32 = (numbers: readonly number[]) =>
  Uint8Array.from(numbers.flatMap((one) => [0, 8, 16, 24].map((shift) => (one >>> shift) & 255)));

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let i = 0; i < 8; i++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (const byte of bytes) crc = (crc >>> 8) ^ table[(crc ^ byte) & 255]!;
  return ~crc >>> 0;
}
