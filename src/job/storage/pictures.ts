// Pictures in the browser's own storage, under the id of their job and a name: "id/name".

import { delMany, entries, get, keys, set, type UseStore } from "idb-keyval";

/** WebKit in a private window takes a Blob without a word and gives back nothing: there the bytes lie beside their type. */
interface Bytes {
  readonly type: string;
  readonly bytes: ArrayBuffer;
}
type Stored = Blob | Bytes | null | undefined;

export interface Pictures {
  keep(jobId: string, name: string, blob: Blob): Promise<void>;
  load(jobId: string, name: string): Promise<Blob | null>;
  remove(jobId: string, names: readonly string[]): Promise<void>;
  removeAll(jobId: string): Promise<void>;
  /** All of them: key, and size in bytes. */
  sizes(): Promise<readonly (readonly [key: string, size: number])[]>;
}

/** @throws what the browser does. */
export function makePictures(blobs: UseStore): Pictures {
  const key = (jobId: string, name: string) => `${jobId}/${name}`;
  return {
    async keep(jobId, name, blob) {
      const place = key(jobId, name);
      if (await isKeptAsBlob(place, blob, blobs)) return;
      await set(place, { type: blob.type, bytes: await blob.arrayBuffer() } satisfies Bytes, blobs);
    },
    load: async (jobId, name) => blobIn(await get<Stored>(key(jobId, name), blobs)),
    remove: (jobId, names) =>
      delMany(
        names.map((name) => key(jobId, name)),
        blobs,
      ),
    async removeAll(jobId) {
      const all = await keys<string>(blobs);
      await delMany(
        all.filter((one) => one.startsWith(key(jobId, ""))),
        blobs,
      );
    },
    sizes: async () => (await entries<string, Stored>(blobs)).map(([name, one]) => [name, sizeOf(one)]),
  };
}

async function isKeptAsBlob(place: string, blob: Blob, blobs: UseStore): Promise<boolean> {
  try {
    await set(place, blob, blobs);
  } catch (why) {
    if (why instanceof DOMException && why.name === "QuotaExceededError") throw why;
    return false; // what is refused for another reason is refused as bytes as well, and told
  }
  const back = await get<Stored>(place, blobs);
  return back instanceof Blob && back.size === blob.size;
}

function blobIn(stored: Stored): Blob | null {
  if (!stored || stored instanceof Blob) return stored ?? null;
  return new Blob([stored.bytes], { type: stored.type });
}

function sizeOf(stored: Stored): number {
  if (!stored) return 0;
  return stored instanceof Blob ? stored.size : stored.bytes.byteLength;
}
