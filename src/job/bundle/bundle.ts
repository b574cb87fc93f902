// A job as one zip: the record as JSON, readings as CSV, pictures as PNG and SVG, the recordings as they were opened.

import { strToU8 } from "fflate";
import type { Entries, ZipFault, ZipLimits } from "../../capture/archives/zip-entries.ts";
import { unreadable } from "../../capture/bytes/sources.ts";
import type { Outcome, Problem } from "../../problem.ts";
import { jobText, type ReadRecord, readJob } from "../record/format.ts";
import type { CaptureRecord, Job } from "../record/job.ts";
import { photoNames } from "../record/photo-names.ts";
import { heaviestRecord } from "../record/sizes.ts";
import { dimensionTable } from "./dimension-table.ts";

/** Named bytes beside the record. */
export interface BundleParts<B = Blob> {
  /** Name of the kept blob -> its bytes: exhibits as PNG and SVG, photos as they were taken and scaled. */
  readonly pictures: ReadonlyMap<string, B>;
  /** Capture id -> the file as it was opened. */
  readonly recordings: ReadonlyMap<string, B>;
}

export interface Bundle<B = Blob> extends BundleParts<B> {
  readonly job: Job;
}

/** What the parts of a bundle may weigh together, unpacked: what is packed here can be opened here. Bytes. */
export const heaviestBundle = 2 ** 34;
const heaviestPicture = 64e6;

/** For a first look: the record, and nothing else of the archive, whatever it holds. */
export const recordLimits: ZipLimits = { named: { "job.json": heaviestRecord }, others: 0 };

/** For the second: what the record names, as large as it says. Anything else is left alone. */
export function partLimits(job: Job): ZipLimits {
  const pictures = pictureNames(job).map((name) => [`exhibits/${name}`, heaviestPicture] as const);
  const recordings = job.captures.map((one) => [recordingEntry(one), one.size] as const);
  return { named: Object.fromEntries([...pictures, ...recordings]), others: 0, together: heaviestBundle };
}

/** Of exhibits and photos. */
export function pictureNames({ exhibits, photos = [] }: Job): readonly string[] {
  const ofPhotos = photos.map(({ id }) => photoNames(id));
  return [...exhibits.flatMap(({ svg, png }) => [svg, png]), ...ofPhotos.flatMap((one) => [one.original, one.scaled])];
}

const recordingEntry = ({ id, fileName }: Pick<CaptureRecord, "id" | "fileName">) =>
  `recordings/${id}/${baseName(fileName)}`;

/**
 * job.json, dimensions.csv, exhibits/NAME, recordings/SHA256/FILE-NAME; laid down in the README.
 */
export function bundleEntries<B extends Uint8Array | Blob>({
  job,
  pictures,
  recordings,
}: Bundle<B>): Readonly<Record<string, Uint8Array | B>> {
  const entries: Record<string, Uint8Array | B> = {
    "job.json": strToU8(jobText(job)),
    "dimensions.csv": strToU8(dimensionTable(job)),
  };
  for (const [name, bytes] of pictures) entries[`exhibits/${name}`] = bytes;
  for (const capture of job.captures) {
    const bytes = recordings.get(capture.id);
    if (bytes) entries[recordingEntry(capture)] = bytes;
  }
  return entries;
}

/** Reads the record out of what was unpacked within `recordLimits`. @returns a Problem "too-large", "damaged", "newer-version", "unreadable" */
export async function readRecord(
  entries: Entries | ZipFault,
  name: string,
  read: ReadRecord = readJob,
): Promise<Outcome<Job>> {
  if (typeof entries === "string") return { ok: false, problem: problemOf(entries, name) };
  const record = entries["job.json"];
  return record ? read(await record.text(), `${name}, job.json`) : { ok: false, problem: notABundle(name) };
}

/** What the record names, out of what was unpacked within `partLimits`. @returns a Problem "too-large", "damaged", "unreadable" */
export function readParts(job: Job, entries: Entries | ZipFault, name: string): Outcome<BundleParts> {
  if (typeof entries === "string") return { ok: false, problem: problemOf(entries, name) };
  const pictures = pictureNames(job).flatMap((one) => {
    const bytes = entries[`exhibits/${one}`];
    return bytes ? [[one, bytes] as const] : [];
  });
  const recordings = job.captures.flatMap((one) => {
    const bytes = entries[recordingEntry(one)];
    return bytes ? [[one.id, bytes] as const] : [];
  });
  return { ok: true, value: { pictures: new Map(pictures), recordings: new Map(recordings) } };
}

/** No folders in a recording's name: it becomes an entry of the archive. */
const baseName = (fileName: string) => fileName.replace(/^.*[/\\]/, "") || "recording";

const problemOf = (fault: ZipFault, name: string): Problem =>
  ({ damaged: notABundle, "too-large": tooLarge, unreadable: (where: string) => unreadable(where).problem })[fault](
    name,
  );

const notABundle = (name: string): Problem => ({
  code: "damaged",
  what: "This is not a job bundle, or it was cut off.",
  where: name,
  remedy: "Choose a zip made with “Save job bundle”, or open the recording itself.",
});

const tooLarge = (name: string): Problem => ({
  code: "too-large",
  what: "This job bundle is too large: what it holds takes more room unpacked than its record says, or than 16 GB in all, or than the browser has.",
  where: name,
  remedy: "Unpack it with another program, and open the recordings in it one by one.",
});
