// Inflates within bounds: a bomb ends in a Problem, a cut archive in what it still held, a wrong checksum in a remark.

import { Gunzip, Inflate } from "fflate";
import { ProblemError } from "../../problem.ts";
import { breathe } from "../bytes/breathe.ts";
import { Crc32 } from "../bytes/crc32.ts";
import type { ByteSource, ReadReport } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { inflated, isAtHand } from "./platform-inflate.ts";

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
  // The platform's stream runs ahead of what is asked for: a head alone is unpacked here.
  const unpacked = Number.isFinite(most)
    ? unpackedHere(packed, unpacking, mostUnpacked)
    : unpackedPieces(packed, unpacking);
  for await (const piece of unpacked) {
    pieces.push(piece);
    size += piece.length;
    if (size >= most) break;
  }
  return pieces;
}

/**
 * The unpacked bytes, from front to back: by the platform's stream, and where that gives up, from there on by our own code,
 * which tells damage from a second member and keeps what a cut archive still held.
 *
 * @param limit  bytes beyond which it is too much. @throws as `unpack`
 */
export async function* unpackedPieces(
  packed: Packed,
  unpacking: Unpacking,
  limit = mostUnpacked,
): AsyncGenerator<Uint8Array> {
  const { kind } = packed;
  let given = 0;
  if (kind !== "stored" && isAtHand(kind)) {
    const { report, remarks } = unpacking;
    const { source, from, to, crc } = packed;
    const watch = new Watch(source.name, limit);
    let taken = 0;
    try {
      const pieces = inflated({ source, from, to, kind }, (bytes) => {
        taken += bytes;
        report.progress(taken, source.size);
      });
      for await (const piece of pieces) {
        watch.take(piece, taken, crc !== null);
        given += piece.length;
        yield piece;
        await breathe(report.signal, source.name);
      }
      if (crc !== null && crc !== watch.crc && given > 0) remarks.say(wrongSum);
      return;
    } catch (error) {
      if (error instanceof ProblemError) throw error;
    }
  }
  yield* behind(unpackedHere(packed, unpacking, limit), given);
}

/** The pieces without their first `bytes`. */
async function* behind(pieces: AsyncGenerator<Uint8Array>, bytes: number): AsyncGenerator<Uint8Array> {
  let left = bytes;
  for await (const piece of pieces) {
    if (left < piece.length) yield left > 0 ? piece.subarray(left) : piece;
    left = Math.max(0, left - piece.length);
  }
}

/** Counts and checks what is unpacked. */
class Watch {
  readonly #name: string;
  readonly #limit: number;
  readonly #check = new Crc32();
  size = 0;

  constructor(name: string, limit: number) {
    this.#name = name;
    this.#limit = limit;
  }

  /** @param taken  packed bytes so far. @throws ProblemError "too-large" beyond the limit, or where no recording grows so. */
  take(piece: Uint8Array, taken: number, isSummed: boolean): void {
    this.size += piece.length;
    if (this.size > this.#limit || (this.size > bomb.from && this.size > bomb.growth * taken))
      throw tooLarge(this.#name, this.size, taken);
    if (isSummed) this.#check.take(piece);
  }

  get crc(): number {
    return this.#check.value;
  }
}

const wrongSum = "the archive's checksum does not fit its contents: numbers may be wrong";

/** The same by our own code alone. */
async function* unpackedHere(
  { source, from, to, kind, crc }: Packed,
  { report, remarks }: Unpacking,
  limit: number,
): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = [];
  const watch = new Watch(source.name, limit);
  let [taken, isDamaged] = [0, false];
  const keep = (piece: Uint8Array) => {
    watch.take(piece, taken, true);
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
      if (watch.size === 0) throw damagedArchive(source.name);
      isDamaged = true;
    }
    report.progress(Math.min(at + pieceBytes, to) - from, source.size);
    await breathe(report.signal, source.name);
    yield* ready;
    ready = [];
  }
  if (isDamaged) return remarks.say("the archive is damaged or cut off; what could be unpacked was read");
  const wanted = kind === "gzip" ? await gzipCrc(source, to, moreMembers) : crc;
  if (wanted !== null && wanted !== watch.crc && watch.size > 0) remarks.say(wrongSum);
}

/** CRC-32 in the trailer; null where there are several members, of which it covers the last. */
async function gzipCrc(source: ByteSource, to: number, moreMembers: number): Promise<number | null> {
  if (moreMembers > 0) return null;
  const tail = await source.read(Math.max(0, to - 8), to);
  return tail.length < 8 ? null : new DataView(tail.buffer, tail.byteOffset, 8).getUint32(0, true);
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
