// A fixed share of the long judgement (npm run full:pairs): every claim is held to the simulator's truth.

import { describe, expect, test } from "vitest";
import { ofTrials } from "../share.ts";
import { judgePair } from "./pair-judge.ts";

describe("a comparison", () => {
  test.each([1, 2].slice(0, ofTrials(1, 2)))(
    "does not tell one catalyst from itself, other noise, rate and drive (%i)",
    (seed) => {
      const { held, leadTold, toldShare, comparison } = judgePair("identical", seed);
      expect(held).toEqual([true, true]);
      expect(leadTold).toBe(false);
      expect(toldShare).toBeLessThanOrEqual(0.05);
      expect(comparison.fair.filter(({ ok }) => !ok)).toEqual([]);
    },
  );

  test.each([1])("tells a smaller store, by a ratio whose bounds hold the truth (%i)", (seed) => {
    const { held, widths, comparison } = judgePair("different", seed);
    expect(held).toEqual([true, true]);
    expect(Math.max(...widths)).toBeLessThan(0.6);
    const told = comparison.differences.slice(0, 2).map(({ reading, told }) => [reading, told]);
    expect(told).toEqual([
      ["delay", "shorter"],
      ["storedOxygen", "lower"],
    ]);
    expect(comparison.says).toMatch(/^Clearly less oxygen/);
  });

  test.each([0, 2].slice(0, ofTrials(1, 2)))("says first that far more air makes a comparison unfair (%i)", (seed) => {
    const { unfair, leadTold, comparison } = judgePair("unfair", seed);
    expect(unfair).toBe(true);
    expect(leadTold).toBe(false);
    expect(comparison.says).toMatch(/^Not a fair comparison: air flow in the fuel cut/);
    expect(comparison.repair.told).toBe("not-proved");
  });
});
