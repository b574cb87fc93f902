// A job bundle from elsewhere: its record first, then what the record names, each part checked before it is kept.

import { unpackFile } from "../../../workers/client.ts";
import type { ZipLimits } from "../../capture/archives/zip-entries.ts";
import { type Bundle, partLimits, readParts, readRecord, recordLimits } from "../../job/bundle/bundle.ts";
import { entriesIn, limitsIn } from "../../job/bundle/bundle-folder.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import { type Outcome, type Problem, settle } from "../../problem.ts";
import { good } from "../core/at-hand.ts";
import type { Ground } from "../core/ground.ts";
import { readRecordBeside } from "../core/read-record.ts";
import type { Watched } from "../core/under-way.ts";

interface BundleFile {
  readonly file: Blob;
  readonly name: string;
  /** Within the zip, as of `bundleFolder`. */
  readonly folder: string;
}

/** @returns false where it was not opened; the desk is as it was then, and why is told. */
export async function openBundle(bundle: BundleFile, ground: Ground): Promise<boolean> {
  const { desk, notices, underWay } = ground;
  const read = await underWay.follow(`Unpacking ${bundle.name}`, (watched) => bundleIn(bundle, watched));
  if (!read.ok) {
    if (read.problem.code === "cancelled") notices.say(read.problem.what);
    else notices.show(read.problem);
    return false;
  }
  const { job, pictures, recordings } = read.value;
  if (!(await desk.take(job))) return false;
  await keepPictures(job.id, pictures, ground);
  await openRecordings(
    job.captures.filter(({ id }) => recordings.has(id)),
    recordings,
    ground,
  );
  return true;
}

/** @returns a Problem "cancelled", "too-large", "damaged", "newer-version", "unreadable" */
function bundleIn({ file, name, folder }: BundleFile, watched: Watched): Promise<Outcome<Bundle>> {
  const unpacked = async (limits: ZipLimits) =>
    entriesIn(folder, await unpackFile(file, limitsIn(folder, limits), watched));
  return settle(async () => {
    const job = good(await readRecord(await unpacked(recordLimits), name, readRecordBeside));
    const parts = good(readParts(job, await unpacked(partLimits(job)), name));
    return { job, ...parts };
  });
}

/** Those that are not here yet: exhibits are frozen, and no bundle replaces the picture of one. */
async function keepPictures(jobId: string, pictures: ReadonlyMap<string, Blob>, { desk, notices }: Ground) {
  const kept = await settle(async () => {
    for (const [name, blob] of pictures) {
      // Bytes of its own: one that is only a part of the file would go with the stick that the file is on.
      if (!(await desk.store.blob(jobId, name))) {
        await desk.store.keepBlob(jobId, name, new Blob([await blob.arrayBuffer()]));
      }
    }
  });
  if (!kept.ok) notices.show(kept.problem);
}

/** One after the other; what a file that was dropped meanwhile took the place of is opened after it, what a person cancelled not. */
async function openRecordings(
  records: readonly CaptureRecord[],
  files: ReadonlyMap<string, Blob>,
  ground: Ground,
): Promise<void> {
  const waiting = [...records];
  for (let one = waiting.shift(); one; one = waiting.shift()) {
    const cancels = ground.captures.cancels();
    const isDone = await openPart(one, files.get(one.id)!, ground);
    if (!isDone && ground.captures.cancels() === cancels) waiting.push(one);
  }
}

/** Kept under the name of its bytes: what is not what the record says is told, and let go of. False where it was given up. */
async function openPart(record: CaptureRecord, file: Blob, { captures, desk, service, notices }: Ground) {
  const outcome = await captures.open(file, record.fileName, record.choices);
  if (!outcome.ok) {
    if (outcome.problem.code === "cancelled") return false;
    notices.show(outcome.problem);
    return true;
  }
  if (outcome.value.id === record.id) void desk.keeping.follow(record.id, () => service.kept(record.id));
  else {
    await service.forget(outcome.value.id);
    notices.show(notAsRecorded(record.fileName));
  }
  return true;
}

const notAsRecorded = (where: string): Problem => ({
  code: "damaged",
  what: "A recording in this bundle is not the one that its job was made with.",
  where,
  remedy: "Open the original file; the job's marks on it are there.",
});
