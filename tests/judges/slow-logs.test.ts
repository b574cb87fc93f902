// A share of `npm run judge:logs`, and three rides in which the loop came back between two rows, unseen.

import { expect, test } from "vitest";
import { ofTrials } from "../share.ts";
import { delayTrial, type ForeignPlant, ratioTrial } from "./slow-logs.ts";

const share = Array.from({ length: ofTrials(3, 8) }, (_, k): [ForeignPlant, number] => [k % 2 ? "third" : "second", k]);

test("bounds of delays hold the truth in slow logs of foreign plants", async () => {
  const hidden = [
    ["second", 3],
    ["third", 5],
    ["second", 39],
  ] as const;
  const trials = [];
  for (const [plant, number] of [...share, ...hidden]) trials.push(await delayTrial(plant, number));
  const told = trials.flatMap(({ delays }) => delays);
  expect(told.length).toBeGreaterThan(8);
  expect(told.filter(({ isHeld }) => !isHeld)).toEqual([]);
}, 120_000);

test("bounds of crossing ratios hold it", async () => {
  const trials = [];
  for (const [plant, number] of share) trials.push(await ratioTrial(plant, number));
  const told = trials.flatMap(({ told: one }) => one ?? []);
  expect(told.length).toBeGreaterThan(1);
  expect(told.filter(({ isHeld }) => !isHeld)).toEqual([]);
}, 120_000);
