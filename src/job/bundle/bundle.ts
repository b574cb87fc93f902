// A job as one zip: the record as JSON, readings as CSV, pictures as PNG and SVG, the recordings as they were opened.

import { strFromU8, strToU8 } from "fflate";
import type { Entries, ZipFault, ZipLimits } from "../../capture/archives/zip-entries.ts";
import { type Outcome, ProblemError } from "../../problem.ts";
import { jobText, readJob } from "../record/format.ts";
import type { Job } from "../record/job.ts";
import { dimensionTable } from "./dimension-table.ts";

/** Named bytes beside the record. */
export interface BundleParts<B = Uint8Array> {
  /** Name of the kept blob -> its bytes: exhibits as PNG and SVG. */
  readonly pictures: ReadonlyMap<string, B>;
  /** Capture id -> the file as it was opened. */
  readonly recordings: ReadonlyMap<string, B>;
}

export interface Bundle<B = Uint8Array> extends BundleParts<B> {
  readonly job: Job;
}

/** What an unpacked bundle may weigh, bytes: protects the page from archives that swell without end. */
const heaviest = 2 ** 30;
export const bundleLimits: ZipLimits = { named: {}, others: heaviest };

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
  for (const { id, fileName } of job.captures) {
    const bytes = recordings.get(id);
    if (bytes) entries[`recordings/${id}/${baseName(fileName)}`] = bytes;
  }
  return entries;
}

/** Reads what was unpacked within `bundleLimits`; parts that the record does not name are left out. */
export function readBundle(entries: Entries | ZipFault, name: string): Outcome<Bundle> {
  try {
    if (typeof entries === "string") throw notABundle(name);
    const record = entries["job.json"];
    if (!record) throw notABundle(name);
    const read = readJob(strFromU8(record), `${name}, job.json`);
    return read.ok ? { ok: true, value: { job: read.value, ...partsOf(read.value, entries) } } : read;
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    throw error;
  }
}

/** True when the first bytes are a zip archive that opens with a job record. */
export function looksLikeBundle(head: Uint8Array): boolean {
  const nameAt = 30; // local file header, APPNOTE.TXT 4.3.7
  return head[0] === 0x50 && head[1] === 0x4b && strFromU8(head.subarray(nameAt, nameAt + 8)) === "job.json";
}

function partsOf(job: Job, entries: Readonly<Record<string, Uint8Array>>): BundleParts {
  const pictures = new Map<string, Uint8Array>();
  for (const exhibit of job.exhibits) {
    for (const name of [exhibit.svg, exhibit.png]) {
      const bytes = entries[`exhibits/${name}`];
      if (bytes) pictures.set(name, bytes);
    }
  }
  const recordings = new Map<string, Uint8Array>();
  for (const { id, fileName } of job.captures) {
    const bytes = entries[`recordings/${id}/${baseName(fileName)}`];
    if (bytes) recordings.set(id, bytes);
  }
  return { pictures, recordings };
}

/** No folders in a recording's name: it becomes an entry of the archive. */
const baseName = (fileName: string) => fileName.replace(/^.*[/\\]/, "") || "recording";

const notABundle = (name: string) =>
  new ProblemError({
    code: "damaged",
    what: "This is not a job bundle, or it was cut off.",
    where: name,
    remedy: "Choose a zip made with “Save job bundle”, or open the recording itself.",
  });
