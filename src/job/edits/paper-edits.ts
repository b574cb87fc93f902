// Changes to what stands in a job beside its recordings.

import type { FaultCode } from "../codes/code.ts";
import { type Evidence, type Moment, noEvidence } from "../evidence/evidence.ts";
import { emptyIntake, type Intake } from "../intake/intake.ts";
import type { CaptureRecord, FrozenSheet, Job, PhotoRecord, RepairRecord, SheetDraft } from "../record/job.ts";
import type { HandRow } from "../ruled-out/ruled-out.ts";

export const intakeOf = (job: Job): Intake => job.intake ?? emptyIntake;

export const evidenceOf = (job: Job, moment: Moment): Evidence => job.evidence?.[moment] ?? noEvidence;

export const noRepair: RepairRecord = { what: "", at: "", by: "" };

export const emptyDraft: SheetDraft = {
  words: "",
  choices: [],
  paper: "A4",
  ticks: { plate: false, vin: false, customer: false },
  workshop: "",
  approval: { chosen: "", by: "", at: "", amount: "", how: "" },
};

export const changeIntake = (job: Job, at: string, change: Partial<Intake>): Job => ({
  ...job,
  intake: { ...intakeOf(job), ...change },
  changedAt: at,
});

/** Codes before the repair are named in the job's head and on exhibits as well. */
export function changeEvidence(job: Job, at: string, moment: Moment, change: Partial<Evidence>): Job {
  const both = { before: evidenceOf(job, "before"), after: evidenceOf(job, "after") };
  const evidence = { ...both, [moment]: { ...both[moment], ...change } };
  const { codes } = evidence.before;
  const vehicle = moment === "before" && change.codes ? { ...job.vehicle, codes: namesOf(codes) } : job.vehicle;
  return { ...job, vehicle, evidence, changedAt: at } as Job;
}

const namesOf = (codes: readonly FaultCode[]): string => codes.map(({ code }) => code).join(", ");

export function changeHandRow(job: Job, at: string, row: HandRow): Job {
  const others = (job.ruledOut ?? []).filter(({ cause }) => cause !== row.cause);
  return { ...job, ruledOut: [...others, row], changedAt: at };
}

export const changeRepair = (job: Job, at: string, change: Partial<RepairRecord>): Job => ({
  ...job,
  repair: { ...noRepair, ...job.repair, ...change },
  changedAt: at,
});

export const changeDraft = (job: Job, at: string, change: Partial<SheetDraft>): Job => ({
  ...job,
  sheet: { ...emptyDraft, ...job.sheet, ...change },
  changedAt: at,
});

/** Gives the sheet away as it stands: revision 1, or the one after the last. */
export function keepSheet(job: Job, at: string, sheet: Omit<FrozenSheet, "revision">): Job {
  const sheets = job.sheets ?? [];
  const revision = 1 + sheets.reduce((most, one) => Math.max(most, one.revision), 0);
  return { ...job, sheets: [...sheets, { ...sheet, revision }], changedAt: at };
}

export function keepPhoto(job: Job, at: string, photo: PhotoRecord): Job {
  const others = (job.photos ?? []).filter(({ id }) => id !== photo.id);
  return { ...job, photos: [...others, photo], changedAt: at };
}

/** What a recording is said to be; null takes it back. At most one is "before" and one is "after". */
export function labelCapture(
  job: Job,
  at: string,
  captureId: string,
  { stage, running, recordedAt }: { readonly [K in "stage" | "running" | "recordedAt"]?: CaptureRecord[K] | null },
): Job {
  const captures = job.captures.map((one): CaptureRecord => {
    const isMine = one.id === captureId;
    if (!isMine && (stage === "before" || stage === "after") && one.stage === stage) return without(one, "stage");
    if (!isMine) return one;
    return labelled(labelled(labelled(one, "stage", stage), "running", running), "recordedAt", recordedAt);
  });
  return { ...job, captures, changedAt: at };
}

function labelled<K extends "stage" | "running" | "recordedAt">(
  one: CaptureRecord,
  key: K,
  value: CaptureRecord[K] | null | undefined,
): CaptureRecord {
  if (value === undefined) return one;
  return value === null || value === "" ? without(one, key) : { ...one, [key]: value };
}

function without(one: CaptureRecord, key: keyof CaptureRecord): CaptureRecord {
  const { [key]: _, ...rest } = one;
  return rest as CaptureRecord;
}
