// A fixed share of the fleet, from the judging seeds; the whole of it by npm run long:fleet.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { FleetKind } from "../../sample-traces/simulator/fleet.ts";
import type { FindingId, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { type FleetRow, judgedCars, ownFinding, type Rate, rates, tally } from "./fleet-table.ts";

const share: Partial<Record<FleetKind, number>> = {
  healthy: 3,
  dead: 3,
  "slow-front": 1,
  "lazy-rear": 1,
  "rear-asleep": 1,
  "leak-ahead": 1,
  "dead-behind-lazy-rear": 1,
  "polled-too-slow": 1,
  cold: 1,
  "idle-only": 1,
  "too-short": 1,
};

describe("findings over simulated cars", () => {
  let rows: FleetRow[] = [];
  const count = (which: (row: FleetRow) => boolean, id: FindingId, verdict: Verdict) =>
    rows.filter(which).reduce((sum, row) => sum + row.verdicts[id][verdict], 0);
  beforeAll(() => {
    rows = tally(judgedCars(share));
  }, 120_000);

  test("point at no healthy catalyst, whatever else is wrong", () => {
    expect(count(({ catalyst }) => catalyst === "healthy", "catalyst", "points-to")).toBe(0);
  });

  test("point at the dead ones where the recording is fit", () => {
    expect(count(({ kind }) => kind === "dead", "catalyst", "points-to")).toBe(3);
  });

  test("never clear a dead catalyst", () => {
    expect(count(({ catalyst }) => catalyst === "dead", "catalyst", "points-away")).toBe(0);
  });

  test("cannot say where the recording is not fit", () => {
    const unfit = (row: FleetRow) => !row.fit && !ownFinding[row.kind];
    const cars = rows.filter(unfit).reduce((sum, row) => sum + row.cars, 0);
    expect(count(unfit, "catalyst", "cannot-say")).toBe(cars);
  });
});

describe("the committed table of the whole fleet", () => {
  const table = JSON.parse(readFileSync(new URL("../reference/fleet.json", import.meta.url), "utf8")) as {
    cars: number;
    rates: Rate[];
    rows: FleetRow[];
  };

  test("holds enough cars of each kind, and every rate", () => {
    const cars = (kind: FleetKind) =>
      table.rows.filter((row) => row.kind === kind).reduce((sum, row) => sum + row.cars, 0);
    expect(table.cars).toBeGreaterThanOrEqual(800);
    for (const kind of ["healthy", "dead"] as const) expect(cars(kind)).toBeGreaterThanOrEqual(250);
    for (const kind of Object.keys(ownFinding) as FleetKind[]) expect(cars(kind)).toBeGreaterThanOrEqual(50);
    expect(rates(table.rows)).toEqual(table.rates);
    expect(table.rates.filter(({ holds }) => !holds)).toEqual([]);
  });
});
