import { expect, test } from "vitest";
import { type Evidence, noEvidence } from "../../src/job/evidence/evidence.ts";
import { statusInText } from "../../src/job/evidence/status-text.ts";
import { readinessOf } from "../../src/job/parameters/readiness.ts";

const after = (evidence: Evidence, text: string): Evidence => ({ ...evidence, ...statusInText(text, evidence).part });
const statesOf = ({ readiness }: Evidence) =>
  (readinessOf(readiness, 0x41)?.items ?? [])
    .filter(({ state }) => state !== "not-fitted")
    .map(({ id, state }) => `${id} ${state}`);

test("a test that is typed is added to those typed before, and takes the place of itself", () => {
  const first = after(noEvidence, "Catalyst: not complete\nMisfire: complete\nEGR ready");
  const second = after(first, "EVAP: complete, catalyst: complete, EGR not supported");
  expect(statesOf(second)).toEqual(["misfire complete", "catalyst complete", "vapour complete"]);
  expect(second.readinessOf).toBe("as-typed");
});

test("bytes that were read from the car are kept, and that is said", () => {
  const read = after(noEvidence, "41 01 82 07 65 01");
  const { part, unread } = statusInText("Distance since codes cleared 812 km\nCatalyst: complete", read);
  expect(part).toEqual({ status: { distanceSinceClear: 812 } });
  expect(unread).toEqual([{ line: 2, says: expect.stringContaining("read from the car are kept") }]);
  // Bit 0 of byte D: the catalyst is not complete there.
  expect(statusInText("Catalyst: not complete, distance since clear 5 km", read).unread).toEqual([]);
});

test("a line of readiness and of a value gives both, and neither hides what was not understood", () => {
  const { part, unread } = statusInText(
    "Catalyst: complete; distance since clear 40 kPa; EVAP\nwarm-ups 12",
    noEvidence,
  );
  expect(part).toMatchObject({ status: { warmUps: 12 }, readinessOf: "as-typed" });
  expect(unread.map(({ line, says }) => `${line} ${says.includes("EVAP") || says.includes("kPa")}`)).toEqual([
    "1 true",
    "1 true",
  ]);
});

test("nothing understood is said", () => {
  expect(statusInText("all good", noEvidence)).toMatchObject({ part: null, unread: [{ line: 1 }] });
});

test("a decimal comma is one, also beside readiness", () => {
  const { part, unread } = statusInText("Distance since clear 505,2 km, catalyst: complete,warm-ups 12", noEvidence);
  expect(part?.status).toEqual({ distanceSinceClear: 505.2, warmUps: 12 });
  expect(unread).toEqual([]);
});
