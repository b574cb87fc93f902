// Parts offered where the whole does not compare: whatever is offered compares fairly itself.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareRecordings } from "../../src/exhaust/comparing/compare.ts";
import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import type { StretchKind } from "../../src/exhaust/terms/analysis.ts";
import { recording } from "./comparables.ts";

type Running = readonly [airFlow: number, engineSpeed: number];

const liftOffs = (events: readonly Running[]) =>
  recording(
    "",
    events.map(([airFlow, engineSpeed]) => ({ airFlow, engineSpeed })),
  );

/** Stretches of 10 s, one after the other. */
const stretches = (kind: StretchKind, all: readonly Running[]): Comparable => ({
  ...recording("", []),
  stretches: all.map(([airFlow, engineSpeed], i) => ({
    ...{ from: 10 * i, to: 10 * i + 10, kind, airFlow, engineSpeed },
    ...{ activity: null, front: null, rear: null },
  })),
});

const anyRunning = fc.array(
  fc.tuple(fc.double({ min: 2, max: 40, noNaN: true }), fc.integer({ min: 900, max: 4000 })),
  { minLength: 1, maxLength: 6 },
);

describe("matching lift-offs", () => {
  // By hand: 5 against 20 g/s never compare; of 5, 6 and 20 against 19 and 21 only the last do.
  test("are those at a like flow, and none where no flows are alike", () => {
    expect(compareRecordings(liftOffs([[5, 2000]]), liftOffs([[20, 2000]])).matching).toEqual([]);
    const mine = liftOffs([
      [5, 2000],
      [6, 2000],
      [20, 2000],
    ]);
    const theirs = liftOffs([
      [19, 2100],
      [21, 2000],
    ]);
    const [match, ...others] = compareRecordings(mine, theirs).matching;
    expect(match).toMatchObject({ of: "lift-off", suspect: ["2"], reference: ["0", "1"] });
    expect(others).toEqual([]);
  });

  test("are not offered where all of them compare, or where the sensors are of another kind", () => {
    expect(compareRecordings(liftOffs([[10, 2000]]), liftOffs([[11, 2000]])).matching).toEqual([]);
    const mine = liftOffs([
      [5, 2000],
      [20, 2000],
    ]);
    const other = { ...liftOffs([[20, 2000]]), front: { ...mine.front!, kind: "wide-band" as const } };
    expect(compareRecordings(mine, other).matching).toEqual([]);
  });
});

describe("matching stretches", () => {
  // By hand: 12 and 14 g/s at 2,000 against 13 and 30 g/s at 2,100 per minute: the first two against the first.
  test("are those of one kind that ran alike", () => {
    const mine = stretches("cruise", [
      [12, 2000],
      [14, 2000],
      [45, 2000],
      [44, 2000],
    ]);
    const theirs = stretches("cruise", [
      [13, 2100],
      [80, 2100],
      [13, 2100],
    ]);
    expect(compareRecordings(mine, theirs).matching).toEqual([
      {
        of: "cruise",
        what: "cruise stretches at a like air flow and engine speed",
        suspect: ["cruise 0.000", "cruise 10.000"],
        reference: ["cruise 0.000", "cruise 20.000"],
      },
    ]);
  });
});

describe("whatever is offered", () => {
  test.each([
    ["lift-off", liftOffs],
    ["idle", (all: readonly Running[]) => stretches("idle", all)],
  ] as const)("compares fairly by itself: %s", (of, made) => {
    fc.assert(
      fc.property(anyRunning, anyRunning, (a, b) => {
        const [mine, theirs] = [made(a), made(b)];
        const { matching } = compareRecordings(mine, theirs);
        if (matching.length === 0) return;
        const taken = compareRecordings(mine, theirs, matching);
        expect(taken.fair.filter(({ ok }) => !ok)).toEqual([]);
        expect(taken.matching).toEqual([]);
        expect(matching[0]!.of).toBe(of);
      }),
    );
  });
});
