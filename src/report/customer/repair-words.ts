// Before against after, for the customer: whether the repair is proved, the numbers of the one test in both, and under what
// conditions it was made. Nothing is called proved that was not the same test under like conditions.

import type { Comparison, Difference, Fairness, Repair } from "../../exhaust/comparing/comparison.ts";
import { type Proof, proofInWords } from "../../job/proof/proof.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { formatValue, readingInWords } from "../../signal/written/reading-text.ts";

const verdicts: Readonly<Record<Repair["reason"], string>> = {
  proved:
    "The same test, made before and after it under like conditions, shows clearly more oxygen stored than before, and the converter now passes.",
  "no-common-test":
    "The recordings before and after it hold no test that can be set side by side. We have to test again.",
  unlike:
    "The tests before and after it were not made under the same conditions, so their numbers must not be set against each other. We have to test again in the same way.",
  "not-more": "The same test does not show clearly more oxygen stored than before.",
  "not-sound": "More oxygen is stored than before, but the converter does not yet pass by itself.",
  "was-sound": "The converter passed the test before it already.",
};

/**
 * @param comparison  of the recording after the repair (suspect) with the one before it (reference).
 * @param proof  whether it is proved: only where all its parts hold.
 */
export function repairInPlainWords(comparison: Comparison, proof: Proof): string[] {
  const { repair, differences, fair } = comparison;
  const isLike = repair.reason !== "unlike";
  const rows = (Object.keys(tests) as (keyof typeof tests)[]).flatMap((name) =>
    differences.filter(({ reading }) => reading === name).flatMap((one) => numbers(tests[name], one, isLike)),
  );
  return [
    proofInWords(proof),
    verdicts[repair.reason],
    `Before: ${comparison.reference}. After: ${comparison.suspect}.`,
    ...(rows.length > 0 ? [...rows, brackets] : []),
    ...conditions(fair),
  ];
}

const brackets = "In brackets: where the true value lies in at least 95 of 100 cases.";

const tests = {
  delay: "Time until the rear sensor saw the air",
  storedOxygen: "Oxygen that passed until then",
} as const;

/** Both values with their bounds; the ratio only of tests that were alike. */
function numbers(test: string, { suspect, reference, ratio }: Difference, isLike: boolean): string[] {
  if (suspect.grade === "not-resolvable" || reference.grade === "not-resolvable") return [];
  const both = `${test}: before ${readingInWords(reference)}, after ${readingInWords(suspect)}.`;
  return [isLike && ratio.grade !== "not-resolvable" ? `${both} After over before: ${readingInWords(ratio)}.` : both];
}

/**
 * What was not alike, both values each; of what was alike the quantities, and the rest by name. How the engine ran in stretches
 * is no part of this test.
 */
function conditions(fair: readonly Fairness[]): string[] {
  const ofTest = fair.filter(({ concern }) => concern === "all" || concern === "lift-off");
  const told = ({ what, suspect, reference }: Fairness) => {
    const [before, after] = [short(reference), short(suspect)];
    return before === after ? `${what} ${before} in both` : `${what} ${before} before, ${after} after`;
  };
  const [like, unlike] = [true, false].map((wanted) => ofTest.filter(({ ok }) => ok === wanted));
  const quantities = like!.filter(({ suspect, what }) => typeof suspect !== "string" && !what.includes("sample rate"));
  return [
    ...(unlike!.length === 0 ? [] : [`Not alike: ${unlike!.map(told).join("; ")}.`]),
    ...(quantities.length === 0 ? [] : [`Alike: ${quantities.map(told).join("; ")}.`]),
  ];
}

const short = (value: Reading | string): string =>
  typeof value === "string" ? value : formatValue(value.value, value.unit);
