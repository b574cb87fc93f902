// Pairs of true and sampled rates, near-synchronous ones among them: nothing slow is claimed of a swing that may be fast.

import { expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { random } from "../reference/recorders.ts";
import { ofTrials } from "../share.ts";
import { foldedTrial, someFolded } from "./folded.ts";

/** A share of the 200 of `npm run full:logs`, and three of them in which a fit, or a lean spell that is none, accused a sensor or a leak. */
const share = Array.from({ length: ofTrials(5, 17) }, (_, k) => k);
const pairs = [...share, 36, 74, 152];

test("a folded swing is measured falsely in at most 5 % of pairs, and accuses nothing", () => {
  const trials = pairs.map(foldedTrial);
  expect(trials.flatMap(({ accused }) => accused)).toEqual([]);
  expect(trials.filter(({ isFalse }) => isFalse).length).toBeLessThanOrEqual(0.05 * pairs.length);
}, 180_000);

test("a lean spell that a fast swing may have made is no lift-off where nothing else moves", () => {
  const { liftOffs, liftOff } = analyse(someFolded(random(336), 36).capture, { bank: 1 });
  expect(liftOffs.filter(({ rejected }) => rejected === null)).toEqual([]);
  expect(liftOff).toBeNull();
});
