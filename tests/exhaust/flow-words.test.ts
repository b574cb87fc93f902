// The flow picture in a sentence: said anew in the units in force, from points that stay as they were measured.

import { afterEach, expect, test } from "vitest";
import { flowInWords } from "../../src/exhaust/activity/flow-words.ts";
import type { FlowPoint } from "../../src/exhaust/terms/analysis.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";

afterEach(() => writeAs(plainWriting));

const point = (at: number, swing: number): FlowPoint => ({
  ...{ kind: "cruise", origin: "found", from: 0, to: 10, at },
  amplitudeRatio: measured(swing, [swing - 0.05, swing + 0.05], "1"),
  crossingRatio: measured(swing, [0, 1], "1"),
});
const along = { role: "air-flow", unit: "g/s" } as const;

test("tells a rear that lets go at high flow, in the unit of flow that was chosen", () => {
  const picture = { along, points: [point(15.12, 0.8), point(3, 0.1)] };
  expect(flowInWords(picture)).toMatch(/^It holds at low flow and lets go at high flow: .*10\s% .* 3\sg\/s and 80\s% /);
  writeAs({ ...plainWriting, airFlow: "lb/min" });
  // 15.12 g/s x 60 / 453.59237 g (the avoirdupois pound, NIST SP 811) = 2.000 lb/min.
  expect(flowInWords(picture)).toMatch(/80\s% at 2(\.0+)?\slb\/min/);
});

test("says what would show it, and nothing of one flow alone", () => {
  expect(flowInWords({ along: null, points: [] })).toContain("Record air flow");
  expect(flowInWords({ along, points: [] })).toBe("No steady running that could be judged.");
  expect(flowInWords({ along, points: [point(5, 0.3), point(6, 0.4)] })).toMatch(/^All points lie near 5\sg\/s/);
  expect(flowInWords({ along, points: [point(5, 0.3), point(15, 0.4)] })).toMatch(/^From low to high flow/);
});
