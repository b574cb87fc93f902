import { describe, expect, test } from "vitest";
import { again, compare, frontAgain, recordFlow, recordTrims } from "../../src/exhaust/findings/record-again.ts";
import type { Finding, FindingId, LiftOffSummary, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { newJob } from "../../src/job/edits/make.ts";
import { changeDraft, changeHandRow } from "../../src/job/edits/paper-edits.ts";
import type { Job, SheetDraft } from "../../src/job/record/job.ts";
import { type HandRow, handRow } from "../../src/job/ruled-out/ruled-out.ts";
import { type CustomerFacts, type CustomerSheet, customerSheet } from "../../src/report/customer/customer-sheet.ts";
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

const emptyCapture = { sha256: "", size: 0, choices: {} };
const facts: CustomerFacts = { job, findings: [], liftOff: null, repair: null, judged: null, now: "2026-11-12T14:00" };
const withDraft = (change: Partial<SheetDraft>): Job => changeDraft(job, job.createdAt, change);
const withHand = (...rows: readonly Partial<HandRow>[]): Job =>
  rows.reduce<Job>((made, row) => changeHandRow(made, job.createdAt, { ...handRow([], "plugs"), ...row }), { ...job });

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
    const sure = (delay: Reading) => sheetOf({ liftOff: liftOff(delay) }).sure;
    expect(sure(measured(0.05, [0.04, 0.06], "s", { count: 3 }))).toMatch(
      /0\.05\u00a0s later \(0\.04 … 0\.06: .* at least.*3 times/,
    );
    expect(sure(atMost(0.3, "s"))).toContain("at most 0.3\u00a0s later");
    expect(sure(atMost(0.3, "s"))).not.toContain("95 of 100");
    expect(sure(atLeast(3.1, "s"))).toContain("for at least 3.1\u00a0s the rear sensor saw none");
    expect(sure(notResolvable("s", "slow"))).toContain("faster recording before we recommend parts");
  });

  test("says how sure in everyday words, by how many tests agree, and what speaks against", () => {
    const steady = { reading: "amplitudeRatio, cruise", says: "rear swing over front swing: 0.9" };
    const timed = { reading: "liftOff.delay", says: "rear fell after the front: 0.1 s" };
    const sure = (change: Partial<Finding>) => sheetOf({ findings: [finding("catalyst", "points-to", change)] }).sure;
    expect(sure({ for: [steady, timed] })).toMatch(/^We are quite sure: two different tests/);
    expect(sure({ for: [steady] })).toMatch(/^We are fairly sure: one test/);
    expect(sure({ for: [steady, steady], against: [timed, timed] })).toMatch(
      /Against it speaks the time the rear sensor took after lifting off\.$/,
    );
    expect(sheetOf({ findings: [finding("catalyst", "cannot-say")] }).sure).toBe("We are not sure yet.");
  });

  test("takes nothing that bears a verdict out for a doubt of it", () => {
    const calm = { reading: "amplitudeRatio, cruise", says: "rear swing over front swing: at most 0.06" };
    const timed = { reading: "liftOff.delay", says: "rear fell after the front: 1.1 s" };
    const sure = (change: Partial<Finding>) => sheetOf({ findings: [finding("catalyst", "points-away", change)] }).sure;
    expect(sure({ against: [calm, timed] })).toMatch(/^We are quite sure[^.]*\.$/);
    expect(sure({ against: [timed], for: [calm] })).toMatch(/Against it speaks how far the signal .* swings/);
  });

  test("puts each other cause where its verdict puts it", () => {
    const sheet = sheetOf({
      findings: [
        finding("air-leak", "points-to"),
        finding("front-sensor", "points-away"),
        finding("mixture", "cannot-say"),
      ],
    });
    expect(under(sheet, /besides/).join()).toContain("leak must be repaired");
    expect(under(sheet, /ruled out/).join()).toContain("before the converter works as it should");
    expect(under(sheet, /not done/).join()).toContain("right amount of fuel could not be said");
  });

  test("shows what was not done until someone says otherwise, and by what it was ruled out", () => {
    expect(under(sheetOf({}), /not done/)[0]).toMatch(/^Not checked by hand: leak ahead .*emission warranty/);
    const done = withHand({ cause: "leak-ahead", result: "in-order", value: "smoke test, tight" });
    const sheet = sheetOf({ job: done, findings: [finding("air-leak", "cannot-say")] });
    expect(under(sheet, /ruled out/)).toEqual(["The exhaust is tight ahead of the first sensor: smoke test, tight."]);
    expect(under(sheet, /not done/).join()).not.toMatch(/leak ahead|air leaks in could not/i);
  });

  test("lists as next what the findings still ask for", () => {
    const leak = finding("catalyst", "points-to", {
      next: ["Rule out exhaust leaks by a smoke test.", "Record three lift-offs."],
    });
    expect(under(sheetOf({ findings: [leak] }), /do next/)).toHaveLength(2);
  });

  test("names plate, VIN and customer only where ticked", () => {
    const shown = (ticks: Partial<SheetDraft["ticks"]>) =>
      JSON.stringify(sheetOf({ job: withDraft({ ticks: { plate: false, vin: false, customer: false, ...ticks } }) }));
    expect(shown({})).not.toMatch(/AB CD|1234567|A\. Customer/);
    expect(shown({ vin: true })).toContain("12345678901234567");
    expect(shown({ vin: true })).not.toMatch(/AB CD|A\. Customer/);
  });

  test("carries the technician's prices as typed, the approval, and the usual cautions", () => {
    const approval = {
      chosen: "Approved part",
      by: "A. Customer",
      at: "2026-11-13",
      amount: "600",
      how: "by telephone",
    };
    const choices = [{ id: "c1", what: "Approved part", price: "540 and tax" }];
    const sheet = sheetOf({ job: withDraft({ choices, approval }) });
    expect(sheet.choices).toEqual([{ what: "Approved part", price: "540 and tax" }]);
    expect(sheet.approval).toBe("Approved: Approved part, up to 600, by A. Customer, by telephone, 13 Nov 2026.");
    expect(under(sheet, /Good to know/).join(" ")).toMatch(/warranty.*not allowed.*rules of this place/);
    expect(under(sheet, /nothing is done/).join(" ")).toMatch(/emission test.*block the exhaust/);
  });

  test("shows the first few photos, those of faults before others", () => {
    const tight = { cause: "leak-ahead", result: "in-order", photos: ["photo-1.jpg", "photo-2.jpg"] } as const;
    const leak = { cause: "leak-between", result: "at-fault", photos: ["photo-3.jpg"] } as const;
    expect(sheetOf({ job: withHand(tight, leak) }).photos).toEqual([
      { name: "photo-3.jpg", of: "Leak between the sensors" },
      { name: "photo-1.jpg", of: "Leak ahead of the front sensor" },
      { name: "photo-2.jpg", of: "Leak ahead of the front sensor" },
    ]);
  });

  test("asks the customer for one more recording, in words of a newspaper", () => {
    const next = [again.cruise, "Rule out exhaust leaks by a smoke test."];
    const lines = under(
      sheetOf({
        findings: [
          finding("catalyst", "cannot-say", { next }),
          finding("front-sensor", "cannot-say", { next: [frontAgain.warm] }),
        ],
      }),
      /do next/,
    );
    expect(lines).toHaveLength(2);
    expect(lines.join(" ")).not.toMatch(/samples|closed loop/);
  });

  test("promises no recording of both sensors where something else is asked for", () => {
    const next = (steps: readonly string[]) =>
      under(sheetOf({ findings: [finding("catalyst", "cannot-say", { next: steps })] }), /do next/);
    expect(next([compare.likeCar]).join()).toMatch(/compare.*like car/);
    expect(next([recordTrims]).join()).toMatch(/mixture/);
    for (const step of [compare.likeCar, recordTrims, recordFlow.asWell, frontAgain.cruise]) {
      expect(next([step])).toHaveLength(1);
      expect(next([step]).join()).not.toMatch(/two sensors|samples/);
    }
    for (const step of Object.values(again)) expect(next([step]).join()).toMatch(/two sensors/);
  });

  test("carries next steps once each, and the latest revision of the last exhibit", () => {
    const exhibit = (id: string, revises?: string) => ({
      ...{ id, captureId: "a", revision: 1, headline: id, madeAt: "", paper: "A4" as const, svg: "", png: `${id}.png` },
      ...(revises === undefined ? {} : { revises }),
    });
    const sheet = sheetOf({
      findings: [
        finding("catalyst", "cannot-say", { next: ["Record again, faster."] }),
        finding("recording", "points-to", { next: ["Record again faster."] }),
      ],
      job: { ...job, exhibits: [exhibit("a"), exhibit("b"), exhibit("b2", "b")] },
    });
    expect(under(sheet, /do next/)).toHaveLength(1);
    expect(sheet.picture).toBe("b2.png");
  });

  test("shows the exhibit with the band of a sound converter, be another made after it", () => {
    const exhibit = (id: string, sound: boolean) => ({
      ...{ id, captureId: "a", revision: 1, headline: id, madeAt: "", paper: "A4" as const, svg: "", png: `${id}.png` },
      ...(sound ? { sound } : {}),
    });
    const exhibits = [exhibit("a", true), exhibit("b", false)];
    expect(sheetOf({ job: { ...job, exhibits } }).picture).toBe("a.png");
  });

  test("shows the recording that was judged, and says which one that is where the job has several", () => {
    const made = (id: string, captureId: string) => ({
      ...{ id, captureId, revision: 1, headline: id, madeAt: "", paper: "A4" as const, svg: "", png: `${id}.png` },
      sound: true,
    });
    const capture = (id: string, stage: "before" | "after") =>
      ({ ...emptyCapture, id, fileName: `${id}.csv`, stage }) as Job["captures"][number];
    const several = {
      ...job,
      captures: [capture("old", "before"), capture("new", "after")],
      exhibits: [made("x", "new"), made("y", "old")],
    };
    const sheet = sheetOf({ job: several, judged: "new" });
    expect(sheet.picture).toBe("x.png");
    expect(sheet.pictured).toBe("after the repair (new.csv)");
    expect(sheet.about).toContainEqual(["Recorded", "after the repair (new.csv)"]);
    const onlyOld = sheetOf({ job: { ...several, exhibits: [made("y", "old")] }, judged: "new" });
    expect(onlyOld.pictured).toBe("before the repair (old.csv)");
  });
});
