// The saved form of a job: JSON with a version, read back one upgrade step at a time, never guessed.

import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import { type Job, jobVersion } from "./job.ts";
import { checkJob } from "./shape.ts";

/** upgrades[n] turns version n into n + 1. Version 1 is the first. */
const upgrades: Readonly<Record<number, (old: Record<string, unknown>) => Record<string, unknown>>> = {};

/** As it is written into the browser's storage and into bundles. */
export function jobText(job: Job): string {
  return JSON.stringify(job, null, 2);
}

/**
 * Reads a saved job of this version or an older one.
 *
 * @returns a Problem "newer-version" for a job a newer program wrote, "damaged" for anything else that is no job.
 */
export function readJob(text: string, where: string): Outcome<Job> {
  try {
    return { ok: true, value: checkJob(upgraded(parsed(text, where), where), where) };
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    throw error;
  }
}

function parsed(text: string, where: string): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === "object" && value !== null && !Array.isArray(value)) return value as Record<string, unknown>;
  } catch {
    // Said below.
  }
  throw new ProblemError(damaged(where));
}

function upgraded(saved: Record<string, unknown>, where: string): Record<string, unknown> {
  const { version } = saved;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) throw new ProblemError(damaged(where));
  if (version > jobVersion) throw new ProblemError(newer(where, version));
  let job = saved;
  for (let from = version; from < jobVersion; from++) job = { ...upgrades[from]!(job), version: from + 1 };
  return job;
}

const damaged = (where: string): Problem => ({
  code: "damaged",
  what: "This is not a saved job, or it was cut off.",
  where,
  remedy: "Take an earlier copy of the bundle; the recordings themselves can still be opened as they are.",
});

const newer = (where: string, version: number): Problem => ({
  code: "newer-version",
  what: `This job was saved by a newer Tracewright (format ${version}, this one knows ${jobVersion}).`,
  where,
  remedy: "Open it with the newer one. It was left as it is.",
});
