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

  test("is wanted for other reasons after the repair, when nothing is to be cleared", () => {
    for (const line of checklist(noEvidence, "after")) {
      expect(line.because).not.toMatch(/clear/i);
      expect(line.because).not.toBe(checklist(noEvidence, "before").find(({ item }) => item === line.item)!.because);
    }
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
      fair: [{ what: "air flow in the fuel cut", ok: true, concern: "lift-off" }],
      repair: { told: reason === "proved" ? "proved" : "not-proved", reason, says: reason },
    }) as unknown as Comparison;
  const repair = { what: "Catalyst renewed", at: "2026-05-04", by: "T. Example" };
  const captures = [
    { fileName: "before.csv", stage: "before" as const },
    { fileName: "after.csv", stage: "after" as const },
  ];
  const after = { ...full, codes: [] };
  const all = { repair, captures, comparison: compared("proved"), before: noEvidence, after };
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
    expect(missing({ ...all, after: { ...after, readiness: [0x81, 0x07, 0x65, 0x01] } })).toEqual(["monitor"]);
    expect(missing({ ...all, after: { ...after, codes: [{ code: "P0420", states: ["pending"] }] } })).toEqual([
      "pending",
    ]);
    expect(missing({ ...all, after: { ...after, codes: [{ code: "P0420", states: ["stored"] }] } })).toEqual([
      "pending",
    ]);
    expect(missing({ ...all, after: { ...after, answered: ["stored"] } })).toEqual(["pending"]);
  });

  test("needs conditions that were recorded, not only none that differ", () => {
    expect(missing({ ...all, comparison: { ...compared("proved"), fair: [] } })).toEqual(["fair"]);
  });

  // Readiness is set back by clearing alone; the distance since then goes on from there (SAE J1979).
  test("takes no test for finished that may have been so before the repair", () => {
    const driven = (distanceSinceClear: number) => ({ ...all.after, status: { distanceSinceClear } });
    const before = { ...noEvidence, status: { distanceSinceClear: 812 } };
    expect(missing({ ...all, before, after: driven(900) })).toEqual(["monitor"]);
    expect(missing({ ...all, before, after: driven(88) })).toEqual([]);
    expect(missing({ ...all, before, after: { ...driven(900), readinessOf: "this-drive" } })).toEqual([]);
  });

  test("says what is missing of the choice: a name, the comparison, or dates that agree", () => {
    const says = (facts: Parameters<typeof proofOf>[0]) => proofOf(facts).parts.find(({ id }) => id === "chosen")!;
    const [old, made] = captures as [(typeof captures)[0], (typeof captures)[0]];
    expect(says({ ...all, captures: [old] }).says).toBe("Say which recording is from after the repair.");
    expect(says({ ...all, comparison: null }).says).toContain("not compared");
    expect(says({ ...all, comparison: null, isComparing: true })).toMatchObject({ ok: false });
    expect(says({ ...all, comparison: null, isComparing: true }).says).toContain("being worked out");
    const dated = (before: string, after: string) =>
      says({
        ...all,
        captures: [
          { ...old, recordedAt: before },
          { ...made, recordedAt: after },
        ],
      });
    expect(dated("2026-05-04T08:00", "2026-05-04T17:00").ok).toBe(true);
    expect(dated("2026-05-05T08:00", "2026-05-06T08:00")).toMatchObject({ ok: false });
    expect(dated("2026-05-01T08:00", "2026-05-02T08:00").says).toMatch(/the one after is dated before the repair/);
  });

  test("is never told of two recordings alone", () => {
    const alone = {
      repair: { what: "", at: "", by: "" },
      captures,
      comparison: compared("proved"),
      before: noEvidence,
      after: noEvidence,
    };
    expect(proofOf(alone).told).toBe("not-proved");
    expect(missing(alone)).toEqual(["repair", "monitor", "pending"]);
  });
});
