// Kept files as they are read: several readers at once, in one tab or in many.

import type { SyncHandle } from "./private-files.ts";

/** For reading; others may read at the same time. */
export async function readHandle(folder: FileSystemDirectoryHandle, name: string): Promise<SyncHandle> {
  const file = await folder.getFileHandle(name);
  if (canShareHandles()) return (file as unknown as ShareableFile).createSyncAccessHandle({ mode: "read-only" });
  return readingFile(await file.getFile());
}

interface ShareableFile {
  createSyncAccessHandle(options: { mode: "read-only" }): Promise<SyncHandle>;
}

/** Only Chromium has handles for several readers; in Firefox and WebKit a handle keeps all others from the file. */
const canShareHandles = (): boolean =>
  "mode" in
  (globalThis as unknown as { FileSystemSyncAccessHandle: { prototype: object } }).FileSystemSyncAccessHandle.prototype;

/** The page's type library does not have it: it is there in workers only (File API, section 6.5). */
declare const FileReaderSync: new () => { readAsArrayBuffer(blob: Blob): ArrayBuffer };

/** The same reading by the file's own bytes. */
function readingFile(file: File): SyncHandle {
  return {
    read(into, { at }) {
      const bytes = new Uint8Array(new FileReaderSync().readAsArrayBuffer(file.slice(at, at + into.length)));
      into.set(bytes);
      return bytes.length;
    },
    getSize: () => file.size,
    write: refuse,
    truncate: refuse,
    flush() {},
    close() {},
  };
}

function refuse(): never {
  throw new DOMException("open for reading only", "NoModificationAllowedError");
}
