// Pairs of true and sampled rates, near-synchronous ones among them: nothing slow is claimed of a swing that may be fast.

import { expect, test } from "vitest";
import { foldedTrial } from "./folded.ts";

/** A share of the 200 of `npm run full:logs`. */
const pairs = 20;

test("a folded swing is measured falsely in at most 5 % of pairs, and accuses nothing", () => {
  const trials = Array.from({ length: pairs }, (_, k) => foldedTrial(k));
  expect(trials.flatMap(({ accused }) => accused)).toEqual([]);
  expect(trials.filter(({ isFalse }) => isFalse).length).toBeLessThanOrEqual(0.05 * pairs);
}, 180_000);
