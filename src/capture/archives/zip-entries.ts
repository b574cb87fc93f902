// A zip of named entries, packed and unpacked on the thread that asks: the page asks a worker (workers/packing/packing.ts), for the
// library's own come from blobs, which the page's content-security policy forbids. Bytes packed already are only stored.

import { unzipSync, type Zippable, zipSync } from "fflate";

export type Entries = Readonly<Record<string, Uint8Array>>;

/** Gzip, zip, PNG. */
const packed = [
  [0x1f, 0x8b],
  [0x50, 0x4b],
  [0x89, 0x50],
] as const;
const fast = 1;

export function packEntries(entries: Entries): Uint8Array<ArrayBuffer> {
  const isPacked = (bytes: Uint8Array) => packed.some(([a, b]) => bytes[0] === a && bytes[1] === b);
  const zippable: Zippable = Object.fromEntries(
    Object.entries(entries).map(([name, bytes]) => [name, [bytes, { level: isPacked(bytes) ? 0 : fast }] as const]),
  );
  return zipSync(zippable);
}

/** Why entries could not be unpacked. */
export type ZipFault = "damaged" | "too-large";

/** How many bytes an entry may unpack to: one of these names, and any other; 0: it is left alone. */
export interface ZipLimits {
  readonly named: Readonly<Record<string, number>>;
  readonly others: number;
  /** Of all that is unpacked; without it there is no bound but those above. */
  readonly together?: number;
}

/**
 * No path in a name is ever followed.
 *
 * @returns the entries, or what stands against it. A size that the archive understates cannot swell: the space is taken
 *          beforehand, and what does not fit is a fault.
 */
export function unpackEntries(bytes: Uint8Array, { named, others, together }: ZipLimits): Entries | ZipFault {
  let tooLarge = false;
  let room = together ?? Number.POSITIVE_INFINITY;
  const filter = ({ name, originalSize }: { name: string; originalSize: number }) => {
    const limit = Object.hasOwn(named, name) ? named[name]! : others;
    if (limit > 0) room -= originalSize;
    tooLarge ||= limit > 0 && (originalSize > limit || room < 0);
    return limit > 0 && !tooLarge;
  };
  try {
    const entries = unzipSync(bytes, { filter });
    return tooLarge ? "too-large" : entries;
  } catch {
    return tooLarge ? "too-large" : "damaged";
  }
}
