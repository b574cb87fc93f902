// When a swing may hide between samples: by the sampling theorem's closed form, and where nothing tells the step.

import { expect, test } from "vitest";
import { mayBeFolded } from "../../src/exhaust/findings/folded-rows.ts";
import type { FindingScene } from "../../src/exhaust/findings/scene.ts";
import { mayFold } from "../../src/exhaust/terms/folded.ts";

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
