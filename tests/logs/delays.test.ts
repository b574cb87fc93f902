// A share of the delays of `npm run full:logs`.

import { expect, test } from "vitest";
import { ofTrials } from "../share.ts";
import { delayTrial } from "./delays.ts";

test("bounds of delays hold the truth in slow logs, and no lift-off is invented", async () => {
  const trials = [];
  const count = ofTrials(6, 10);
  for (let k = 0; k < count; k++) trials.push(await delayTrial(k));
  const told = trials.flatMap((trial) => trial.told);
  expect(told.length).toBeGreaterThan(1.2 * count);
  // 95 % of 8 to 24, or of 13 to 40, less what chance takes (binomial, one in a hundred).
  expect(told.filter(({ isHeld }) => !isHeld).length).toBeLessThanOrEqual(ofTrials(3, 4));
  expect(trials.reduce((sum, { invented }) => sum + invented, 0)).toBe(0);
}, 180_000);
