// How a reference is drawn under a suspect: nothing is resampled, and the difference never says more than is known.

import { describe, expect, test } from "vitest";
import { bandOf, differenceLine, middleLine } from "../../src/app/comparing/difference-line.ts";
import { laidAt, withReference } from "../../src/app/comparing/reference-layer.ts";
import { linesOf } from "../../src/drawing/layer.ts";
import type { LaneLook } from "../../src/plot/stage/types.ts";
import { summary } from "./fake-service.ts";

const line = (times: number[], values: number[], dense = false) => ({
  times: Float64Array.from(times),
  values: Float64Array.from(values),
  dense,
});

describe("laying under", () => {
  test("tells the reference's samples later by the shift, and leaves values and number as they are", () => {
    const window = { channelId: "c2", ...line([0, 0.5, 1], [0.1, NaN, 0.9]) };
    const [laid] = laidAt([window], 2.25);
    expect([...laid!.times]).toEqual([2.25, 2.75, 3.25]);
    expect(laid!.values).toBe(window.values);
    expect(laid!.channelId).not.toBe(window.channelId);
  });

  test("puts it dashed in the same lane, or in a lane below on the same scale or its own", () => {
    const lane: LaneLook = {
      ...{ id: "l", title: "Oxygen sensors", unit: "V", scale: "fit", share: 2, guides: [0.45] },
      layers: [{ form: "line", source: "own", channelId: "c2", label: "Rear", unit: "V", look: "rear" }],
    };
    const [mine, theirs] = [line([0, 1], [0, 0.5]), line([0, 1], [0.2, 1])];
    const windows = new Map([
      ["c2", { channelId: "c2", ...mine }],
      ["reference c2", { channelId: "reference c2", ...theirs }],
    ]);
    const seen = { windows: () => windows, span: () => ({ from: 0, to: 1 }), paper: null };
    const rule = { name: "good", counterparts: new Map([["c2", summary.channels[1]!]]), seen };
    const settings = { place: "behind", scale: "common", difference: false } as const;
    const draw = (change: object) => withReference([lane], { ...rule, settings: { ...settings, ...change } });
    const [behind] = draw({});
    expect(linesOf(behind!).map(({ source, look, stroke, isBehind }) => [source, look, stroke, isBehind])).toEqual([
      ["own", "rear", undefined, undefined],
      ["reference", "rear", "dashed", true],
    ]);
    const common = draw({ place: "below" });
    expect(common).toHaveLength(2);
    expect(common[0]!.scale).toEqual(common[1]!.scale);
    expect(draw({ place: "below", scale: "each" }).map(({ scale }) => scale)).toEqual(["fit", "fit"]);
  });
});

test("a line of columns goes through their middles, and keeps their gaps", () => {
  const { times, values, dense } = middleLine(line([0, 0, 1, 1, 2, 2], [0.1, 0.3, NaN, NaN, 0.4, 0.8], true));
  expect([dense, ...times]).toEqual([false, 0, 1, 2]);
  expect(values[0]).toBeCloseTo(0.2, 12);
  expect(values[1]).toBeNaN();
  expect(values[2]).toBeCloseTo(0.6, 12);
  const samples = line([0, 1], [0.5, 0.7]);
  expect(middleLine(samples).values).toBe(samples.values);
});

describe("differenceLine", () => {
  test("of samples stands at the suspect's, the reference between its neighbours", () => {
    const found = differenceLine(line([0, 1, 2, 3], [1, 1, 1, 1]), line([0.5, 2.5], [0, 2]));
    expect([...found.values]).toEqual([NaN, 0.5, -0.5, NaN]);
  });

  test("of pixel columns holds every difference that the samples may have", () => {
    const a = line([0, 0, 1, 1], [0.2, 0.4, 0.3, 0.6], true);
    const b = line([0, 0, 1, 1], [0.1, 0.3, 0, 0.2], true);
    const { values, dense } = differenceLine(a, b);
    expect(dense).toBe(true);
    for (const [k, [mine, theirs]] of [
      [
        [0.2, 0.4],
        [0.1, 0.3],
      ],
      [
        [0.3, 0.6],
        [0, 0.2],
      ],
    ].entries()) {
      expect(values[2 * k]!).toBeLessThanOrEqual(mine![0]! - theirs![1]!);
      expect(values[2 * k + 1]!).toBeGreaterThanOrEqual(mine![1]! - theirs![0]!);
    }
  });
});

test("a band is median and 5 to 95 % (NumPy's linear percentiles by hand), and a gap where fewer than two have a value", () => {
  const lines = [0, 1, 2, 3, 4].map((level) => line([0, level < 4 ? 1 : 10], [level, level]));
  const { low, middle, high } = bandOf(lines, [0, 8], 3);
  // numpy.percentile([0, 1, 2, 3, 4], [5, 50, 95]) = 0.2, 2, 3.8.
  expect([low[0], middle[0], high[0]].map((v) => v!.toFixed(9))).toEqual(["0.200000000", "2.000000000", "3.800000000"]);
  expect(low[1]).toBeNaN();
});
