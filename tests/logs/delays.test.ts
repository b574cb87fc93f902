// A share of the delays of `npm run full:logs`.

import { expect, test } from "vitest";
import { delayTrial } from "./delays.ts";

test("bounds of delays hold the truth in slow logs, and no lift-off is invented", async () => {
  const trials = [];
  for (let k = 0; k < 10; k++) trials.push(await delayTrial(k));
  const told = trials.flatMap((trial) => trial.told);
  expect(told.length).toBeGreaterThan(12);
  // 95 % of 13 to 40, less what chance takes (binomial, one in a hundred).
  expect(told.filter(({ isHeld }) => !isHeld).length).toBeLessThanOrEqual(4);
  expect(trials.reduce((sum, { invented }) => sum + invented, 0)).toBe(0);
}, 180_000);
