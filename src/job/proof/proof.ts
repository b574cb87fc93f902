// Whether the repair is proved: a stated repair, the same test before and after under like conditions with a clear gain, the
// car's own test finished, nothing pending. Each missing part is named.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import { monitorFinished } from "../evidence/checklist.ts";
import type { Evidence } from "../evidence/evidence.ts";

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
  /** The recordings that a person called "before" and "after", compared; null where not both were chosen. */
  readonly comparison: Comparison | null;
  /** Read after the repair. */
  readonly after: Evidence;
}

/** Pure. "Proved" only where every part holds. */
export function proofOf(facts: ProofFacts): Proof {
  const parts = [repaired(facts), chosen(facts), fair(facts), gained(facts), finished(facts), nothingPending(facts)];
  return { told: parts.every(({ ok }) => ok) ? "proved" : "not-proved", parts };
}

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

function chosen({ comparison }: ProofFacts): ProofPart {
  const about = { id: "chosen", name: "Before and after chosen" } as const;
  return comparison
    ? { ...about, ok: true, says: `Before: ${comparison.reference}. After: ${comparison.suspect}.` }
    : { ...about, ok: false, says: "Say which recording is from before the repair and which from after it." };
}

function fair({ comparison }: ProofFacts): ProofPart {
  const about = { id: "fair", name: "Like conditions" } as const;
  if (!comparison) return { ...about, ok: false, says: "Nothing to compare yet." };
  const { reason, says } = comparison.repair;
  const isUnfair = reason === "unlike" || reason === "no-common-test";
  return { ...about, ok: !isUnfair, says: isUnfair ? says : "The same test under like conditions." };
}

function gained({ comparison }: ProofFacts): ProofPart {
  const about = { id: "gain", name: "Clearly more store than before" } as const;
  if (!comparison) return { ...about, ok: false, says: "Nothing to compare yet." };
  return { ...about, ok: comparison.repair.told === "proved", says: comparison.repair.says };
}

function finished({ after }: ProofFacts): ProofPart {
  const about = { id: "monitor", name: "The car's own catalyst test finished" } as const;
  const told = monitorFinished(after);
  if (told === null) return { ...about, ok: false, says: "Readiness was not read after the repair." };
  return told
    ? { ...about, ok: true, says: "Finished since the repair." }
    : { ...about, ok: false, says: "Not finished yet: drive on, then read it again." };
}

function nothingPending({ after }: ProofFacts): ProofPart {
  const about = { id: "pending", name: "Nothing pending" } as const;
  const pending = after.codes.filter(({ states }) => states.includes("pending"));
  if (pending.length > 0)
    return { ...about, ok: false, says: `Pending: ${pending.map(({ code }) => code).join(", ")}.` };
  return after.answered.includes("pending")
    ? { ...about, ok: true, says: "The list of pending codes is empty." }
    : { ...about, ok: false, says: "Pending codes were not read after the repair." };
}
