// Whether the repair is proved: a stated repair, the same test before and after under like conditions with a clear gain, the
// car's own test finished, nothing pending. Each missing part is named.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import { evidenceOf, noRepair } from "../edits/paper-edits.ts";
import { monitorFinished } from "../evidence/checklist.ts";
import type { Evidence } from "../evidence/evidence.ts";
import type { CaptureRecord, Job } from "../record/job.ts";

/** What was done, when and by whom; "" where it is not said. */
export interface RepairDone {
  readonly what: string;
  readonly at: string;
  readonly by: string;
}

export interface ProofPart {
  readonly id: "repair" | "chosen" | "fair" | "gain" | "monitor" | "pending";
  readonly name: string;
  readonly ok: boolean;
  /** What is there, or what is missing. */
  readonly says: string;
}

export interface Proof {
  readonly told: "proved" | "not-proved";
  readonly parts: readonly ProofPart[];
}

export interface ProofFacts {
  readonly repair: RepairDone;
  /** The job's recordings, as a person called and dated them. */
  readonly captures: readonly Pick<CaptureRecord, "fileName" | "stage" | "recordedAt">[];
  /** The recordings that a person called "before" and "after", compared; null where not both were chosen. */
  readonly comparison: Comparison | null;
  /** It will be there in a while. */
  readonly isComparing?: boolean;
  /** Read before codes were cleared, and after the repair. */
  readonly before: Evidence;
  readonly after: Evidence;
}

/** Pure. "Proved" only where every part holds. */
export function proofOf(facts: ProofFacts): Proof {
  const parts = [repaired(facts), chosen(facts), fair(facts), gained(facts), finished(facts), nothingPending(facts)];
  return { told: parts.every(({ ok }) => ok) ? "proved" : "not-proved", parts };
}

/** From all that stands in the job. */
export const proofOfJob = (job: Job, comparison: Comparison | null, isComparing = false): Proof =>
  proofOf({
    isComparing,
    repair: job.repair ?? noRepair,
    captures: job.captures,
    comparison,
    before: evidenceOf(job, "before"),
    after: evidenceOf(job, "after"),
  });

/** One sentence: proved, or what is missing by name. */
export function proofInWords({ told, parts }: Proof): string {
  if (told === "proved") return "The repair is proved.";
  const missing = parts.filter(({ ok }) => !ok).map(({ name }) => name.charAt(0).toLowerCase() + name.slice(1));
  return `The repair is not proved yet. Missing: ${missing.join(", ")}.`;
}

function repaired({ repair: { what, at } }: ProofFacts): ProofPart {
  const about = { id: "repair", name: "Repair stated" } as const;
  if (what.trim() === "") return { ...about, ok: false, says: "Nobody has said what was repaired." };
  if (at === "") return { ...about, ok: false, says: `“${what.trim()}”, but not when.` };
  return { ...about, ok: true, says: what.trim() };
}

const notCompared = "Both are chosen, but not compared with each other yet.";
const beingCompared = "Both are chosen; their comparison is being worked out …";
const waiting = "Being worked out …";

function chosen({ comparison, captures, repair, isComparing }: ProofFacts): ProofPart {
  const about = { id: "chosen", name: "Before and after chosen" } as const;
  const missing = (["before", "after"] as const).filter((stage) => !captures.some((one) => one.stage === stage));
  if (missing.length > 0) {
    return { ...about, ok: false, says: `Say which recording is from ${missing.join(" and which from ")} the repair.` };
  }
  if (!comparison) return { ...about, ok: false, says: isComparing ? beingCompared : notCompared };
  const unlikely = outOfOrder(comparison, captures, repair.at);
  const says = `Before: ${comparison.reference}. After: ${comparison.suspect}.`;
  return { ...about, ok: unlikely === null, says: unlikely === null ? says : `${says} ${unlikely}` };
}

/** A recording dated on the wrong side of the repair; null where the dates agree or are not told. */
function outOfOrder(
  { reference, suspect }: Comparison,
  captures: ProofFacts["captures"],
  repaired: string,
): string | null {
  if (repaired === "") return null;
  const dayOf = (stage: CaptureRecord["stage"], name: string) =>
    captures.find((one) => one.stage === stage && one.fileName === name)?.recordedAt?.slice(0, 10) ?? "";
  if (dayOf("before", reference) > repaired) return "But the one before is dated after the repair.";
  const after = dayOf("after", suspect);
  return after !== "" && after < repaired ? "But the one after is dated before the repair." : null;
}

function fair({ comparison, isComparing }: ProofFacts): ProofPart {
  const about = { id: "fair", name: "Like conditions" } as const;
  if (!comparison) return { ...about, ok: false, says: isComparing ? waiting : "Nothing to compare yet." };
  const { reason, says } = comparison.repair;
  if (reason === "unlike" || reason === "no-common-test") return { ...about, ok: false, says };
  const isKnown = comparison.fair.some(({ concern }) => concern === "lift-off");
  return isKnown
    ? { ...about, ok: true, says: "The same test under like conditions." }
    : {
        ...about,
        ok: false,
        says: "Neither air flow nor engine speed is in both: nothing tells that they were alike.",
      };
}

function gained({ comparison, isComparing }: ProofFacts): ProofPart {
  const about = { id: "gain", name: "Clearly more store than before" } as const;
  if (!comparison) return { ...about, ok: false, says: isComparing ? waiting : "Nothing to compare yet." };
  return { ...about, ok: comparison.repair.told === "proved", says: comparison.repair.says };
}

const oldResult =
  "Codes were not cleared since, so it may be finished from before the repair. Read item $41, of this drive alone.";

/** "Finished" tells of the time since codes were cleared, or of this drive: the first only where they were cleared. */
function finished({ before, after }: ProofFacts): ProofPart {
  const about = { id: "monitor", name: "The car's own catalyst test finished" } as const;
  const told = monitorFinished(after);
  if (told === null) return { ...about, ok: false, says: "Readiness was not read after the repair." };
  if (!told) return { ...about, ok: false, says: "Not finished yet: drive on, then read it again." };
  if (after.readinessOf !== "this-drive" && isUncleared(before, after)) return { ...about, ok: false, says: oldResult };
  return { ...about, ok: true, says: "Read as finished after the repair." };
}

/** The distance since codes were cleared went on from where it was. */
function isUncleared({ status: before }: Evidence, { status: after }: Evidence): boolean {
  const [was, is] = [before.distanceSinceClear, after.distanceSinceClear];
  return was !== undefined && is !== undefined && is >= was;
}

function nothingPending({ after }: ProofFacts): ProofPart {
  const about = { id: "pending", name: "Nothing pending" } as const;
  const again = (["pending", "stored"] as const).flatMap((state) => {
    const codes = after.codes.filter(({ code, states }) => code.startsWith("P") && states.includes(state));
    return codes.length > 0 ? [`${capital(state)}: ${codes.map(({ code }) => code).join(", ")}.`] : [];
  });
  if (again.length > 0) return { ...about, ok: false, says: again.join(" ") };
  return after.answered.includes("pending")
    ? { ...about, ok: true, says: "The list of pending codes is empty." }
    : { ...about, ok: false, says: "Pending codes were not read after the repair." };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
