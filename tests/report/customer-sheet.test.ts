import { describe, expect, test } from "vitest";
import type { Finding, FindingId, LiftOffSummary, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { newJob } from "../../src/job/edits/make.ts";
import {
  allNotDone,
  type CustomerFacts,
  type CustomerSheet,
  customerSheet,
} from "../../src/report/customer/customer-sheet.ts";
import { atLeast, atMost, measured, notResolvable, type Reading } from "../../src/signal/numbers/reading.ts";

const finding = (id: FindingId, verdict: Verdict, change: Partial<Finding> = {}): Finding => ({
  ...{ id, verdict, statement: `${id} says so.`, for: [], against: [], next: [], dependsOn: [] },
  ...change,
});

const liftOff = (delay: Reading): LiftOffSummary => ({
  ...{ delay, storedOxygen: atMost(0.2, "g"), richAgain: delay, spread: null, more: 0 },
});

const job = {
  ...newJob("j1", "2026-11-12T10:00:00.000Z", "Demo job 7"),
  vehicle: {
    ...{ description: "hatchback 1.6", codes: "P0420", odometer: "", plate: "AB CD 123" },
    ...{ vin: "12345678901234567", customer: "A. Customer" },
  },
};

const facts: CustomerFacts = {
  ...{ job, findings: [], liftOff: null, repair: null, checks: allNotDone, words: "", workshop: "Workshop" },
  ...{ ticks: { plate: false, vin: false, customer: false }, now: "2026-11-12T14:00" },
};

const sheetOf = (change: Partial<CustomerFacts>) => customerSheet({ ...facts, ...change });
const under = (sheet: CustomerSheet, heading: RegExp) =>
  sheet.sections.find((section) => heading.test(section.heading))?.lines ?? [];

describe("the customer sheet", () => {
  test("answers with the catalyst's verdict, and never that a part failed", () => {
    expect(sheetOf({ findings: [finding("catalyst", "points-to")] }).answer).toContain("points to the converter");
    expect(sheetOf({ findings: [finding("catalyst", "points-away")] }).answer).toContain("points away");
    expect(sheetOf({ findings: [finding("catalyst", "cannot-say")] }).answer).toContain("cannot yet say");
    expect(sheetOf({}).answer).toContain("Nothing has been judged yet");
    for (const verdict of ["points-to", "points-away", "cannot-say"] as const) {
      expect(JSON.stringify(sheetOf({ findings: [finding("catalyst", verdict)] }))).not.toMatch(
        /failed|is dead|replace/i,
      );
    }
  });

  test("says the delay with its bounds, and no more than its grade supports", () => {
    const sure = (delay: Reading) => under(sheetOf({ liftOff: liftOff(delay) }), /How sure/).join(" ");
    expect(sure(measured(0.05, [0.04, 0.06], "s", { count: 3 }))).toMatch(
      /0\.05 s later.*between 0\.04 and 0\.06 s in at least.*3 times/,
    );
    expect(sure(atMost(0.3, "s"))).toContain("at most 0.3 s later");
    expect(sure(atMost(0.3, "s"))).not.toContain("95 of 100");
    expect(sure(atLeast(3.1, "s"))).toContain("for at least 3.1 s the rear sensor saw none");
    expect(sure(notResolvable("s", "slow"))).toContain("faster recording before we recommend parts");
  });

  test("shows what speaks against its own verdict", () => {
    const against = [{ reading: "liftOff.delay", says: "rear fell after the front: 1.4 s" }];
    const sheet = sheetOf({ findings: [finding("catalyst", "points-to", { against })] });
    expect(under(sheet, /How sure/)).toContain("Against it speaks: rear fell after the front: 1.4 s.");
  });

  test("puts each other cause where its verdict puts it", () => {
    const sheet = sheetOf({
      findings: [
        finding("air-leak", "points-to"),
        finding("front-sensor", "points-away"),
        finding("mixture", "cannot-say"),
      ],
    });
    expect(under(sheet, /else we found/).join()).toContain("leak must be repaired");
    expect(under(sheet, /ruled out/).join()).toContain("before the converter works as it should");
    expect(under(sheet, /not done/).join()).toContain("right amount of fuel could not be said");
  });

  test("shows what was not done until someone says otherwise", () => {
    expect(under(sheetOf({}), /not done/).filter((line) => line.endsWith("not done."))).toHaveLength(6);
    const checks = allNotDone.map((check) => (check.id === "leak" ? { ...check, result: "in-order" as const } : check));
    const sheet = sheetOf({ checks });
    expect(under(sheet, /ruled out/)).toContain("Leak test of exhaust and intake: done, in order.");
    expect(under(sheet, /not done/).join()).not.toContain("Leak test");
  });

  test("names plate, VIN and customer only where ticked", () => {
    const shown = (ticks: Partial<CustomerFacts["ticks"]>) =>
      JSON.stringify(sheetOf({ ticks: { ...facts.ticks, ...ticks } }).about);
    expect(shown({})).not.toMatch(/AB CD|1234567|A\. Customer/);
    expect(shown({ vin: true })).toContain("12345678901234567");
    expect(shown({ vin: true })).not.toMatch(/AB CD|A\. Customer/);
  });

  test("carries next steps once each, the usual cautions, and the latest revision of each exhibit", () => {
    const next = ["Record again, faster."];
    const again = ["Record again faster."];
    const exhibit = (id: string, revises?: string) => ({
      ...{ id, captureId: "a", revision: 1, headline: id, madeAt: "", paper: "A4" as const, svg: "", png: "" },
      ...(revises === undefined ? {} : { revises }),
    });
    const sheet = sheetOf({
      findings: [finding("catalyst", "cannot-say", { next }), finding("recording", "points-to", { next: again })],
      job: { ...job, exhibits: [exhibit("a"), exhibit("b"), exhibit("a2", "a")] },
    });
    expect(under(sheet, /do next/)).toHaveLength(1);
    expect(under(sheet, /Good to know/).join(" ")).toMatch(/warranty.*not allowed.*rules of this place/);
    expect(sheet.exhibits.map(({ id }) => id)).toEqual(["a2", "b"]);
  });
});
