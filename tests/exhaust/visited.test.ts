// Where a recording was under the conditions of a freeze frame: a drive made by hand, so that every span is known.

import { describe, expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { driveThere, visitedInWords } from "../../src/exhaust/conditions/visited-words.ts";
import type { AnalysisChoices } from "../../src/exhaust/terms/analysis.ts";
import type { FrameConditions } from "../../src/exhaust/terms/conditions.ts";
import { remembering } from "../../src/exhaust/terms/remembered.ts";
import { capture, even, square } from "./make.ts";

/** 2,000 rpm from 20 to 50 s; 75 km/h from 30 to 60 s; else idle, standing. */
const drive = capture(
  even("front-o2", 80, 50, square(1)),
  even("rear-o2", 80, 50, square(1, 0.1)),
  even("engine-speed", 80, 4, (t) => (t >= 20 && t < 50 ? 2000 : 800)),
  even("road-speed", 80, 4, (t) => (t >= 30 && t < 60 ? 75 : 0)),
);
const recall = remembering();
const answer = (choices: AnalysisChoices) => analyse(drive, choices, () => {}, recall).visited;
const visited = (frame: FrameConditions) => answer({ frame })!;

describe("the conditions of a freeze frame", () => {
  test("are found for each quantity and for all at once", () => {
    const { quantities, together, total, rear } = visited({ "engine-speed": 2100, "road-speed": 75 });
    expect(quantities.map(({ quantity, told, spans }) => [quantity, told, spans])).toEqual([
      ["engine-speed", "visited", [{ from: 20, to: 50 }]],
      ["road-speed", "visited", [{ from: 30, to: 60 }]],
    ]);
    expect(together).toEqual([{ from: 30, to: 50 }]);
    expect(total).toBe(20);
    // The rear is the front, later: as wide as it.
    expect(rear!.amplitudeRatio!.low!).toBeLessThanOrEqual(1);
    expect(rear!.amplitudeRatio!.high!).toBeGreaterThanOrEqual(1);
  });

  test("told not visited where one lies outside, with the nearest it came", () => {
    const found = visited({ "engine-speed": 3000, "road-speed": 75 });
    expect(found.quantities[0]).toMatchObject({ told: "not-visited", nearest: 2000 });
    expect(found.together).toEqual([]);
    expect(visitedInWords(found)).toContain("never at 3000\u00a0rpm engine speed, 2000\u00a0rpm was the nearest");
  });

  test("told never at once where each alone was", () => {
    const found = visited({ "engine-speed": 2000, "road-speed": 0 });
    expect(found.together).toEqual([{ from: 20, to: 30 }]);
    const idle = visited({ "engine-speed": 800, "road-speed": 75 });
    expect(idle.together).toEqual([{ from: 50, to: 60 }]);
  });

  test("what was not recorded stands aside, named", () => {
    const found = visited({ "engine-speed": 2000, "engine-load": 38 });
    expect(found.quantities[1]!.told).toBe("not-recorded");
    expect(found.together).toEqual([{ from: 20, to: 50 }]);
    expect(visitedInWords(found)).toMatch(/for 30\u00a0s \(20 … 50\u00a0s\)\..* Not recorded: load\.$/);
  });

  test("a short visit keeps its half second, and a swing of nothing is not told", () => {
    const found = visited({ "engine-speed": 2000 });
    const span = { from: 116.5, to: 118 };
    const swing = { value: 0, low: 0, high: null, unit: "V", grade: "at-least" } as const;
    const words = visitedInWords({
      ...found,
      ...{ together: [span], total: 1.5, rear: { span, swing, amplitudeRatio: null, crossingRatio: null } },
    });
    expect(words).toContain("for 1.5\u00a0s");
    expect(words).toContain("the rear cannot be measured");
  });

  test("within the stated tolerance and no further", () => {
    // 375 1/min either way.
    expect(visited({ "engine-speed": 2374 }).total).toBe(30);
    expect(visited({ "engine-speed": 2376 }).total).toBe(0);
    expect(answer({ frame: { "engine-speed": 2376 }, limits: { frameSpeed: 400 } })!.total).toBe(30);
  });

  test("give nothing without a frame", () => expect(answer({})).toBeUndefined());

  test("become a line of the guide", () => {
    const { quantities } = visited({ "engine-speed": 2000, "road-speed": 75, "engine-load": 38 });
    expect(driveThere(quantities)).toMatch(
      /^Drive at 75\u00a0km\/h, 2000\u00a0rpm, 38\u00a0% load: there the code was stored/,
    );
    expect(driveThere([])).toBeNull();
  });
});
