// What lies in the browser's storage, read bare: no reader of the program has a say in it.

import { xxhash64 } from "hash-wasm";
import type { Page } from "playwright";

export interface StoredJob {
  readonly id: string;
  readonly name: string;
  readonly notes: string;
  readonly captures: readonly { readonly id: string; readonly size: number }[];
  readonly exhibits: readonly { readonly svg: string; readonly png: string }[];
}

export interface StoredFolder {
  readonly id: string;
  /** Names of all files in it. */
  readonly files: readonly string[];
  /** What its record says; null where there is none that can be read. */
  readonly record: {
    readonly arrays: string;
    readonly size: number;
    readonly sum: string;
    readonly fileSize: number;
  } | null;
  /** SHA-256 of the bytes of "original"; null where it is not there. */
  readonly named: string | null;
  readonly originalSize: number;
  readonly arraysSize: number;
  /** base64 of the file of arrays. */
  readonly arrays: string;
}

export interface Stored {
  readonly jobs: readonly StoredJob[];
  readonly pictures: readonly { readonly key: string; readonly size: number }[];
  readonly folders: readonly StoredFolder[];
}

/** @param page  any page of the same origin; where it sweeps meanwhile, storage is looked into once more. */
export async function lookInto(page: Page): Promise<Stored> {
  for (let tries = 0; ; tries++) {
    try {
      return await look(page);
    } catch (error) {
      if (tries > 5 || !/NotFoundError|could not be found/.test(String(error))) throw error;
    }
  }
}

function look(page: Page): Promise<Stored> {
  return page.evaluate(async () => {
    const all = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const entriesOf = async (name: string, store: string): Promise<[string, unknown][]> => {
      if (!(await indexedDB.databases()).some((one) => one.name === name)) return [];
      const database = await all(indexedDB.open(name));
      try {
        const objects = database.transaction(store).objectStore(store);
        const [keys, values] = await Promise.all([all(objects.getAllKeys()), all(objects.getAll())]);
        return keys.map((key, i) => [String(key), values[i]]);
      } finally {
        database.close();
      }
    };
    const hex = (bytes: ArrayBuffer) =>
      [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    const base64 = (bytes: Uint8Array) => {
      let text = "";
      for (let i = 0; i < bytes.length; i += 4096) text += String.fromCharCode(...bytes.subarray(i, i + 4096));
      return btoa(text);
    };
    const fileIn = async (folder: FileSystemDirectoryHandle, name: string) => {
      try {
        return await (await folder.getFileHandle(name)).getFile();
      } catch {
        return null;
      }
    };
    const root = await navigator.storage.getDirectory();
    const captures = await root.getDirectoryHandle("captures", { create: true });
    const folders = [];
    for await (const [id, entry] of (
      captures as unknown as { entries(): AsyncIterable<[string, FileSystemHandle]> }
    ).entries()) {
      const folder = entry as FileSystemDirectoryHandle;
      const files: string[] = [];
      for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys()) files.push(name);
      let record = null;
      try {
        record = JSON.parse((await (await fileIn(folder, "record.json"))?.text()) ?? "null");
      } catch {
        // what is not JSON is no record
      }
      const original = await fileIn(folder, "original");
      const arrays = record ? await fileIn(folder, record.arrays) : null;
      folders.push({
        id,
        files,
        record,
        named: original ? hex(await crypto.subtle.digest("SHA-256", await original.arrayBuffer())) : null,
        originalSize: original?.size ?? -1,
        arraysSize: arrays?.size ?? -1,
        arrays: arrays ? base64(new Uint8Array(await arrays.arrayBuffer())) : "",
      });
    }
    const jobs = (await entriesOf("tracewright-jobs", "jobs")).map(([, text]) => JSON.parse(String(text)));
    const pictures = (await entriesOf("tracewright-pictures", "pictures")).map(([key, blob]) => ({
      key,
      size: (blob as Blob).size,
    }));
    return { jobs: jobs.map((one) => one.job ?? one), pictures, folders };
  });
}

/** Whether the folder passes for a whole recording: it has a record of these columns, and a file of the size it tells. */
export const passesForWhole = ({ record, arraysSize }: StoredFolder): boolean =>
  record !== null && Math.ceil(arraysSize / 8) * 8 === record.size;

/** Whether it is one: its columns add up, and its bytes, where it has them, are those of its name. */
export async function isWhole({ id, record, arrays, named, originalSize }: StoredFolder): Promise<boolean> {
  if (record === null) return false;
  const isSummed = (await xxhash64(Buffer.from(arrays, "base64"))) === record.sum;
  return isSummed && (originalSize !== record.fileSize || named === id);
}

/** Everything that no job names and no program will ever read. */
export function orphansIn({ jobs, pictures, folders }: Stored): readonly string[] {
  const wanted = new Set(jobs.flatMap(({ captures }) => captures.map(({ id }) => id)));
  const named = new Set(
    jobs.flatMap(({ id, exhibits }) => exhibits.flatMap(({ svg, png }) => [`${id}/${svg}`, `${id}/${png}`])),
  );
  const known = (folder: StoredFolder, name: string) =>
    ["record.json", "original", folder.record?.arrays].includes(name) || /^answer-[0-9a-f]+$/.test(name);
  return [
    ...folders.filter(({ id }) => !wanted.has(id)).map(({ id }) => `folder ${id}`),
    ...folders.flatMap((folder) =>
      folder.files.filter((name) => !known(folder, name)).map((name) => `file ${folder.id}/${name}`),
    ),
    ...pictures.filter(({ key }) => !named.has(key)).map(({ key }) => `picture ${key}`),
  ];
}
