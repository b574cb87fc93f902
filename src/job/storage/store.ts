// Jobs and their pictures in the browser's own storage. Jobs lie there as the text of the saved format.

import { createStore, del, entries, get, set, type UseStore, update } from "idb-keyval";
import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import { mergeJobs } from "../merge/merge-jobs.ts";
import { fitting, jobText, type ReadRecord, readJob } from "../record/format.ts";
import type { Job } from "../record/job.ts";
import { type Aside, makeAside } from "./aside.ts";
import { type Holdings, holdingsOf } from "./holdings.ts";
import { listened } from "./listened.ts";
import { makePictures } from "./pictures.ts";
import { refused } from "./refused.ts";

/** A line in the list of jobs. */
export interface JobLine {
  readonly id: string;
  readonly name: string;
  readonly createdAt: string;
  readonly changedAt: string;
  /** Vehicle, codes, customer, complaint: what a search looks through. */
  readonly about: string;
  /** The day that the intake names, ISO 8601; "" where it names none. */
  readonly date: string;
  readonly captures: number;
  readonly exhibits: number;
}

export interface JobStore {
  /** Newest first. Jobs that cannot be read are set aside; those of a newer program stay where they are, not listed. */
  list(): Promise<readonly JobLine[]>;
  /** Records that could not be read. */
  readonly aside: Pick<Aside, "list" | "remove">;
  load(id: string): Promise<Outcome<Job>>;
  /** Whether its record lies there. */
  has(id: string): Promise<boolean>;
  /** Hears when the browser closes storage under the page: it may have been emptied. */
  onClosed(hear: () => void): void;
  /**
   * Keeps `job`, merged with what lies there: `base` is what lay there when it was last seen, null where it was not.
   *
   * @returns what now lies in storage.
   * @throws ProblemError "storage-full" or "storage-denied"; "too-large" or "damaged" where it does not fit the schema.
   */
  save(job: Job, base: Job | null): Promise<Job>;
  /** Deletes the job and its pictures. */
  remove(id: string): Promise<void>;
  /** The job on the bench when the page was last open. */
  last(): Promise<string | null>;
  setLast(id: string): Promise<void>;
  keepBlob(jobId: string, name: string, blob: Blob): Promise<void>;
  blob(jobId: string, name: string): Promise<Blob | null>;
  removeBlobs(jobId: string, names: readonly string[]): Promise<void>;
  /** What the jobs hold of storage, and which recordings they name. */
  holdings(): Promise<Holdings>;
}

/**
 * @param name of the databases; tests use their own.
 * @param reads what reads a record that is loaded or listed: large ones are best read in another thread.
 */
export function makeJobStore(name = "tracewright", reads: ReadRecord = readJob): JobStore {
  let hear = () => {};
  const jobs = listened(createStore(`${name}-jobs`, "jobs"), () => hear());
  const marks = createStore(`${name}-marks`, "marks");
  const aside = makeAside(name, jobs);
  const pictures = makePictures(createStore(`${name}-pictures`, "pictures"));
  /** What this tab wrote last. */
  let known: Known | null = null;
  /** @returns the job; what cannot be read is set aside, and is told. */
  async function readOrSetAside(id: string, text: string): Promise<Outcome<Job>> {
    const read = await reads(String(text), `saved job ${id}`);
    if (read.ok || read.problem.code === "newer-version") return read;
    await aside.put(id, text, read.problem);
    return { ok: false, problem: { ...read.problem, remedy: setAside } };
  }
  async function save(job: Job, base: Job | null): Promise<Job> {
    checked(job);
    try {
      known = await saveMerged(jobs, job, base, known);
    } catch (error) {
      // What lies there cannot be read: it gives way.
      if (!(error instanceof Unreadable) || (await readOrSetAside(job.id, error.text)).ok) throw error;
      known = await saveMerged(jobs, job, base, null);
    }
    return known.job;
  }
  return {
    list: () =>
      kept(async () => {
        const all = await entries<string, string>(jobs);
        const read = await Promise.all(all.map(([id, text]) => readOrSetAside(id, text)));
        return read.flatMap((one) => (one.ok ? [lineOf(one.value)] : [])).sort(newestFirst);
      }),
    aside: { list: () => kept(aside.list), remove: (id) => kept(() => aside.remove(id)) },
    load: (id) =>
      kept(async () => {
        const text = await get<string>(id, jobs);
        return text === undefined ? { ok: false, problem: gone } : readOrSetAside(id, text);
      }),
    has: (id) => kept(async () => (await get(id, jobs)) !== undefined),
    onClosed(heard) {
      hear = heard;
    },
    save: (job, base) => kept(() => save(job, base)),
    remove: async (id) => {
      await kept(() => del(id, jobs));
      await kept(() => pictures.removeAll(id));
    },
    last: async () => (await kept(() => get<string>("last", marks))) ?? null,
    setLast: (id) => kept(() => set("last", id, marks)),
    keepBlob: (...given) => kept(() => pictures.keep(...given)),
    blob: (...given) => kept(() => pictures.load(...given)),
    removeBlobs: (...given) => kept(() => pictures.remove(...given)),
    holdings: () =>
      kept(async () => holdingsOf(await entries<string, string>(jobs), await pictures.sizes(), await aside.list())),
  };
}

/** A record as it lies in storage. */
interface Known {
  readonly job: Job;
  readonly text: string;
}

class Unreadable extends ProblemError {
  readonly text: string;

  constructor(problem: Problem, text: string) {
    super(problem);
    this.text = text;
  }
}

/**
 * Reading, merging and writing are one transaction: no other tab comes between.
 *
 * @param known  what lay there last: where it still does, nothing need be read.
 */
async function saveMerged(store: UseStore, job: Job, base: Job | null, known: Known | null): Promise<Known> {
  let result: Known | null = null;
  await update<string>(
    job.id,
    (text) => {
      const isAsKnown = text === undefined || (text === known?.text && base === known.job);
      const merged = isAsKnown ? job : checked(mergedWith(text, job, base));
      result = { job: merged, text: jobText(merged) };
      return result.text;
    },
    store,
  );
  return result!;
}

/** The very job: undo goes by identity. @throws ProblemError "too-large", "damaged" */
function checked(job: Job): Job {
  fitting(job, "this job");
  return job;
}

function mergedWith(text: string, job: Job, base: Job | null): Job {
  const stored = readJob(String(text), "saved job");
  if (!stored.ok) throw new Unreadable(stored.problem, String(text));
  return mergeJobs(base, job, stored.value);
}

/** What the list of jobs tells of one. */
export function lineOf({ id, name, createdAt, changedAt, vehicle, intake, captures, exhibits }: Job): JobLine {
  const about = [...Object.values(vehicle), intake?.complaint, intake?.technician].filter(Boolean).join(" · ");
  const [date, counts] = [intake?.date ?? "", { captures: captures.length, exhibits: exhibits.length }];
  return { id, name, createdAt, changedAt, about, date, ...counts };
}

const setAside = "It was set aside: under “Jobs” it can be saved as a file, or deleted.";

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
