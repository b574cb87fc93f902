// The committed table of the judges is what its own rows say, its rows are what the plants make, and what the program says today is not
// worse. All of it judged anew by npm run judge:store, a share by npm run long:judge.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { operatingCurve } from "./curve.ts";
import { missesOf, ratesOf, storeHeld } from "./rates.ts";
import { asPage, changed, entries, plantsOf, readTable, worse } from "./table.ts";
import { judge, type Row } from "./verdict.ts";

const table = readTable();
const file = (name: string) => readFileSync(join(import.meta.dirname, name), "utf8");

test("page and picture are made from the table's rows", () => {
  expect(file("store-judge.md")).toBe(asPage(table));
  expect(file("operating-curve.svg")).toBe(operatingCurve(table));
});

test("the table holds every kind of each half, scopes and logs", () => {
  const name = ({ plant, kind, number }: Pick<Row, "plant" | "kind" | "number">) => `${plant} ${kind} ${number}`;
  const present = new Set(table.map(name));
  expect(
    entries(0.01, plantsOf(table))
      .map(name)
      .filter((one) => !present.has(one)),
  ).toEqual([]);
  for (const recorder of ["scope", "log"])
    expect(table.filter((row) => row.recorder === recorder).length).toBeGreaterThan(25);
});

test("a fit accuses nobody in a recording of which nothing else can be judged", async () => {
  const { catalyst, pointing } = await judge("first", "healthy", 37);
  expect(pointing).toContain("recording");
  expect(catalyst).toBe("cannot-say");
});

test("nor where no fuel was cut and the rear stays calm in steady running, and it does where cuts and a busy rear say the same", async () => {
  expect((await judge("first", "healthy", 42)).catalyst).toBe("cannot-say");
  expect((await judge("first", "dead", 48)).catalyst).toBe("points-to");
}, 60_000);

describe("a few of them judged anew", () => {
  const few = [
    { plant: "first", kind: "dead", number: 1 },
    { plant: "first", kind: "too-short", number: 1 },
    { plant: "second", kind: "healthy", number: 0 },
    { plant: "second", kind: "dead", number: 1 },
    { plant: "second", kind: "idle-only", number: 0 },
  ] as const;
  let rows: Row[] = [];
  beforeAll(async () => {
    for (const { plant, kind, number } of few) rows = [...rows, await judge(plant, kind, number)];
  }, 240_000);

  test("are the recordings that the table speaks of", () => {
    expect(changed(rows, table)).toEqual([]);
  });

  test("are judged no worse than the table says", () => {
    expect(worse(rows, table)).toEqual([]);
  });
});

describe("the judge itself", () => {
  const row: Row = {
    plant: "first",
    kind: "healthy",
    number: 1,
    recorder: "scope",
    rate: 200,
    fit: true,
    store: 1,
    usable: 0.8,
    largestOffer: 2,
    catalyst: "points-away",
    pointing: [],
    told: null,
    bounds: null,
  };
  const dead: Row = { ...row, kind: "dead", store: 0.05, usable: 0.01 };

  test("finds a wrong accusation, a cleared dead one, and bounds beside the truth", () => {
    expect(missesOf(row)).toEqual([]);
    expect(missesOf({ ...row, catalyst: "points-to" })).toEqual(["accused"]);
    expect(missesOf(dead)).toEqual(["cleared a dead one"]);
    expect(missesOf({ ...row, bounds: [1.2, 2] })).toEqual(["store 1.2 to 2 g, truth 0.80 to 1.0 g"]);
    expect(missesOf({ ...row, fit: false })).toEqual(["points-away although not fit"]);
  });

  test("takes bounds for right that reach into what lies between usable and all", () => {
    expect(storeHeld({ ...row, bounds: [0.5, 0.85] })).toBe(true);
    expect(storeHeld({ ...row, bounds: [0.9, null] })).toBe(true);
    expect(storeHeld({ ...row, bounds: [0.2, 0.7] })).toBe(false);
    expect(storeHeld({ ...row, bounds: [1.1, null] })).toBe(false);
  });

  test("calls an answer worse where it newly accuses, not where it newly hesitates", () => {
    expect(worse([{ ...row, catalyst: "points-to" }], [row])).toEqual(["first healthy 1: accused"]);
    expect(worse([{ ...row, catalyst: "cannot-say" }], [row])).toEqual([]);
    expect(worse([{ ...row, number: 3 }], [row])).toEqual(["first healthy 3: not in the table"]);
  });

  test("sees a table whose truth was changed", () => {
    expect(changed([row], [{ ...row, store: 0.9 }])).toEqual(["first healthy 1"]);
  });

  test("counts a rate by hand: one accused of two", () => {
    const rates = ratesOf([row, { ...row, number: 3, catalyst: "points-to" }]);
    const accused = rates.find(
      ({ half, recorder, name }) =>
        half === "first plant, judge" && recorder === "scope" && /^healthy .*pointed at/.test(name),
    )!;
    expect([accused.hits, accused.of, accused.holds]).toEqual([1, 2, false]);
    // Clopper and Pearson for 1 of 2: sqrt(0.975) and 1 less that.
    expect(accused.low).toBeCloseTo(1 - Math.sqrt(0.975), 6);
    expect(accused.high).toBeCloseTo(Math.sqrt(0.975), 6);
  });
});
