// The long run over odd logs can fail: each of its rates, and a run that shows nothing.

import { expect, test } from "vitest";
import type { DelayTrial } from "./delays.ts";
import type { FoldedTrial } from "./folded.ts";
import { holds, sumOf } from "./holding.ts";

const tally = { right: 97, asked: 1, refused: 1, wrong: 1 };
const trial = (held: number, missed: number) =>
  ({
    told: [...Array(held).fill(true), ...Array(missed).fill(false)].map((isHeld) => ({ isHeld })),
  }) as unknown as DelayTrial;
const pair = (isFalse: boolean, accused: readonly string[] = []): FoldedTrial => ({ isNear: true, isFalse, accused });
const sound = Array.from({ length: 20 }, (_, i) => pair(i === 0));

test("it holds up to one wrong file in a hundred, one missed delay and one false pair in twenty", () => {
  expect(sumOf([tally, tally])).toEqual({ made: 200, wrong: 2 });
  expect(holds([tally], [trial(19, 1)], sound)).toBe(true);
});

test.each([
  ["a wrong file more", [{ ...tally, right: 95, wrong: 2 }], [trial(19, 1)], sound],
  ["a delay missed more", [tally], [trial(18, 2)], sound],
  ["a false pair more", [tally], [trial(19, 1)], sound.map((one, i) => pair(i < 2 || one.isFalse))],
  ["an accusation", [tally], [trial(19, 1)], [...sound, pair(false, ["the catalyst"])]],
  ["no file", [], [trial(19, 1)], sound],
  ["no delay told", [tally], [trial(0, 0)], sound],
  ["no pair", [tally], [trial(19, 1)], []],
])("it does not with %s", (_, tallies, trials, folded) => expect(holds(tallies, trials, folded)).toBe(false));
