import { expect, test } from "vitest";
import { roomOf } from "../../workers/service/room.ts";

test("what may be held follows the machine's memory", () => {
  expect([0.5, 2, 4, 8, undefined].map((memory) => roomOf(memory) / 2 ** 30)).toEqual([0.125, 0.5, 1, 1.5, 1]);
});
