// A small share of the fleet, one of each kind, from the judging seeds. `npm run full:fleet` judges all of it.

import { beforeAll, describe, expect, test } from "vitest";
import type { FindingId, Verdict } from "../../src/exhaust/terms/analysis.ts";
import { ofTrials } from "../share.ts";
import { type FleetRow, judgedCars, tally } from "./fleet-table.ts";

describe("findings over simulated cars", () => {
  let rows: FleetRow[] = [];
  const count = (which: (row: FleetRow) => boolean, id: FindingId, verdict: Verdict) =>
    rows.filter(which).reduce((sum, row) => sum + row.verdicts[id][verdict], 0);
  beforeAll(() => {
    rows = tally(judgedCars(ofTrials(260, 100)));
  }, 120_000);

  test("point at no healthy catalyst, whatever else is wrong", () => {
    expect(count(({ catalyst }) => catalyst === "healthy", "catalyst", "points-to")).toBe(0);
  });

  test("point at a dead one where the recording is fit, and clear none", () => {
    expect(count(({ kind }) => kind === "dead", "catalyst", "points-to")).toBeGreaterThanOrEqual(1);
    expect(count(({ catalyst }) => catalyst === "dead", "catalyst", "points-away")).toBe(0);
  });
});
