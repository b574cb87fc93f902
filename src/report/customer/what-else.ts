// Other causes in a customer's words: found, ruled out and by what, and what was not looked at. Each cause is named once.

import { type Asked, askedBy } from "../../exhaust/findings/record-again.ts";
import type { Finding, FindingId } from "../../exhaust/terms/analysis.ts";
import type { HandCause } from "../../exhaust/terms/hand-checks.ts";
import { handCauses } from "../../exhaust/terms/hand-checks.ts";
import { causeWords, type HandRow, handRow } from "../../job/ruled-out/ruled-out.ts";
import { otherCauses } from "./customer-words.ts";

export interface WhatElse {
  readonly found: readonly string[];
  readonly ruledOut: readonly string[];
  readonly notDone: readonly string[];
}

/** A check by hand speaks in the place of the finding it settles. */
const standsFor: Readonly<Partial<Record<HandCause, FindingId>>> = {
  "leak-ahead": "air-leak",
  "leak-between": "air-leak",
  ignition: "misfire",
  plugs: "misfire",
  "fuel-pressure": "mixture",
};

export function whatElse(findings: readonly Finding[], hand: readonly HandRow[]): WhatElse {
  const rows = handCauses.map((cause) => handRow(hand, cause));
  const done = rows.filter(({ result }) => result !== "not-done");
  const settled = new Set(done.map(({ cause }) => standsFor[cause]));
  const told = otherCauses(findings.filter(({ id }) => !settled.has(id)));
  const line = (row: HandRow, at: 0 | 1): string => {
    const value = row.value.trim();
    return value === ""
      ? causeWords[row.cause].plain[at]
      : `${causeWords[row.cause].plain[at].replace(/[.]$/, "")}: ${value}.`;
  };
  const open = rows.filter(({ result }) => result === "not-done").map(({ cause }) => lower(causeWords[cause].name));
  return {
    found: [...done.filter(({ result }) => result === "at-fault").map((row) => line(row, 1)), ...told.found],
    ruledOut: [...done.filter(({ result }) => result === "in-order").map((row) => line(row, 0)), ...told.ruledOut],
    notDone: [...(open.length > 0 ? [`Not checked by hand: ${open.join(", ")}.`] : []), ...told.open],
  };
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/**
 * What is next, each step once, all recordings of both sensors as one and first; steps whose checks were made are not among
 * them (`exhaust/findings/by-hand-steps.ts`).
 */
export function stillNext(findings: readonly Finding[]): string[] {
  const asking = unlike(findings.flatMap((finding) => finding.next)).map((step) => ({ step, asks: askedBy(step) }));
  const isBoth = asking.some(({ asks }) => asks === "both");
  const others = asking.filter(({ asks }) => asks !== "both" && !(isBoth && asks === "front"));
  const told = unlike(others.map(({ step, asks }) => (asks ? askedWords[asks] : step))).slice(0, 2);
  return isBoth ? [askedWords.both, ...told] : told;
}

const askedWords: Readonly<Record<Asked, string>> = {
  both: "We record the two sensors once more, with a fast recorder: at idle, on a steady drive, and while we lift off the accelerator.",
  front: "We record the front sensor once more, with a fast recorder, on a steady drive with the engine warm.",
  trims: "We record how far the engine corrects its mixture, at idle and on a steady drive.",
  flow: "We record how much air the engine takes in.",
  compare: "We compare the recording with one of a like car that is in order.",
};

/** Each sentence once, whatever its commas. */
export function unlike(sentences: readonly string[]): string[] {
  const letters = (text: string) => text.toLowerCase().replace(/[^\p{Letter}\p{Number}]/gu, "");
  return [...new Map(sentences.map((text) => [letters(text), text])).values()];
}
