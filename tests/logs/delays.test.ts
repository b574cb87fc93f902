// A share of the delays of `npm run full:logs`.

import { expect, test } from "vitest";
import { delayTrial } from "./delays.ts";

test("bounds of delays hold the truth in slow logs, and no lift-off is invented", async () => {
  const trials = [];
  for (let k = 0; k < 14; k++) trials.push(await delayTrial(k));
  const told = trials.flatMap((trial) => trial.told);
  expect(told.length).toBeGreaterThan(20);
  // 95 % of 21 to 56, less what chance takes (binomial, one in a hundred).
  expect(told.filter(({ isHeld }) => !isHeld).length).toBeLessThanOrEqual(5);
  expect(trials.reduce((sum, { invented }) => sum + invented, 0)).toBe(0);
});
