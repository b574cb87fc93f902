// Where values stand beside a vertical line: looked at again, point by point along the traces.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { overlap } from "../../src/drawing/boxes.ts";
import { mapping } from "../../src/drawing/paths.ts";
import { placeReadouts, readoutSize } from "../../src/plot/lanes/readout-places.ts";

const within = { left: 0, top: 0, right: 600, bottom: 160 };
const scales = [mapping(0, 600, 0, 600), mapping(0, 160, 160, 0)] as const;
const times = Float64Array.from({ length: 601 }, (_, i) => i);
const drawn = (level: (time: number) => number) => ({ times, values: times.map(level), dense: false });
const width = 50;

/** Whether a trace has a point in the letters of a text. */
const runsThrough = (line: ReturnType<typeof drawn>, { x, y, side }: ReturnType<typeof placeReadouts>[number]) => {
  const left = side === "start" ? x : x - width;
  return [...line.values].some(
    (value, t) => t >= left && t <= left + width && 160 - value < y && 160 - value > y - readoutSize() * 0.7,
  );
};

const wave = fc.record({
  middle: fc.integer({ min: 30, max: 130 }),
  swing: fc.integer({ min: 0, max: 25 }),
  period: fc.integer({ min: 30, max: 400 }),
});

describe("placeReadouts", () => {
  test("values of two slow waves stand off their own traces, and off each other", () => {
    fc.assert(
      fc.property(wave, wave, fc.integer({ min: 100, max: 500 }), (a, b, x) => {
        const lines = [a, b].map(({ middle, swing, period }) =>
          drawn((time) => middle + swing * Math.sin((2 * Math.PI * time) / period)),
        );
        const values = lines.map((line) => ({ x, y: 160 - line.values[x]!, width, line }));
        const places = placeReadouts(values, { within, scales, lines, taken: [], side: "start" });
        places.forEach((place, i) => {
          expect(place.ground === null && runsThrough(lines[i]!, place)).toBe(false);
          expect(place.ground).toBeNull();
        });
        const [one, two] = places.map(({ x: at, y, side }) => {
          const left = side === "start" ? at : at - width;
          return { left, right: left + width, top: y - readoutSize() * 0.7, bottom: y };
        });
        expect(overlap(one!, two!)).toBe(0);
      }),
      { numRuns: 80 },
    );
  });

  test("a trace that fills its lane leaves no free place: the value has a ground", () => {
    const line = drawn((time) => (time % 2 === 0 ? 0 : 160));
    const [place] = placeReadouts([{ x: 300, y: 80, width, line }], {
      within,
      scales,
      lines: [line],
      taken: [],
      side: "end",
    });
    expect(place!.ground).not.toBeNull();
  });

  test("keeps off words that stand already, and comes back beside its dot without them", () => {
    const line = drawn(() => 80);
    const value = { x: 300, y: 80, width, line };
    const around = { within, scales, lines: [line], side: "start" as const };
    const word = { left: 300, right: 400, top: 60, bottom: 79 };
    const [free] = placeReadouts([value], { ...around, taken: [] });
    const [beside] = placeReadouts([value], { ...around, taken: [word] });
    expect(free!.y).toBe(74);
    expect(beside!.y).not.toBe(74);
  });
});
