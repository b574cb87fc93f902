// A stretch put right by hand: it takes its span, what was read stays known, and findings go by the hand's word and say so.

import { expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { Finding, StretchEdit } from "../../src/exhaust/terms/analysis.ts";
import { remembering } from "../../src/exhaust/terms/remembered.ts";
import { capture, even, square } from "./make.ts";

/** A rear that follows its front, at 2,500 rpm for 25 s, then at 800 rpm for 25 s: too short for a verdict by the store. */
const followed = capture(
  even("front-o2", 50, 200, square(1.5)),
  even("rear-o2", 50, 200, square(1.5, 0.1)),
  even("engine-speed", 50, 10, (t) => (t < 25 ? 2500 : 800)),
  even("throttle", 50, 10, (t) => (t < 25 ? 25 : 10)),
);
const recall = remembering();
const answer = (stretches: readonly StretchEdit[] = []) => analyse(followed, { stretches }, () => {}, recall);
const catalyst = (stretches: readonly StretchEdit[]): Finding =>
  answer(stretches).findings.find(({ id }) => id === "catalyst")!;

test("the hand's kind takes its span; neighbours are cut back, and what was read is kept", () => {
  const plain = answer().stretches;
  expect(plain.every(({ kind, readAs, origin }) => kind === readAs && origin === "found")).toBe(true);
  const cruise = plain.find(({ kind }) => kind === "cruise")!;
  const { from, to } = cruise;
  const half = { from: from + 5, to: from + 15, kind: "unsteady" } as const;
  const after = answer([half]).stretches.filter((one) => one.from >= from && one.to <= to);
  expect(after.map((one) => [one.kind, one.from, one.to, one.readAs, one.origin])).toEqual([
    ["cruise", from, half.from, "cruise", "found"],
    ["unsteady", half.from, half.to, "cruise", "user"],
    ["cruise", half.to, to, "cruise", "found"],
  ]);
});

test("findings go by the corrected kind, and name the correction wherever they name the stretch", () => {
  const cruise = answer().stretches.find(({ kind }) => kind === "cruise")!;
  const idle = answer().stretches.find(({ kind }) => kind === "idle")!;
  expect(catalyst([]).statement).toMatch(/at cruise \(\d+(\.\d)? … \d+(\.\d)?\u00a0s\)/);
  // A rear that follows at idle alone settles nothing.
  const { from, to } = cruise;
  const set = catalyst([{ from, to, kind: "load" }]);
  expect([catalyst([]).verdict, set.verdict]).toEqual(["points-to", "cannot-say"]);
  const said = catalyst([
    { from, to, kind: "load" },
    { from: idle.from, to: idle.to, kind: "cruise" },
  ]);
  expect(said.verdict).toBe("points-to");
  expect(said.statement).toMatch(/at cruise \(\d+(\.\d)? … \d+(\.\d)?\u00a0s, corrected by hand\)/);
  expect(said.for.map(({ reading }) => reading)).toContainEqual(
    expect.stringMatching(/^amplitudeRatio, cruise .*\u00a0s, corrected by hand$/),
  );
});
