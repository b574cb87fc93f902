import { describe, expect, test } from "vitest";
import type { Comparison, Repair } from "../../../src/exhaust/comparing/comparison.ts";
import { checklist, lateClearing, monitorFinished, openItems } from "../../../src/job/evidence/checklist.ts";
import { type Evidence, noEvidence } from "../../../src/job/evidence/evidence.ts";
import { proofOf } from "../../../src/job/proof/proof.ts";

const full: Evidence = {
  ...noEvidence,
  codes: [{ code: "P0420", states: ["stored"] }],
  answered: ["stored", "pending", "permanent"],
  frame: { code: "P0420", values: { engineSpeed: 2000 } },
  status: { distanceSinceClear: 812, warmUps: 61, distanceWithLamp: 190 },
  readiness: [0x81, 0x07, 0x65, 0x00],
  calibration: "MADE-UP-1",
  monitorReplies: "46 21 80 20 01 20 00 00 01 00",
};

describe("evidence before clearing", () => {
  test("is open until each item is saved or declined", () => {
    expect(openItems(noEvidence)).toHaveLength(9);
    expect(openItems(full)).toEqual([]);
    expect(checklist({ ...full, frame: null, declined: ["frame"] }).find(({ item }) => item === "frame")!.state).toBe(
      "declined",
    );
  });

  test("an empty list that was read counts as saved, one that was not read does not", () => {
    const { codes: _, ...rest } = full;
    expect(openItems({ ...rest, codes: [] })).toEqual([]);
    expect(openItems({ ...rest, codes: [], answered: [] }).map(({ item }) => item)).toEqual([
      "codes",
      "pending",
      "permanent",
    ]);
  });

  test("pasted text that holds no result saves nothing", () => {
    expect(openItems({ ...full, monitorReplies: "see the printout" }).map(({ item }) => item)).toEqual(["monitors"]);
  });

  test("tells of codes cleared shortly before", () => {
    expect(lateClearing(full)).toBeNull();
    expect(lateClearing({ ...full, status: { warmUps: 2 } })).toContain("proves nothing");
  });

  test("tells whether the car's own test has finished", () => {
    expect(monitorFinished(full)).toBe(true);
    expect(monitorFinished({ ...full, readiness: [0x81, 0x07, 0x65, 0x01] })).toBe(false);
    expect(monitorFinished(noEvidence)).toBeNull();
  });
});

describe("a proved repair", () => {
  const compared = (reason: Repair["reason"]) =>
    ({
      suspect: "after.csv",
      reference: "before.csv",
      repair: { told: reason === "proved" ? "proved" : "not-proved", reason, says: reason },
    }) as Comparison;
  const repair = { what: "Catalyst renewed", at: "2026-05-04", by: "T. Example" };
  const all = { repair, comparison: compared("proved"), after: full };
  const missing = (facts: Parameters<typeof proofOf>[0]) =>
    proofOf(facts)
      .parts.filter(({ ok }) => !ok)
      .map(({ id }) => id);

  test("needs every part", () => {
    expect(proofOf(all).told).toBe("proved");
    expect(missing({ ...all, repair: { ...repair, what: " " } })).toEqual(["repair"]);
    expect(missing({ ...all, repair: { ...repair, at: "" } })).toEqual(["repair"]);
    expect(missing({ ...all, comparison: null })).toEqual(["chosen", "fair", "gain"]);
    expect(missing({ ...all, comparison: compared("unlike") })).toEqual(["fair", "gain"]);
    expect(missing({ ...all, comparison: compared("not-more") })).toEqual(["gain"]);
    expect(missing({ ...all, after: { ...full, readiness: [0x81, 0x07, 0x65, 0x01] } })).toEqual(["monitor"]);
    expect(missing({ ...all, after: { ...full, codes: [{ code: "P0420", states: ["pending"] }] } })).toEqual([
      "pending",
    ]);
    expect(missing({ ...all, after: { ...full, answered: ["stored"] } })).toEqual(["pending"]);
  });

  test("is never told of two recordings alone", () => {
    const alone = { repair: { what: "", at: "", by: "" }, comparison: compared("proved"), after: noEvidence };
    expect(proofOf(alone).told).toBe("not-proved");
    expect(missing(alone)).toEqual(["repair", "monitor", "pending"]);
  });
});
