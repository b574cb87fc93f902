// Packs or unpacks one zip and ends.

import { type Entries, packEntries, unpackEntries, type ZipFault } from "../../src/capture/archives/zip-entries.ts";
import type { ToPack, ToUnpack } from "./packing.ts";

self.onmessage = async ({ data }: MessageEvent<ToPack | ToUnpack>) => {
  try {
    if ("files" in data) self.postMessage(await pack(data.files));
    else send(unpackEntries(await bytesOf(data.file), data.limits));
  } catch {
    self.postMessage(null); // no memory for it, or a file that is gone: the asker tells it
  }
};

function send(unpacked: Entries | ZipFault): void {
  const buffers = typeof unpacked === "string" ? [] : Object.values(unpacked).map(({ buffer }) => buffer);
  self.postMessage(unpacked, { transfer: [...new Set(buffers as ArrayBuffer[])] });
}

async function pack(files: ToPack["files"]): Promise<Blob> {
  const entries: Record<string, Uint8Array> = {};
  for (const [name, file] of Object.entries(files)) {
    entries[name] = file instanceof Blob ? await bytesOf(file) : file;
  }
  return new Blob([packEntries(entries)], { type: "application/zip" });
}

const bytesOf = async (file: Blob) => new Uint8Array(await file.arrayBuffer());
