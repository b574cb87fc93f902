// Where in a zip a job lies: at its top, or in one folder, as when a person unpacked it and packed the folder again.

import type { Entries, ZipFault, ZipLimits } from "../../capture/archives/zip-entries.ts";

/** Bytes of the end of a zip in which the list of its entries is looked for. */
const listOfEntries = 256 << 10;
/** Fixed fields of a central file header: its mark, and the places of its flags and of the length of its name. */
const header = { mark: "PK\x01\x02", flags: 8, nameLength: 28, size: 46 } as const;
/** Bit 11 of the flags: the name is UTF-8. */
const isUtf8 = 0x0800;
const record = /^(?:[^/\\]+\/)?job\.json$/;

/**
 * Source: APPNOTE.TXT 4.3.12.
 *
 * @returns "" or "NAME/" for a zip archive with a job record in it, in whatever order it was packed; null for anything else.
 */
export async function bundleFolder(file: Blob): Promise<string | null> {
  const bytesOf = async (part: Blob) => new Uint8Array(await part.arrayBuffer());
  const latin = new TextDecoder("latin1");
  if (!latin.decode(await bytesOf(file.slice(0, 4))).startsWith("PK\x03\x04")) return null;
  const end = await bytesOf(file.slice(-listOfEntries));
  const text = latin.decode(end);
  const word = (at: number) => end[at]! + 256 * end[at + 1]!;
  const folders: string[] = [];
  for (let at = text.indexOf(header.mark); at >= 0; at = text.indexOf(header.mark, at + 1)) {
    const from = at + header.size;
    const bytes = end.subarray(from, from + word(at + header.nameLength));
    const name = word(at + header.flags) & isUtf8 ? new TextDecoder().decode(bytes) : latin.decode(bytes);
    if (record.test(name)) folders.push(name.slice(0, -"job.json".length));
  }
  return folders.sort((a, b) => a.length - b.length)[0] ?? null;
}

/** What may be unpacked of a job, in a folder. */
export const limitsIn = (folder: string, { named, ...rest }: ZipLimits): ZipLimits => ({
  ...rest,
  named: Object.fromEntries(Object.entries(named).map(([name, most]) => [folder + name, most])),
});

/** What was unpacked within `limitsIn`, by the names it has in a job. */
export function entriesIn(folder: string, entries: Entries | ZipFault): Entries | ZipFault {
  if (typeof entries === "string") return entries;
  return Object.fromEntries(Object.entries(entries).map(([name, blob]) => [name.slice(folder.length), blob]));
}
