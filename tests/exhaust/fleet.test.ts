// A small share of the fleet, from the judging seeds, and the table of the whole of it that `npm run full:fleet` writes.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { FleetKind } from "../../sample-traces/simulator/fleet.ts";
import type { FindingId, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { departures, type FleetRow, type FleetTable, judgedCars, ownFinding, rates, tally } from "./fleet-table.ts";

const table = JSON.parse(readFileSync(new URL("../reference/fleet.json", import.meta.url), "utf8")) as FleetTable;

describe("findings over simulated cars", () => {
  let rows: FleetRow[] = [];
  const count = (which: (row: FleetRow) => boolean, id: FindingId, verdict: Verdict) =>
    rows.filter(which).reduce((sum, row) => sum + row.verdicts[id][verdict], 0);
  beforeAll(() => {
    rows = tally(judgedCars(100));
  }, 120_000);

  test("point at no healthy catalyst, whatever else is wrong", () => {
    expect(count(({ catalyst }) => catalyst === "healthy", "catalyst", "points-to")).toBe(0);
  });

  test("point at the dead ones where the recording is fit, and clear none", () => {
    expect(count(({ kind }) => kind === "dead", "catalyst", "points-to")).toBeGreaterThanOrEqual(2);
    expect(count(({ catalyst }) => catalyst === "dead", "catalyst", "points-away")).toBe(0);
  });

  test("are those of which the table of the whole fleet was made", () => {
    expect(departures(rows, table.rows)).toEqual([]);
  });
});

describe("the table of the whole fleet", () => {
  test("holds enough cars of each kind, and every rate that is wanted", () => {
    const cars = (kind: FleetKind) =>
      table.rows.filter((row) => row.kind === kind).reduce((sum, row) => sum + row.cars, 0);
    expect(table.cars).toBeGreaterThanOrEqual(800);
    for (const kind of ["healthy", "dead"] as const) expect(cars(kind)).toBeGreaterThanOrEqual(250);
    for (const kind of Object.keys(ownFinding) as FleetKind[]) expect(cars(kind)).toBeGreaterThanOrEqual(50);
    expect(rates(table.rows).filter(({ holds }) => !holds)).toEqual([]);
  });
});
