// The page for the customer, in plain words: what was found, how sure, what else was ruled out and by what, what was not done,
// the choices with the technician's prices, and what happens if nothing is done. Plain data; a screen or a printer shows it.

import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Finding, LiftOffSummary } from "../../exhaust/terms/analysis.ts";
import { sheetRow } from "../../job/edits/exhibits.ts";
import { emptyDraft, intakeOf } from "../../job/edits/paper-edits.ts";
import { proofOfJob } from "../../job/proof/proof.ts";
import type { ExhibitRecord, FrozenSheet, Job, SheetDraft } from "../../job/record/job.ts";
import { most } from "../../job/record/sizes.ts";
import { causeWords, type HandRow } from "../../job/ruled-out/ruled-out.ts";
import { dateText } from "../../signal/written/date-text.ts";
import { answerInPlainWords, howSure, setting, sureness } from "./customer-words.ts";
import { repairInPlainWords } from "./repair-words.ts";
import { stillNext, unlike, whatElse } from "./what-else.ts";

export interface CustomerFacts {
  /** Intake, checks by hand, prices and ticks stand in it. */
  readonly job: Job;
  /** Empty where nothing was judged. */
  readonly findings: readonly Finding[];
  readonly liftOff: LiftOffSummary | null;
  /** The recording after the repair as suspect, the one before it as reference; null where no two were chosen and compared. */
  readonly repair: Comparison | null;
  /** Id of the recording that was judged; null for none. */
  readonly judged: string | null;
  /** As `localInstant` gives it. */
  readonly now: string;
}

/** A sheet before it is given away. */
export type CustomerSheet = Omit<FrozenSheet, "id" | "revision" | "madeAt">;

/** General words: laws differ, and the page says so. */
const ifNothing: readonly string[] = [
  "The car may fail its emission test, and in many places it may not be driven with the lamp on. Ask the office of your place.",
  "A converter that breaks up can block the exhaust; the engine then loses power. If the lamp flashes, stop driving.",
];
const warranty = "Your converter may be covered by the emission warranty. Please let us check before you pay.";
const rules =
  "We will not switch the lamp off by tricking a sensor; that is not allowed and hides the fault. The rules of this place and of the maker come first.";

/** Pure; nothing is claimed that the findings and the checks do not say. */
export function customerSheet(facts: CustomerFacts): CustomerSheet {
  const { job, findings, liftOff, repair } = facts;
  const draft = job.sheet ?? emptyDraft;
  const hand = job.ruledOut ?? [];
  const catalyst = findings.find(({ id }) => id === "catalyst") ?? null;
  const else_ = whatElse(findings, hand);
  const proof = proofOfJob(job, repair);
  const next = proof.told === "proved" ? [] : stillNext(findings);
  const picture = pictureOf(facts);
  const isWarrantyOpen = !hand.some(({ cause, result }) => cause === "warranty" && result !== "not-done");
  const complaint = intakeOf(job).complaint.trim();
  return {
    paper: draft.paper,
    title: "What we found on your car",
    about: about(facts, draft),
    answer: answerInPlainWords(catalyst),
    sure: [sureness(liftOff, catalyst), ...howSure(liftOff, catalyst)].filter(Boolean).join(" "),
    sections: [
      { heading: "You told us", lines: complaint === "" ? [] : [complaint] },
      { heading: "How it should be", lines: [setting] },
      { heading: "What we add", lines: draft.words.trim() === "" ? [] : draft.words.trim().split(/\n+/) },
      { heading: "Before and after the repair", lines: repair ? repairInPlainWords(repair, proof) : [] },
      { heading: "What we found besides", lines: else_.found },
      { heading: "What looks the same, and was ruled out", lines: else_.ruledOut },
      { heading: "What was not done, or cannot be said yet", lines: else_.notDone },
      { heading: "What we do next", lines: next },
      { heading: "If nothing is done", lines: proof.told === "proved" ? [] : ifNothing },
      {
        heading: "Good to know",
        lines: [...(isWarrantyOpen && proof.told !== "proved" ? [warranty] : []), rules],
      },
    ]
      .map(({ heading, lines }) => ({ heading, lines: unlike(lines) }))
      .filter(({ lines }) => lines.length > 0),
    choices: draft.choices.filter(({ what }) => what.trim() !== "").map(({ what, price }) => ({ what, price })),
    approval: approvalText(draft.approval),
    /** The drawing, which holds a picture for this sheet; the pixels where there is no drawing. */
    picture: picture ? picture.svg || picture.png : null,
    ...(picture && job.captures.length > 1 ? { pictured: recordingInWords(job, picture.captureId) } : {}),
    photos: photosOf(hand),
  };
}

/**
 * Of the exhibits' last revisions those of the recording judged, else all: the one made last that shows a sound converter's
 * band, else the one made last.
 */
function pictureOf({ job, judged }: CustomerFacts): ExhibitRecord | undefined {
  const last = sheetRow(job.exhibits).flatMap((revisions) => revisions.at(-1) ?? []);
  const ofJudged = last.filter(({ captureId }) => captureId === judged);
  const fit = ofJudged.length > 0 ? ofJudged : last;
  return fit.findLast(({ sound }) => sound) ?? fit.at(-1);
}

const stages = { before: "before the repair", after: "after the repair", donor: "on another, sound car" } as const;

/** "after the repair (drive.csv)"; the file's name alone where nobody said what it is. */
function recordingInWords({ captures }: Job, id: string): string {
  const record = captures.find((one) => one.id === id);
  if (!record) return "";
  return record.stage ? `${stages[record.stage]} (${record.fileName})` : record.fileName;
}

/** The first few, faults first, each with what it shows. */
function photosOf(hand: readonly HandRow[]): NonNullable<CustomerSheet["photos"]> {
  const faultsFirst = [...hand].sort((a, b) => Number(b.result === "at-fault") - Number(a.result === "at-fault"));
  return faultsFirst
    .flatMap(({ cause, photos }) => photos.map((name) => ({ name, of: causeWords[cause].name })))
    .slice(0, most.photosOnSheet);
}

/** "" where nothing was approved yet: then the page has lines to sign. */
function approvalText({ chosen, by, at, amount, how }: SheetDraft["approval"]): string {
  if (by.trim() === "" && chosen.trim() === "") return "";
  const parts = [chosen, amount && `up to ${amount}`, by && `by ${by}`, how, at && dateText(at)];
  return `Approved: ${parts.filter((part) => part.trim() !== "").join(", ")}.`;
}

/** Rows of the sheet that name the car or its owner, and the field of each. */
export const rowsOfOwner = { "Number plate": "plate", VIN: "vin", Customer: "customer" } as const;

function about({ job, judged, now }: CustomerFacts, { ticks, workshop }: SheetDraft): [string, string][] {
  const { description, odometer, codes } = job.vehicle;
  const rows: [string, string][] = [
    ["Job", job.name],
    ["Vehicle", [description, odometer].filter((text) => text.trim() !== "").join(", ")],
    ["Fault codes", codes],
    ["Recorded", job.captures.length > 1 && judged !== null ? recordingInWords(job, judged) : ""],
    ...Object.entries(rowsOfOwner).map(([row, field]): [string, string] => [
      row,
      ticks[field] ? job.vehicle[field] : "",
    ]),
    ["Workshop", workshop],
    ["Technician", intakeOf(job).technician],
    ["Date", dateText(now)],
  ];
  return rows.filter(([, value]) => value.trim() !== "");
}
