// Parts offered where the whole does not compare: whatever is offered compares fairly itself.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Comparable } from "../../src/exhaust/comparison.ts";
import { judgeFairness, matchingLiftOffs } from "../../src/exhaust/fairness.ts";
import { limitsInForce } from "../../src/exhaust/limits.ts";
import { recording as made } from "./comparables.ts";

const limits = limitsInForce({});
const recording = (events: readonly (readonly [airFlow: number, engineSpeed: number])[]) =>
  made(
    "",
    events.map(([airFlow, engineSpeed]) => ({ airFlow, engineSpeed })),
  );

const only = (side: Comparable, ids: readonly string[]) => ({
  ...side,
  liftOffs: side.liftOffs.filter(({ id }) => ids.includes(id)),
});

describe("matching lift-offs", () => {
  // By hand: 5 against 20 g/s never compare; of 5, 6 and 20 against 19 and 21 only the last do.
  test("are those at a like flow, and none where no flows are alike", () => {
    expect(matchingLiftOffs(recording([[5, 2000]]), recording([[20, 2000]]), limits)).toBeNull();
    const [mine, theirs] = [
      recording([
        [5, 2000],
        [6, 2000],
        [20, 2000],
      ]),
      recording([
        [19, 2100],
        [21, 2000],
      ]),
    ];
    expect(matchingLiftOffs(mine, theirs, limits)).toMatchObject({ suspect: ["2"], reference: ["0", "1"] });
  });

  test("compare fairly by themselves, whatever the recordings hold", () => {
    const events = fc.array(
      fc.tuple(fc.double({ min: 2, max: 40, noNaN: true }), fc.integer({ min: 900, max: 4000 })),
      {
        minLength: 1,
        maxLength: 6,
      },
    );
    fc.assert(
      fc.property(events, events, (a, b) => {
        const [mine, theirs] = [recording(a), recording(b)];
        const match = matchingLiftOffs(mine, theirs, limits);
        if (!match) return;
        const judged = judgeFairness(only(mine, match.suspect), only(theirs, match.reference), limits);
        expect(judged.against.get("lift-off")).toBeUndefined();
      }),
    );
  });
});
