// What is typed into the box that goes somewhere.

import { describe, expect, test } from "vitest";
import { matching, timeFrom } from "../../src/app/going/destinations.ts";

const all = [
  "Lift-off 1, at 31.2 s",
  "Lift-off 2, at 44.9 s",
  "Rear wakes, at 12.0 s",
  "Cruise, 83.0 s to 108.2 s",
].map((label) => ({ label, go: () => {} }));
const found = (typed: string) => matching(all, typed).map(({ label }) => label);

describe("words", () => {
  test.each([
    ["cruise", ["Cruise, 83.0 s to 108.2 s"]],
    ["lift-off 2", ["Lift-off 2, at 44.9 s"]],
    ["liftoff", []],
    ["LIFT", ["Lift-off 1, at 31.2 s", "Lift-off 2, at 44.9 s"]],
    ["rear wakes", ["Rear wakes, at 12.0 s"]],
    ["wakes rear", ["Rear wakes, at 12.0 s"]],
    ["engine", []],
  ])("%j", (typed, labels) => expect(found(typed)).toEqual(labels));

  test("none yet: all destinations", () => expect(found("  ")).toHaveLength(all.length));
});

describe("times", () => {
  test.each([
    ["120", 120],
    ["120 s", 120],
    ["120,5s", 120.5],
    ["2:03", 123],
    ["2:03.5", 123.5],
    ["2 min", 120],
    ["-3", -3],
    ["cruise", null],
    ["lift-off 2", null],
    ["", null],
    ["2 h", null],
  ])("%j is %j s", (typed, seconds) => expect(timeFrom(typed)).toBe(seconds));
});
