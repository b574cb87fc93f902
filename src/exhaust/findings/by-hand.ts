// What was checked by hand speaks in the findings: a leak found by smoke outweighs what trims could tell.

import type { Finding, FindingId } from "../terms/analysis.ts";
import type { HandCause, HandChecks, HandResult } from "../terms/hand-checks.ts";
import { putRight } from "./catalyst-words.ts";

interface Speaks {
  readonly finding: FindingId;
  readonly test: string;
}

/** Which finding a check speaks to; the others belong to the job only. */
const speaks: Readonly<Partial<Record<HandCause, readonly Speaks[]>>> = {
  "leak-ahead": [{ finding: "air-leak", test: "Leak test ahead of the front sensor" }],
  "leak-between": [{ finding: "air-leak", test: "Leak test between the sensors" }],
  ignition: [{ finding: "misfire", test: "Ignition and misfire counters" }],
  plugs: [{ finding: "misfire", test: "Spark plugs" }],
  "fuel-pressure": [{ finding: "mixture", test: "Fuel pressure and injectors" }],
  wiring: [
    { finding: "front-sensor", test: "Wiring and ground of the sensors" },
    { finding: "rear-sensor", test: "Wiring and ground of the sensors" },
  ],
};

/** Whole tests: in order only where all of them are. Wiring in order does not make a sensor a good one. */
const settlesBy: Readonly<Partial<Record<FindingId, readonly HandCause[]>>> = {
  "air-leak": ["leak-ahead", "leak-between"],
  misfire: ["ignition", "plugs"],
};

/**
 * The finding with what was checked by hand. A fault found by hand points to it, whatever the recording could tell. A check in
 * order settles what the recording left open, and stands against what the recording points to: then nothing is said.
 */
export function withHandChecks(made: Finding, checks: HandChecks): Finding {
  const mine = (Object.entries(checks) as [HandCause, HandResult][]).flatMap(([cause, result]) =>
    (speaks[cause] ?? []).filter(({ finding }) => finding === made.id).map(({ test }) => ({ test, result })),
  );
  if (mine.length === 0) return made;
  const reasons = (wanted: HandResult, says: string) =>
    mine
      .filter(({ result }) => result === wanted)
      .map(({ test }) => ({ reading: "by hand", says: `${test}: ${says}` }));
  const [faults, sound] = [reasons("at-fault", "a fault was found"), reasons("in-order", "in order")];
  const told = { ...made, for: [...made.for, ...faults], against: [...made.against, ...sound] };
  if (faults.length > 0) {
    const statement = `${faults.map(({ says }) => says).join(". ")}, by hand. ${made.statement}`;
    return { ...told, verdict: "points-to", statement, next: [putRight([made]), ...made.next] };
  }
  if (made.verdict === "points-to") {
    const statement = `${made.statement} By hand it was found in order: the two disagree.`;
    return { ...told, verdict: "cannot-say", statement, next: ["Repeat the check by hand.", ...made.next] };
  }
  const settled = settlesBy[made.id]?.every((cause) => checks[cause] === "in-order") ?? false;
  if (made.verdict !== "cannot-say" || !settled) return told;
  const statement = `${sound.map(({ says }) => says).join(", ")}, by hand. ${made.statement}`;
  return { ...told, verdict: "points-away", statement, next: [] };
}
