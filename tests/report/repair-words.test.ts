// Before against after for the customer: proved only by the same test under like conditions, with both numbers and bounds.

import { expect, test } from "vitest";
import { compareRecordings } from "../../src/exhaust/comparing/compare.ts";
import { type Evidence, noEvidence } from "../../src/job/evidence/evidence.ts";
import { proofOf } from "../../src/job/proof/proof.ts";
import { repairInPlainWords } from "../../src/report/customer/repair-words.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import { recording } from "../exhaust/comparables.ts";

const dead = { delay: measured(0.12, [0.1, 0.14], "s"), storedOxygen: measured(0.28, [0.24, 0.32], "g") };
const sound = { delay: measured(1.2, [1.1, 1.3], "s"), storedOxygen: measured(2.8, [2.5, 3.1], "g") };
const before = recording("before.csv", [dead, dead], "points-to");
const after = recording("after.csv", [sound, sound], "points-away");
const done: Evidence = { ...noEvidence, answered: ["pending"], readiness: [0, 7, 0x65, 0] };
const words = (mine = after, theirs = before, repair = { what: "Catalyst renewed", at: "2026-05-04", by: "" }) => {
  const comparison = compareRecordings(mine, theirs);
  const captures = [
    { fileName: theirs.name, stage: "before" as const },
    { fileName: mine.name, stage: "after" as const },
  ];
  return repairInPlainWords(comparison, proofOf({ repair, captures, comparison, before: noEvidence, after: done }));
};

test("a like test that reads clearly more proves the repair, with both values, their ratio and what was alike", () => {
  const [proof, verdict, files, delay, oxygen, brackets, alike] = words();
  expect(proof).toBe("The repair is proved.");
  expect(verdict).toMatch(/^The same test.*shows clearly more oxygen/);
  expect(files).toBe("Before: before.csv. After: after.csv.");
  expect(delay).toMatch(
    /before 0\.12\u00a0s \(0\.10 … 0\.14\), after 1\.2\u00a0s \(1\.1 … 1\.3\)\. After over before: 10/,
  );
  expect(oxygen).toMatch(/before 0\.28\u00a0g .*after 2\.8\u00a0g/);
  expect(brackets).toContain("95 of 100");
  expect(alike).toMatch(/^Alike: .*air flow in the fuel cut 10\u00a0g\/s in both/);
  expect(alike).not.toMatch(/sensor kind|sample rate/);
});

test("tests that were not alike prove nothing: both numbers, what was unlike, and no ratio", () => {
  const fast = recording("after.csv", [{ ...sound, airFlow: 20 }], "points-away");
  const slow = recording("before.csv", [{ ...dead, airFlow: 5 }], "points-to");
  const lines = words(fast, slow);
  expect(lines[0]).toBe("The repair is not proved yet. Missing: like conditions, clearly more store than before.");
  expect(lines[1]).toMatch(/not made under the same conditions/);
  expect(lines.join(" ")).not.toContain("After over before");
  expect(lines).toContainEqual(
    expect.stringMatching(/^Not alike: air flow in the fuel cut 5\sg\/s before, 20\sg\/s after/),
  );
});

test.each([
  ["the same once more", recording("b", [dead, dead], "points-to"), before, /The same test does not show/],
  ["a gain that does not pass", recording("b", [sound, sound], "cannot-say"), before, /not yet pass/],
  ["sound before", after, recording("a", [dead, dead], "points-away"), /passed the test before/],
  ["no lift-off", after, recording("a", []), /hold no test/],
] as const)("%s", (_, mine, theirs, says) => {
  const [proof, verdict] = words(mine, theirs);
  expect(proof).toMatch(/not proved yet/);
  expect(verdict).toMatch(says);
});

test("two recordings alone prove nothing: the stated repair is missing, by name", () => {
  expect(words(after, before, { what: "", at: "", by: "" })[0]).toBe(
    "The repair is not proved yet. Missing: repair stated.",
  );
});
