// Differences by where they stand: a made-up comparison, told and untold, of every group.

import { expect, test } from "vitest";
import { groupedDifferences } from "../../src/app/comparing/difference-groups.ts";
import type { Difference, Told } from "../../src/exhaust/comparing/comparison.ts";
import { measured, notResolvable } from "../../src/signal/numbers/reading.ts";

const one = (reading: string, told: Told, ratio: readonly [number, number]): Difference => ({
  ...{ reading, label: reading, told, says: told, fair: true },
  suspect: measured(1, [0.9, 1.1], "V"),
  reference: measured(1, [0.9, 1.1], "V"),
  ratio: measured((ratio[0] + ratio[1]) / 2, ratio, "1"),
  difference: notResolvable("V", "see the ratio"),
});

test("stand in their group, the most telling first, what is not told apart folded, the delay always shown", () => {
  const grouped = groupedDifferences([
    one("cruise.front.amplitude", "not-told-apart", [0.9, 1.1]),
    one("delay", "not-told-apart", [0.5, 1.5]),
    one("cruise.rear.amplitude", "higher", [1.2, 1.4]),
    one("rearSwitch", "shorter", [0.2, 0.3]),
    one("storedOxygen", "lower", [0.1, 0.2]),
    one("cruise.amplitudeRatio", "not-told-apart", [0.8, 1.3]),
  ]);
  const names = (all: readonly Difference[]) => all.map(({ reading }) => reading);
  expect(grouped.map(({ group, shown, folded }) => [group, names(shown), names(folded)])).toEqual([
    ["Delay and store", ["delay", "storedOxygen"], []],
    ["Rear", ["rearSwitch", "cruise.rear.amplitude"], ["cruise.amplitudeRatio"]],
    ["Front", [], ["cruise.front.amplitude"]],
  ]);
});

test("shows three of a group, and folds the less telling ones ahead of what is not told apart", () => {
  const told = [5, 2, 4, 3].map((ratio) => one(`${ratio}.rear.amplitude`, "higher", [ratio, ratio + 1]));
  const [rear] = groupedDifferences([...told, one("cruise.amplitudeRatio", "not-told-apart", [0.8, 1.3])]);
  expect(rear!.shown.map(({ reading }) => reading[0])).toEqual(["5", "4", "3"]);
  expect(rear!.folded.map(({ reading }) => reading)).toEqual(["2.rear.amplitude", "cruise.amplitudeRatio"]);
});

test("leaves out what stands in neither as a ratio nor as a difference", () => {
  const unknown = { ...one("delay", "not-told-apart", [1, 1]), ratio: notResolvable("1", "no lift-off") };
  expect(groupedDifferences([unknown])).toEqual([]);
});

test("put a group that tells the two apart before one that is not fair", () => {
  const unfair = { ...one("delay", "not-told-apart", [0.5, 1.5]), fair: false };
  const grouped = groupedDifferences([unfair, one("cruise.rear.amplitude", "higher", [1.2, 1.4])]);
  expect(grouped.map(({ group, shown, folded }) => [group, shown.length, folded.length])).toEqual([
    ["Rear", 1, 0],
    ["Delay and store", 0, 1],
  ]);
});
