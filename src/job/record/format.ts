// The saved form of a job: JSON with a version, read back one upgrade step at a time, never guessed.

import * as v from "valibot";
import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import { codesInText } from "../codes/code-text.ts";
import { noEvidence } from "../evidence/evidence.ts";
import { type Job, jobVersion } from "./job.ts";
import { jobSchema } from "./schema.ts";
import { heaviestRecord } from "./sizes.ts";

type Saved = Readonly<Record<string, unknown>>;

/** upgrades[n] turns version n into n + 1; what it makes is checked afterwards. */
const upgrades: Readonly<Record<number, (old: Saved) => Saved>> = {
  1: markSimulated,
  2: codesAsObjects,
  3: (old) => old, // since then instants and spans may have names
};

/** As it is written into the browser's storage and into bundles. */
export function jobText(job: Job): string {
  return JSON.stringify(job, null, 2);
}

/** What reads a saved job: `readJob`, or the same in another thread. */
export type ReadRecord = (text: string, where: string) => Outcome<Job> | Promise<Outcome<Job>>;

/**
 * Reads a saved job of this version or an older one. Fields that the schema does not know are left out.
 *
 * @returns a Problem "newer-version" for a job a newer program wrote, "too-large" where it holds more than fits, "damaged"
 *          for anything else that is no job; it names the first place that does not fit.
 */
export function readJob(text: string, where: string): Outcome<Job> {
  try {
    if (text.length > heaviestRecord) throw new ProblemError(tooMuch(where, "its record is too long"));
    return { ok: true, value: fitting(upgraded(parsed(text, where), where), where) };
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    throw error;
  }
}

/**
 * The job as it may be written: nothing goes into storage that could not be read from it.
 *
 * @throws ProblemError "too-large" or "damaged" that names the first place that does not fit.
 */
export function fitting(value: unknown, where: string): Job {
  const read = v.safeParse(jobSchema, value, { abortEarly: true });
  if (read.success) return read.output as Job;
  throw new ProblemError(misfit(read.issues[0], where));
}

function parsed(text: string, where: string): Saved {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === "object" && value !== null && !Array.isArray(value)) return value as Saved;
  } catch {
    // Said below.
  }
  throw new ProblemError(damaged(where));
}

function upgraded(saved: Saved, where: string): Saved {
  const { version } = saved;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) throw new ProblemError(damaged(where));
  if (version > jobVersion) throw new ProblemError(newer(where, version));
  let job = saved;
  for (let from = version; from < jobVersion; from++) job = { ...upgrades[from]!(job), version: from + 1 };
  return job;
}

/** Before version 2, only the notes told that recordings were computed. */
function markSimulated(old: Saved): Saved {
  const { notes, captures } = old;
  if (typeof notes !== "string" || !/simulated/i.test(notes) || !Array.isArray(captures)) return old;
  return { ...old, captures: captures.map((one: Saved) => ({ ...one, isSimulated: true })) };
}

/** Before version 3, codes were text alone. */
function codesAsObjects(old: Saved): Saved {
  const text = (old.vehicle as Saved | undefined)?.codes;
  const codes = typeof text === "string" ? codesInText(text) : [];
  return codes.length > 0 ? { ...old, evidence: { before: { ...noEvidence, codes }, after: noEvidence } } : old;
}

function misfit(issue: v.BaseIssue<unknown>, where: string): Problem {
  const path = (issue.path ?? []).map(({ key }) => (typeof key === "number" ? `[${key}]` : `.${String(key)}`)).join("");
  const place = `${where}, job${path.slice(0, 200)}`;
  const isTooMuch = issue.type === "max_length" || issue.type === "max_entries";
  if (isTooMuch) return tooMuch(place, `${issue.received} where ${String(issue.requirement)} fit`);
  return { ...damaged(place), what: "This saved job is damaged." };
}

const damaged = (where: string): Problem => ({
  code: "damaged",
  what: "This is not a saved job, or it was cut off.",
  where,
  remedy: "Take an earlier copy of the bundle; the recordings themselves can still be opened as they are.",
});

const tooMuch = (where: string, what: string): Problem => ({
  code: "too-large",
  what: `This job holds more than a job may: ${what}.`,
  where,
  remedy: "Take out what is named there, or divide the work between two jobs.",
});

const newer = (where: string, version: number): Problem => ({
  code: "newer-version",
  what: `This job was saved by a newer Tracewright (format ${version}, this one knows ${jobVersion}).`,
  where,
  remedy: "Open it with the newer one. It was left as it is.",
});
