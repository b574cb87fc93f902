// Inflates within bounds: a bomb ends in a Problem, a cut archive in what it still held, a wrong checksum in a remark.

import { Gunzip, Inflate } from "fflate";
import { ProblemError } from "../../problem.ts";
import { breathe } from "../bytes/breathe.ts";
import type { ByteSource, ReadReport } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";

const pieceBytes = 16 * 1024; // unpacks to 16 MB at most: deflate gains no more than about 1,030 to 1 (zlib's technical notes)
/** More than this unpacked is refused: it would not fit a workshop tablet. */
export const mostUnpacked = 512 * 1024 * 1024;
/** Nor is anything that grows like this a recording: ten to one is usual, and even one value held throughout stays below. */
const bomb = { from: 64 * 1024 * 1024, growth: 400 };

export interface Packed {
  readonly source: ByteSource;
  readonly from: number;
  readonly to: number;
  readonly kind: "gzip" | "deflate" | "stored";
  /** CRC-32 of the unpacked bytes where the archive states it apart. */
  readonly crc: number | null;
}

export interface Unpacking {
  readonly report: ReadReport;
  readonly remarks: RemarkBook;
}

/**
 * @param most  bytes after which no more is unpacked; a little more may have been.
 * @throws ProblemError "too-large" beyond `mostUnpacked`, "damaged" where nothing could be unpacked.
 */
export async function unpack(
  packed: Packed,
  unpacking: Unpacking,
  most = Number.POSITIVE_INFINITY,
): Promise<Uint8Array[]> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of unpackedPieces(packed, unpacking)) {
    pieces.push(piece);
    size += piece.length;
    if (size >= most) break;
  }
  return pieces;
}

/** The unpacked bytes, from front to back. @param limit  bytes beyond which it is too much. @throws as `unpack` */
export async function* unpackedPieces(
  { source, from, to, kind, crc }: Packed,
  { report, remarks }: Unpacking,
  limit = mostUnpacked,
): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = [];
  const check = new Crc32();
  let [size, taken, isDamaged] = [0, 0, false];
  const keep = (piece: Uint8Array) => {
    size += piece.length;
    if (size > limit || (size > bomb.from && size > bomb.growth * taken)) throw tooLarge(source.name, size, taken);
    check.take(piece);
    if (piece.length > 0) ready.push(piece);
  };
  let moreMembers = 0; // fflate tells of the second and later ones
  const stream = kind === "stored" ? null : kind === "gzip" ? new Gunzip(keep) : new Inflate(keep);
  if (stream instanceof Gunzip) stream.onmember = () => moreMembers++;
  for (let at = from; at < to && !isDamaged; at += pieceBytes) {
    const bytes = await source.read(at, Math.min(at + pieceBytes, to));
    taken += bytes.length;
    try {
      if (stream) stream.push(bytes, at + pieceBytes >= to);
      else keep(bytes);
    } catch (error) {
      if (error instanceof ProblemError) throw error;
      if (size === 0) throw damagedArchive(source.name);
      isDamaged = true;
    }
    report.progress(Math.min(at + pieceBytes, to) - from, source.size);
    await breathe(report.signal, source.name);
    yield* ready;
    ready = [];
  }
  if (isDamaged) return remarks.say("the archive is damaged or cut off; what could be unpacked was read");
  const wanted = kind === "gzip" ? await gzipCrc(source, to, moreMembers) : crc;
  if (wanted !== null && wanted !== check.value && size > 0)
    remarks.say("the archive's checksum does not fit its contents: numbers may be wrong");
}

/** CRC-32 in the trailer; null where there are several members, of which it covers the last. */
async function gzipCrc(source: ByteSource, to: number, moreMembers: number): Promise<number | null> {
  if (moreMembers > 0) return null;
  const tail = await source.read(Math.max(0, to - 8), to);
  return tail.length < 8 ? null : new DataView(tail.buffer, tail.byteOffset, 8).getUint32(0, true);
}

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as gzip and zip use it (RFC 1952, section 8). */
export class Crc32 {
  #state = 0xffffffff;

  take(bytes: Uint8Array): void {
    let state = this.#state;
    for (let i = 0; i < bytes.length; i++) state = crcTable[(state ^ bytes[i]!) & 255]! ^ (state >>> 8);
    this.#state = state;
  }

  get value(): number {
    return (this.#state ^ 0xffffffff) >>> 0;
  }
}

export function damagedArchive(name: string): ProblemError {
  return new ProblemError({
    code: "damaged",
    what: `${name} is a damaged or cut archive; nothing could be unpacked.`,
    remedy: "Copy it again, or pack the recording anew.",
    where: name,
  });
}

function tooLarge(name: string, size: number, taken: number): ProblemError {
  const [unpacked, packed] = [size, taken].map((bytes) => Math.max(1, Math.round(bytes / 2 ** 20)));
  return new ProblemError({
    code: "too-large",
    what:
      size <= bomb.growth * taken
        ? `${name} unpacks to more than ${mostUnpacked / 2 ** 20} MB.`
        : `${name} swells from ${packed} MB to more than ${unpacked} MB when unpacked; no recording does.`,
    remedy: "Unpack it and open a part of it, or record at a lower rate.",
    where: name,
  });
}
