// The page for the customer, in plain words: what was found, how sure, what was ruled out, what was not done, what comes
// next, and the usual cautions. Plain data; a screen or a printer shows it.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Finding, LiftOffSummary } from "../../exhaust/terms/analysis.ts";
import { sheetRow } from "../../job/edits/exhibits.ts";
import { evidenceOf, noRepair } from "../../job/edits/paper-edits.ts";
import { type Proof, proofOf } from "../../job/proof/proof.ts";
import type { ExhibitRecord, Job } from "../../job/record/job.ts";
import type { Ticks } from "../exhibit/edits.ts";
import { dateText } from "../exhibit/wording.ts";
import { answerInPlainWords, howSure, otherCauses, recordingInPlainWords, setting } from "./customer-words.ts";
import { repairInPlainWords } from "./repair-words.ts";

/** A check that no recording replaces; shown as not done until someone says otherwise. */
export interface HandCheck {
  readonly id: HandCheckId;
  readonly result: "not-done" | "in-order" | "at-fault";
}
export const handChecks = {
  leak: "Leak test of exhaust and intake",
  misfire: "Misfire counters and ignition",
  fuel: "Fuel pressure and injectors",
  oil: "Oil and coolant use",
  software: "Bulletins and software of the engine computer",
  warranty: "Emission warranty and recalls",
} as const;
export type HandCheckId = keyof typeof handChecks;

export const allNotDone: readonly HandCheck[] = (Object.keys(handChecks) as HandCheckId[]).map((id) => ({
  id,
  result: "not-done",
}));

export interface CustomerFacts {
  readonly job: Job;
  /** Empty where nothing was judged. */
  readonly findings: readonly Finding[];
  readonly liftOff: LiftOffSummary | null;
  /** The recording after the repair as suspect, the one before it as reference; null where no two are compared. */
  readonly repair: Comparison | null;
  readonly checks: readonly HandCheck[];
  readonly ticks: Ticks;
  /** What the technician adds, in his own words; "" for nothing. */
  readonly words: string;
  readonly workshop: string;
  /** As `localInstant` gives it. */
  readonly now: string;
}

export interface CustomerSection {
  readonly heading: string;
  readonly lines: readonly string[];
}

export interface CustomerSheet {
  readonly title: string;
  /** Job, vehicle and who says so; plate, VIN and customer only where ticked. */
  readonly about: readonly (readonly [name: string, value: string])[];
  /** How the two signals should look. */
  readonly setting: string;
  readonly answer: string;
  readonly sections: readonly CustomerSection[];
  /** Latest revision of each sheet. */
  readonly exhibits: readonly ExhibitRecord[];
}

const cautions: readonly string[] = [
  "A new converter without curing what damaged the old one fails again. We look for the cause first.",
  "Your converter may be covered by the emission warranty. Please let us check before you pay.",
  "We will not switch the warning off by tricking a sensor; that is not allowed and hides the fault.",
  "After a repair we drive the car until its own test has finished, and show you the new result next to the old one. The lamp may come back until then: the car needs two tests in a row before it decides.",
  "The decision rests with the technician, and with the rules of this place.",
];

/** Pure; nothing is claimed that the findings do not say. */
export function customerSheet(facts: CustomerFacts): CustomerSheet {
  const catalyst = facts.findings.find(({ id }) => id === "catalyst") ?? null;
  const causes = otherCauses(facts.findings);
  const ruledOut = [...causes.ruledOut, ...checksWith(facts, "in-order").map((name) => `${name}: done, in order.`)];
  const atFault = [
    ...causes.found,
    ...checksWith(facts, "at-fault").map((name) => `${name}: done, a fault was found.`),
  ];
  const notDone = [...causes.open, ...checksWith(facts, "not-done").map((name) => `${name}: not done.`)];
  const next = unlike(facts.findings.flatMap((finding) => finding.next));
  return {
    title: "What we found on your car",
    about: about(facts),
    setting,
    answer: answerInPlainWords(catalyst),
    sections: [
      { heading: "What we add", lines: facts.words.trim() === "" ? [] : facts.words.trim().split(/\n+/) },
      {
        heading: "Before and after the repair",
        lines: facts.repair ? repairInPlainWords(facts.repair, proofFor(facts)) : [],
      },
      { heading: "How sure we are", lines: howSure(facts.liftOff, catalyst) },
      { heading: "What else we found", lines: atFault },
      { heading: "What looks the same, and was ruled out", lines: ruledOut },
      { heading: "What was not done, or cannot be said yet", lines: notDone },
      { heading: "What we do next", lines: next },
      { heading: "About the recording", lines: recordingInPlainWords(facts.findings) },
      { heading: "Good to know", lines: cautions },
    ].filter(({ lines }) => lines.length > 0),
    exhibits: sheetRow(facts.job.exhibits).map((revisions) => revisions.at(-1)!),
  };
}

const proofFor = ({ job, repair }: CustomerFacts): Proof =>
  proofOf({ repair: job.repair ?? noRepair, comparison: repair, after: evidenceOf(job, "after") });

/** Each sentence once, whatever its commas. */
function unlike(sentences: readonly string[]): string[] {
  const letters = (text: string) => text.toLowerCase().replace(/[^\p{Letter}\p{Number}]/gu, "");
  return [...new Map(sentences.map((text) => [letters(text), text])).values()];
}

function checksWith({ checks }: CustomerFacts, result: HandCheck["result"]): string[] {
  return checks.filter((check) => check.result === result).map(({ id }) => handChecks[id]);
}

function about({ job, ticks, workshop, now }: CustomerFacts): (readonly [string, string])[] {
  const { description, odometer, codes, plate, vin, customer } = job.vehicle;
  const rows: (readonly [string, string])[] = [
    ["Job", job.name],
    ["Vehicle", [description, odometer].filter((text) => text.trim() !== "").join(", ")],
    ["Fault codes", codes],
    ["Number plate", ticks.plate ? plate : ""],
    ["VIN", ticks.vin ? vin : ""],
    ["Customer", ticks.customer ? customer : ""],
    ["Workshop", workshop],
    ["Date", dateText(now)],
  ];
  return rows.filter(([, value]) => value.trim() !== "");
}
