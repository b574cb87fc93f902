// A crowded line as an outline: it covers what the stroke would cover, and nothing across a gap.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coverColumns, dashesAlong, drawBand } from "../../src/drawing/band.ts";
import { textPen } from "../../src/drawing/paths.ts";

const one = { offset: 0, factor: 1 };
const shape = { left: 0, columns: 10, thickness: 2 };
const line = (times: number[], values: number[]) => ({
  times: Float64Array.from(times),
  values: Float64Array.from(values),
  dense: false,
});

describe("coverColumns", () => {
  // By hand: from (0.5, 0) to (2.5, 20) the line rises 10 per pixel.
  test("holds of each column what the line does there", () => {
    const { top, bottom } = coverColumns(line([0.5, 2.5], [0, 20]), one, one, shape);
    expect([...top].slice(0, 4)).toEqual([0, 5, 15, Number.POSITIVE_INFINITY]);
    expect([...bottom].slice(0, 4)).toEqual([5, 15, 20, Number.NEGATIVE_INFINITY]);
  });

  test("holds every sample in sight, whatever lies outside", () => {
    const points = fc.array(
      fc.tuple(fc.double({ min: -5, max: 15, noNaN: true }), fc.double({ min: -9, max: 9, noNaN: true })),
      {
        minLength: 1,
      },
    );
    fc.assert(
      fc.property(points, (unsorted) => {
        const sorted = [...unsorted].sort((a, b) => a[0] - b[0]);
        const { top, bottom } = coverColumns(
          line(
            sorted.map((p) => p[0]),
            sorted.map((p) => p[1]),
          ),
          one,
          one,
          shape,
        );
        for (const [x, y] of sorted.filter(([at]) => at >= 0 && at < 10)) {
          expect(top[Math.floor(x)]).toBeLessThanOrEqual(y + 1e-9);
          expect(bottom[Math.floor(x)]).toBeGreaterThanOrEqual(y - 1e-9);
        }
        for (let c = 0; c < 10; c++) if (top[c]! <= bottom[c]!) expect(bottom[c]).toBeLessThanOrEqual(9 + 1e-9);
      }),
      // Two samples closer together than numbers tell.
      { examples: [[[[-5e-324, -0.5] as [number, number], [0, 9] as [number, number]]]] },
    );
  });

  test("leaves the columns of a gap empty", () => {
    const { top } = coverColumns(line([1, 2, 3, 6, 7], [1, 1, Number.NaN, 1, 1]), one, one, shape);
    expect([3, 4, 5].map((c) => top[c])).toEqual([Infinity, Infinity, Infinity]);
    expect([1, 2, 6, 7].map((c) => top[c])).toEqual([1, 1, 1, 1]);
  });
});

describe("drawBand", () => {
  // By hand: dashes of 6 in 10 leave no part of a fall unseen for more than 4 pixels, wherever it stands.
  test.each([20, 23, 27])("keeps a dashed line's steep fall in sight at column %i", (at) => {
    const fall = line([0, at, at + 0.3, 50], [10, 10, 110, 110]);
    const rows = new Set<number>();
    const pen = { moveTo: () => {}, lineTo: (_: number, y: number) => rows.add(y) };
    drawBand(fall, one, one, { left: 0, columns: 50, thickness: 2, dash: [6, 4] }, { pen });
    const ends = [...rows].filter((y) => y > 12 && y < 108).sort((a, b) => a - b);
    const gaps = ends.map((y, k) => y - (ends[k - 1] ?? 12));
    expect(ends.length).toBeGreaterThan(15);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(6);
  });

  test("hands stretches that cover whole areas over as bars, a column each, as thick as asked", () => {
    // Up and down by 100 px in every column up to 50, then flat.
    const times = Array.from({ length: 200 }, (_, i) => i / 2);
    const zigzag = line(
      times,
      times.map((time, i) => (time < 50 ? 100 * (i % 2) : 0)),
    );
    const [pen, bars] = [textPen(), [] as [number, number, number][]];
    drawBand(zigzag, one, one, { ...shape, columns: 100 }, { pen, bar: (...bar) => bars.push(bar) });
    const xs = [...pen.text().matchAll(/[ML](\S+)/g)].map((match) => Number(match[1]));
    const lefts = bars.map(([left]) => left);
    expect(lefts.slice(0, 50)).toEqual(Array.from({ length: 50 }, (_, i) => i));
    expect(Math.max(...lefts)).toBeLessThan(62);
    expect(Math.max(...xs)).toBeGreaterThan(99);
    // By hand: each column goes from 0 to 100, and the line is 2 thick.
    for (const [left, top, height] of bars) if (left < 49) expect([top, height]).toEqual([-1, 102]);
  });

  test("draws one ring per run, as thick as asked", () => {
    const pen = textPen();
    drawBand(line([1, 2, 3, 6], [5, 5, Number.NaN, 5]), one, one, shape, { pen });
    expect(pen.text()).toBe(
      "M0.5 4.0L1.0 4.0L2.0 4.0L3.0 4.0L3.5 4.0L3.5 6.0L3.0 6.0L2.0 6.0L1.0 6.0L0.5 6.0M5.5 4.0L6.0 4.0L7.0 4.0L7.5 4.0L7.5 6.0L7.0 6.0L6.0 6.0L5.5 6.0",
    );
  });
});

test("dashes of a crowded line are laid by its course: as long on a steep fall as on the level", () => {
  const share = (slope: number) => {
    const isOn = dashesAlong([6, 4], 0.001);
    const places = Array.from({ length: 20_000 }, (_, i) => isOn(i / 100, (slope * i) / 100));
    return places.filter(Boolean).length / places.length;
  };
  // Closed form: 6 of every 10 of the way are drawn, whatever the slope.
  for (const slope of [0, 1, 5]) expect(share(slope)).toBeCloseTo(0.6, 1);
  const isOn = dashesAlong([6, 4], 5);
  expect(isOn(0, NaN)).toBe(false);
});
