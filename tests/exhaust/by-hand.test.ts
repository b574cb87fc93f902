// What was checked by hand speaks in the findings (rules of this tool).

import { describe, expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { beforeParts, leakTest, stepsLeft } from "../../src/exhaust/findings/by-hand-steps.ts";
import type { HandChecks } from "../../src/exhaust/terms/hand-checks.ts";
import { remembering } from "../../src/exhaust/terms/remembered.ts";
import { ruledOutTable } from "../../src/job/ruled-out/ruled-out.ts";
import { capture, even, square } from "./make.ts";

/** A rear that follows the front in a steady cruise, warm, without trims. */
const made = capture(
  even("front-o2", 90, 100, square(1)),
  even("rear-o2", 90, 100, square(1, 0.1)),
  even("engine-speed", 90, 2, () => 2500),
  even("coolant-temp", 90, 1, () => 90),
  even("fuel-status", 90, 1, () => 2),
);
/** Nothing but what the hand says changes: the rest is measured once. */
const recall = remembering();
const findings = (byHand: HandChecks) => analyse(made, { byHand }, () => {}, recall).findings;
const one = (byHand: HandChecks, id: string) => findings(byHand).find((finding) => finding.id === id)!;

describe("checks by hand", () => {
  test("a leak found by smoke points to the leak, and the catalyst waits for it", () => {
    expect(one({}, "air-leak").verdict).toBe("cannot-say");
    expect(one({}, "catalyst").verdict).toBe("points-to");
    const leak = one({ "leak-between": "at-fault" }, "air-leak");
    expect(leak.verdict).toBe("points-to");
    expect(leak.for.at(-1)).toEqual({ reading: "by hand", says: "Leak test between the sensors: a fault was found" });
    const catalyst = one({ "leak-between": "at-fault" }, "catalyst");
    expect(catalyst.verdict).toBe("cannot-say");
    expect(catalyst.statement).toContain("the air leak must be put right first");
  });

  // Two witnesses against the catalyst: the rear follows, and falls at once in each of three cuts.
  test("also where lift-offs point to the catalyst by themselves", () => {
    const lifts = [20, 40, 60];
    const inLift = (t: number, from: number, to: number) => lifts.some((at) => t >= at + from && t < at + to);
    const signal = (late: number) => (t: number) =>
      inLift(t - late, 0, 6) ? 0.04 : inLift(t - late, -3, 0) ? 0.88 : square(1.5)(t - late);
    const driven = capture(
      even("front-o2", 80, 500, signal(0)),
      even("rear-o2", 80, 500, signal(0.06)),
      even("throttle", 80, 20, (t) => (inLift(t, 0, 6) ? 2 : inLift(t, -3, 0) ? 60 : 18)),
      even("engine-speed", 80, 20, (t) => (inLift(t, 0, 6) ? 3000 : 2400)),
      even("air-flow", 80, 20, () => 8),
    );
    const anew = remembering();
    const told = (byHand: HandChecks) =>
      analyse(driven, { byHand }, () => {}, anew).findings.find(({ id }) => id === "catalyst")!;
    expect(told({}).verdict).toBe("points-to");
    for (const cause of ["leak-ahead", "leak-between"] as const) {
      const { verdict, statement, next } = told({ [cause]: "at-fault" });
      expect([cause, verdict]).toEqual([cause, "cannot-say"]);
      expect(statement).toContain("the air leak must be put right first");
      expect(next[0]).toBe("Put the air leak right, then repeat this recording.");
    }
    expect(told({ plugs: "at-fault" }).verdict).toBe("points-to");
  });

  test("a step is asked for until one of its checks found a fault, or all were made", () => {
    const steps = [...beforeParts, leakTest, "Record three lift-offs."];
    expect(stepsLeft(steps, { "leak-ahead": "in-order" })).toEqual(steps);
    expect(stepsLeft(steps, { "leak-ahead": "at-fault" })).toEqual([beforeParts[1], "Record three lift-offs."]);
    expect(stepsLeft(steps, { "leak-ahead": "in-order", "leak-between": "at-fault" })).toEqual([
      beforeParts[1],
      "Record three lift-offs.",
    ]);
  });

  test("a leak is ruled out only where both places were tested", () => {
    expect(one({ "leak-ahead": "in-order" }, "air-leak").verdict).toBe("cannot-say");
    expect(one({ "leak-ahead": "in-order", "leak-between": "in-order" }, "air-leak").verdict).toBe("points-away");
  });

  test("sound wiring does not make a sensor a good one", () => {
    expect(one({ wiring: "in-order" }, "rear-sensor").verdict).toBe(one({}, "rear-sensor").verdict);
    expect(one({ wiring: "at-fault" }, "front-sensor").verdict).toBe("points-to");
  });

  test("what belongs to the job alone leaves every finding as it is", () => {
    expect(findings({ software: "at-fault", warranty: "in-order", "oil-coolant": "in-order" })).toEqual(findings({}));
    const verdicts = (checks: HandChecks) => findings(checks).map(({ verdict }) => verdict);
    expect(verdicts({ "oil-coolant": "at-fault" })).toEqual(verdicts({}));
  });
});

test("the table names every cause, done or not", () => {
  const hand = {
    cause: "plugs",
    result: "in-order",
    value: "0.8 mm",
    by: "T. Example",
    at: "2026-05-04",
    photos: [],
  } as const;
  const table = ruledOutTable(findings({}), [hand]);
  expect(table).toHaveLength(14);
  expect(table.find(({ id }) => id === "plugs")).toMatchObject({ result: "in-order", value: "0.8 mm", from: "hand" });
  expect(table.filter(({ result }) => result === "not-done")).toHaveLength(8);
  expect(ruledOutTable([], []).every(({ result }) => result === "not-done")).toBe(true);
});
