// When a swing may hide between samples: by the sampling theorem's closed form, and where nothing tells the step.

import { expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { mayBeFolded } from "../../src/exhaust/findings/folded-rows.ts";
import type { FindingScene } from "../../src/exhaust/findings/scene.ts";
import { mayFold } from "../../src/exhaust/terms/folded.ts";
import { capture, even } from "./make.ts";

const limits = { fastestFront: 5 };
const rows = (step: number, count: number) => ({
  time: { kind: "even", start: 0, step, count } as const,
  samples: new Float64Array(count),
});

/** A recording of a front sensor in which no lift-off was found. */
const scene = (step: number, count: number) =>
  ({
    channels: { front: { series: rows(step, count) } },
    measured: { liftOffs: [] },
    limits,
  }) as unknown as FindingScene;

// A swing of 5 Hz takes 0.2 s.
test.each([
  [0.1, 100, false],
  [0.2, 100, false],
  [0.21, 100, true],
  [0.1, 1, true],
])("rows %d s apart, %i of them", (step, count, isHidden) => {
  expect(mayFold(rows(step, count), limits)).toBe(isHidden);
  expect(mayBeFolded(scene(step, count))).toBe(isHidden);
});

// 5 rows/s meet a swing of 4.99 Hz at one part of it after the other: by the sampling theorem as one of 0.01 Hz would look.
test("a front nearly in step with its rows is neither slow nor on one side, however short the part", () => {
  const front = (t: number) => 0.45 + 0.38 * Math.max(-1, Math.min(1, 2 * Math.sin(2 * Math.PI * 4.99 * t)));
  const { findings } = analyse(
    capture(
      even("front-o2", 220, 5, front),
      even("rear-o2", 220, 5, (t) => 0.7 + 0.02 * Math.sin(t / 9)),
      even("engine-speed", 220, 5, (t) => 2000 + 9 * Math.sin(t)),
      even("coolant-temp", 220, 5, () => 89),
      even("short-trim", 220, 5, (t) => 2 * Math.sin(t)),
      even("long-trim", 220, 5, () => 1.5),
    ),
  );
  const accused = findings.filter(({ id, verdict }) => verdict === "points-to" && id !== "recording");
  expect(accused.map(({ statement }) => statement)).toEqual([]);
});
