// A new job, and changes to one. Every change stamps the job, so that two tabs can tell which is newer.

import type { LimitName } from "../../exhaust/terms/limits.ts";
import type { BenchState, CaptureRecord, ExhibitRecord, Job, Vehicle } from "../record/job.ts";
import { jobVersion } from "../record/job.ts";
import { removeCompanion } from "./companions.ts";

/** ISO 8601 with milliseconds. */
export type Now = () => string;

export const now: Now = () => new Date().toISOString();

/** The time of the next change of a job: never before the last one, though the clock was set back meanwhile. */
export function nextStamp({ changedAt }: Pick<Job, "changedAt">, at = now()): string {
  const last = Date.parse(changedAt);
  return at > changedAt || Number.isNaN(last) ? at : new Date(last + 1).toISOString();
}

/** Of a job that nobody named. */
export const unnamed = "New job";

export function newJob(id: string, at: string, name = unnamed): Job {
  return {
    version: jobVersion,
    id,
    name,
    notes: "",
    vehicle: { description: "", codes: "", odometer: "", plate: "", vin: "", customer: "" },
    createdAt: at,
    changedAt: at,
    captures: [],
    exhibits: [],
  };
}

/** True while nothing of the user's is in it: such a job need not be kept. */
export function isEmpty(job: Job): boolean {
  const texts = [job.notes, ...Object.values(job.vehicle)];
  const paper = [job.intake, job.evidence, job.ruledOut, job.repair, job.sheet, job.photos, job.limits, job.pipe];
  const holds =
    job.name !== unnamed ||
    job.captures.length > 0 ||
    job.exhibits.length > 0 ||
    paper.some((one) => one !== undefined);
  return !holds && texts.every((text) => text === "");
}

export function changeJob(job: Job, at: string, change: Partial<Pick<Job, "name" | "notes">>): Job {
  return { ...job, ...change, changedAt: at };
}

export function changeVehicle(job: Job, at: string, change: Partial<Vehicle>): Job {
  return { ...job, vehicle: { ...job.vehicle, ...change }, changedAt: at };
}

/** Changes a limit for this job; null: as delivered. */
export function changeLimit(job: Job, at: string, name: LimitName, value: number | null): Job {
  const { [name]: _, ...others } = job.limits ?? {};
  return { ...job, limits: value === null ? others : { ...others, [name]: value }, changedAt: at };
}

/** States the gas volume between the sensors; null: not known. */
export function changePipe(job: Job, at: string, litres: number | null): Job {
  const { pipe: _, ...others } = job;
  return litres === null ? { ...others, changedAt: at } : { ...others, pipe: { litres }, changedAt: at };
}

/** Notes which recording is looked at. Nothing of the job changed by that, so it is not stamped. */
export function lookAt(job: Job, captureId: string): Job {
  const isThere = job.captures.some(({ id }) => id === captureId);
  return isThere && job.lookedAt !== captureId ? { ...job, lookedAt: captureId } : job;
}

/** Adds a recording, or replaces the one of the same id. */
export function keepCapture(job: Job, at: string, capture: CaptureRecord): Job {
  const others = job.captures.filter((c) => c.id !== capture.id);
  return { ...job, captures: [...others, capture], changedAt: at };
}

/** Takes a recording out, from other benches as well; exhibits made from it stay, they are frozen. */
export function dropCapture(job: Job, at: string, captureId: string): Job {
  const others = job.captures.filter((c) => c.id !== captureId);
  const captures = others.map((c) => ({ ...c, bench: removeCompanion(c.bench, captureId) }));
  return { ...job, captures, changedAt: at };
}

export function keepBench(job: Job, at: string, captureId: string, bench: BenchState): Job {
  const captures = job.captures.map((c) => (c.id === captureId ? { ...c, bench } : c));
  return { ...job, captures, changedAt: at };
}

/** Says of a recording that it was computed. */
export function markSimulated(job: Job, at: string, captureId: string): Job {
  const captures = job.captures.map((c) => (c.id === captureId ? { ...c, isSimulated: true as const } : c));
  return { ...job, captures, changedAt: at };
}

export function keepExhibit(job: Job, at: string, exhibit: ExhibitRecord): Job {
  return { ...job, exhibits: [...job.exhibits.filter((e) => e.id !== exhibit.id), exhibit], changedAt: at };
}

/** One that was dropped, at the place where it stood. */
export function putBackExhibit(job: Job, at: string, exhibit: ExhibitRecord, place: number): Job {
  const others = job.exhibits.filter((e) => e.id !== exhibit.id);
  return { ...job, exhibits: [...others.slice(0, place), exhibit, ...others.slice(place)], changedAt: at };
}

export function dropExhibit(job: Job, at: string, exhibitId: string): Job {
  return { ...job, exhibits: job.exhibits.filter((e) => e.id !== exhibitId), changedAt: at };
}
