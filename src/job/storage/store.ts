// Jobs and their pictures in the browser's own storage. Jobs lie there as the text of the saved format.

import { createStore, del, delMany, get, keys, set, type UseStore, update, values } from "idb-keyval";
import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import { mergeJobs } from "../merge/merge-jobs.ts";
import { jobText, readJob } from "../record/format.ts";
import type { Job } from "../record/job.ts";
import { refused } from "./refused.ts";

/** A line in the list of jobs. */
export interface JobLine {
  readonly id: string;
  readonly name: string;
  readonly createdAt: string;
  readonly changedAt: string;
  /** Vehicle, codes, customer, complaint: what a search looks through. */
  readonly about: string;
  readonly captures: number;
  readonly exhibits: number;
}

export interface JobStore {
  /** Newest first. Jobs that cannot be read are left where they are and not listed. */
  list(): Promise<readonly JobLine[]>;
  load(id: string): Promise<Outcome<Job>>;
  /**
   * Keeps `job`, merged with what lies there: `base` is what lay there when it was last seen, null where it was not.
   *
   * @returns what now lies in storage.
   * @throws ProblemError "storage-full" or "storage-denied".
   */
  save(job: Job, base: Job | null): Promise<Job>;
  /** Deletes the job and its pictures. */
  remove(id: string): Promise<void>;
  /** The job on the bench when the page was last open. */
  last(): Promise<string | null>;
  setLast(id: string): Promise<void>;
  keepBlob(jobId: string, name: string, blob: Blob): Promise<void>;
  blob(jobId: string, name: string): Promise<Blob | null>;
}

/** @param name of the databases; tests use their own. */
export function makeJobStore(name = "tracewright"): JobStore {
  const jobs = createStore(`${name}-jobs`, "jobs");
  const blobs = createStore(`${name}-pictures`, "pictures");
  const marks = createStore(`${name}-marks`, "marks");
  return {
    list: async () => (await kept(() => values<string>(jobs))).flatMap(lineOf).sort(newestFirst),
    load: async (id) => {
      const text = await kept(() => get<string>(id, jobs));
      return text === undefined ? { ok: false, problem: gone } : readJob(text, "saved job");
    },
    save: (job, base) => kept(() => saveMerged(jobs, job, base)),
    remove: async (id) => {
      await kept(() => del(id, jobs));
      const names = await kept(() => keys<string>(blobs));
      await kept(() =>
        delMany(
          names.filter((key) => key.startsWith(`${id}/`)),
          blobs,
        ),
      ); // "id/name"
    },
    last: async () => (await kept(() => get<string>("last", marks))) ?? null,
    setLast: (id) => kept(() => set("last", id, marks)),
    keepBlob: (jobId, blobName, blob) => kept(() => set(`${jobId}/${blobName}`, blob, blobs)),
    blob: async (jobId, blobName) => (await kept(() => get<Blob>(`${jobId}/${blobName}`, blobs))) ?? null,
  };
}

/** Reading, merging and writing are one transaction: no other tab comes between. */
async function saveMerged(store: UseStore, job: Job, base: Job | null): Promise<Job> {
  let result = job;
  await update<string>(
    job.id,
    (text) => {
      const stored = text === undefined ? null : readJob(text, "saved job");
      if (stored && !stored.ok && stored.problem.code === "newer-version") throw new ProblemError(stored.problem);
      result = stored?.ok ? mergeJobs(base, job, stored.value) : job;
      return jobText(result);
    },
    store,
  );
  return result;
}

function lineOf(text: string): JobLine[] {
  const read = readJob(text, "saved job");
  if (!read.ok) return [];
  const { id, name, createdAt, changedAt, vehicle, intake, captures, exhibits } = read.value;
  const about = [...Object.values(vehicle), intake?.complaint, intake?.technician, intake?.date]
    .filter(Boolean)
    .join(" ");
  return [{ id, name, createdAt, changedAt, about, captures: captures.length, exhibits: exhibits.length }];
}

const newestFirst = (a: JobLine, b: JobLine) => b.changedAt.localeCompare(a.changedAt);

const gone: Problem = {
  code: "unreadable",
  what: "This job is no longer in the browser's storage.",
  remedy: "It may have been deleted in another tab; open a bundle of it if you kept one.",
};

/** The browser's refusals become Problems. */
async function kept<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    throw new ProblemError(refused(error));
  }
}
