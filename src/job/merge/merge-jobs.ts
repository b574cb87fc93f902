// Two tabs with the same job, or a browser and a bundle: neither may destroy what was done in the other.

import type { LimitOverrides } from "../../exhaust/terms/limits.ts";
import type {
  CaptureRecord,
  EvidenceRecord,
  ExhibitRecord,
  FrozenSheet,
  HandRowRecord,
  IntakeRecord,
  Job,
  PhotoRecord,
  RepairRecord,
  SheetDraft,
  Vehicle,
} from "../record/job.ts";
import { mergeBenches } from "./merge-benches.ts";
import { fields, list, type Origin, whole } from "./three-way.ts";

/**
 * What both sides changed since `base`, together; see the README beside this file for the rule.
 *
 * @param base  what both were; null where that is not known: then everything of either side stays.
 */
export function mergeJobs(base: Job | null, mine: Job, theirs: Job): Job {
  const mineWins = mine.changedAt >= theirs.changedAt;
  const merged = mergeFields({ base: base ?? undefined, mineWins }, mine, theirs);
  return { ...merged, changedAt: mineWins ? mine.changedAt : theirs.changedAt };
}

/** Notes that were written apart, with nothing common known, are both kept. */
function mergeNotes({ base, mineWins }: Origin<string>, mine: string, theirs: string): string {
  if (base !== undefined) return whole({ base, mineWins }, mine, theirs);
  const [first, second] = mineWins ? [mine, theirs] : [theirs, mine];
  if (first.includes(second)) return first;
  return second.includes(first) ? second : `${first}\n\n${second}`;
}

const mergeEvidence = fields<EvidenceRecord>({
  codes: list<EvidenceRecord["codes"][number]>(({ code }) => code),
  status: fields<EvidenceRecord["status"]>({}),
});

const mergeFields = fields<Job>({
  notes: mergeNotes,
  vehicle: fields<Vehicle>({}),
  captures: list<CaptureRecord>(({ id }) => id, fields<CaptureRecord>({ bench: mergeBenches })),
  exhibits: list<ExhibitRecord>(({ id }) => id),
  limits: fields<LimitOverrides>({}),
  intake: fields<IntakeRecord>({}),
  evidence: fields<NonNullable<Job["evidence"]>>({ before: mergeEvidence, after: mergeEvidence }),
  ruledOut: list<HandRowRecord>(({ cause }) => cause, fields<HandRowRecord>({})),
  photos: list<PhotoRecord>(({ id }) => id),
  repair: fields<RepairRecord>({}),
  sheet: fields<SheetDraft>({}),
  sheets: list<FrozenSheet>(({ id }) => id),
});
