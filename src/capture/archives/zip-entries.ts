// A zip of named entries, packed and unpacked as a stream: bytes go from blob to blob, never whole into memory. Large archives
// are zip64 (APPNOTE.TXT 4.3.9). The page asks a worker (workers/packing/packing.ts); bytes packed already are only stored.

import {
  BlobReader,
  BlobWriter,
  configure,
  type FileEntry,
  ZipReader,
  ZipWriter,
} from "@zip.js/zip.js/index-native.js";

// Its own workers come from blobs, which the page's content-security policy forbids.
configure({ useWebWorkers: false });

export type Entries = Readonly<Record<string, Blob>>;

/** What is told under way, and what gives it up. */
export interface Watched {
  readonly signal?: AbortSignal | undefined;
  /** Bytes of the entries. */
  readonly onProgress?: ((done: number, total: number) => void) | undefined;
}

/** Gzip, zip, PNG. */
const packed = [
  [0x1f, 0x8b],
  [0x50, 0x4b],
  [0x89, 0x50],
] as const;
const fast = 1;

/** @throws what reading a blob does, and the signal's reason. */
export async function packEntries(
  entries: Readonly<Record<string, Blob | Uint8Array>>,
  { signal, onProgress }: Watched = {},
): Promise<Blob> {
  const blobs = Object.entries(entries).map(([name, bytes]) => [name, blobOf(bytes)] as const);
  const total = sumOf(blobs.map(([, { size }]) => size));
  const writer = new ZipWriter(new BlobWriter("application/zip"));
  let before = 0;
  for (const [name, blob] of blobs) {
    const onprogress = async (done: number) => onProgress?.(before + done, total);
    const level = (await isPacked(blob)) ? 0 : fast;
    await writer.add(name, new BlobReader(blob), { level, onprogress, ...(signal && { signal }) });
    before += blob.size;
  }
  return writer.close();
}

const blobOf = (bytes: Blob | Uint8Array): Blob =>
  bytes instanceof Blob ? bytes : new Blob([bytes as Uint8Array<ArrayBuffer>]);

async function isPacked(blob: Blob): Promise<boolean> {
  const head = new Uint8Array(await blob.slice(0, 2).arrayBuffer());
  return packed.some(([a, b]) => head[0] === a && head[1] === b);
}

/** Why entries could not be unpacked; "unreadable": the file itself cannot be read any more. */
export type ZipFault = "damaged" | "too-large" | "unreadable";

/** How many bytes an entry may unpack to: one of these names, and any other; 0: it is left alone. */
export interface ZipLimits {
  readonly named: Readonly<Record<string, number>>;
  readonly others: number;
  /** Of all that is unpacked; without it there is no bound but those above. */
  readonly together?: number;
}

/**
 * No path in a name is ever followed; of what is wanted each name may stand once, and its checksum must hold.
 *
 * @returns the entries, or what stands against it. A size that the archive understates cannot swell: what does not fit is
 *          a fault.
 * @throws the signal's reason
 */
export async function unpackEntries(
  file: Blob,
  limits: ZipLimits,
  { signal, onProgress }: Watched = {},
): Promise<Entries | ZipFault> {
  const reader = new ZipReader(new BlobReader(file), { checkCrc32: true, filenameValidation: "tolerant" });
  try {
    const wanted = (await reader.getEntries()).filter((one): one is FileEntry => isWanted(one, limits));
    const fault = faultOf(wanted, limits);
    if (fault) return fault;
    const total = sumOf(wanted.map((one) => one.uncompressedSize));
    const entries: [string, Blob][] = [];
    let before = 0;
    for (const one of wanted) {
      const onprogress = async (done: number) =>
        onProgress?.(before + (done * one.uncompressedSize) / Math.max(1, one.compressedSize), total);
      entries.push([one.filename, await unpacked(one, { onprogress, ...(signal && { signal }) })]);
      before += one.uncompressedSize;
    }
    return Object.fromEntries(entries);
  } catch (error) {
    signal?.throwIfAborted();
    return error instanceof DOMException ? "unreadable" : "damaged";
  } finally {
    await reader.close().catch(() => {});
  }
}

const limitOf = (name: string, { named, others }: ZipLimits) => (Object.hasOwn(named, name) ? named[name]! : others);

const isWanted = (one: { readonly filename: string; readonly directory: boolean }, limits: ZipLimits) =>
  !one.directory && limitOf(one.filename, limits) > 0;

function faultOf(wanted: readonly FileEntry[], limits: ZipLimits): ZipFault | null {
  const sizes = wanted.map((one) => one.uncompressedSize);
  const isTooLarge = wanted.some((one) => one.uncompressedSize > limitOf(one.filename, limits));
  if (isTooLarge || sumOf(sizes) > (limits.together ?? Number.POSITIVE_INFINITY)) return "too-large";
  return new Set(wanted.map((one) => one.filename)).size < wanted.length ? "damaged" : null;
}

/** @throws RangeError where it holds more than it says. */
async function unpacked(entry: FileEntry, options: Parameters<FileEntry["getData"]>[1]): Promise<Blob> {
  let room = entry.uncompressedSize;
  const counting = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>({
    transform(bytes, controller) {
      room -= bytes.length;
      if (room < 0) throw new RangeError("more than it says");
      controller.enqueue(bytes);
    },
  });
  const blob = new Response(counting.readable).blob();
  blob.catch(() => {}); // the fault that is thrown below says more
  await entry.getData(counting.writable, options);
  return blob;
}

const sumOf = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0);
