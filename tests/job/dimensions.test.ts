import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cursorOf, pinCursor, placeCursor, readDimension, removeDimension } from "../../src/job/edits/dimensions.ts";
import { asShown, filtersOn, setFilter, throughText } from "../../src/job/edits/filters.ts";
import { bench, dimension } from "./samples.ts";

describe("readDimension", () => {
  // Closed form: two ends, each known to half a step of 10 ms either way, differ by their distance +- one step.
  test("honours half the sample step at each end", () => {
    const reading = readDimension(dimension("d"), 0.005, "V");
    expect(reading).toMatchObject({ unit: "s", grade: "measured" });
    expect(reading.value).toBeCloseTo(0.5, 12);
    expect(reading.low).toBeCloseTo(0.49, 12);
    expect(reading.high).toBeCloseTo(0.51, 12);
  });

  test("takes the bounds of a snapped end instead", () => {
    const snap = { channelId: "c1", to: "crossing", low: 31.199, high: 31.203 } as const;
    const reading = readDimension(dimension("d", { from: { time: 31.2, level: 0.45, snap } }), 0.005, "V");
    expect(reading.low).toBeCloseTo(31.7 - 0.005 - 31.203, 12);
    expect(reading.high).toBeCloseTo(31.7 + 0.005 - 31.199, 12);
  });

  test("is at most, not exactly, when both ends may stand on one spot", () => {
    const reading = readDimension(dimension("d", { to: { time: 31.203, level: 0.45 } }), 0.005, "V");
    expect(reading).toMatchObject({ grade: "at-most", low: 0 });
    expect(reading.high).toBeCloseTo(0.013, 12);
  });

  test("reads the same in either direction, and levels in the lane's unit", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (a, b) => {
        const one = dimension("d", { kind: "level", from: { time: 1, level: a }, to: { time: 2, level: b } });
        const reading = readDimension(one, 0.001, "V");
        expect(reading).toEqual(readDimension({ ...one, from: one.to, to: one.from }, 0.001, "V"));
        expect(reading.unit).toBe("V");
        const truth = Math.abs(a - b);
        expect(reading.low! <= truth && truth <= reading.high!).toBe(true);
      }),
    );
  });
});

describe("cursors", () => {
  test("stand at most once per kind, and become a dimension when pinned", () => {
    const two = placeCursor(placeCursor(bench, dimension("a")), dimension("b"));
    expect(two.cursors.map((c) => c.id)).toEqual(["b"]);
    const pinned = pinCursor(two, "time", "d1", "delay");
    expect(cursorOf(pinned, "time")).toBeUndefined();
    expect(pinned.dimensions).toEqual([{ ...dimension("b"), id: "d1", label: "delay" }]);
    expect(removeDimension(pinned, "d1").dimensions).toEqual([]);
    expect(pinCursor(bench, "level", "d2", "")).toBe(bench);
  });
});

describe("throughText", () => {
  const filters = { c1: { kind: "low-pass", cutoff: 10 } } as const;
  const lane = { ids: ["c1", "c2"], filters, nameOf: (id: string) => (id === "c1" ? "Front" : "Rear") };
  const snap = { channelId: "c2", to: "crossing", low: 1, high: 2 } as const;
  const snapped = { time: 1.5, level: 0.45, snap };

  test("names the filter of what an end was snapped to, and of its lane where the hand set it", () => {
    expect(throughText(dimension("d", { from: snapped, to: snapped }), lane)).toBe("");
    expect(throughText(dimension("d", { from: snapped }), lane)).toBe("through Front: low-pass 10\u00a0Hz");
    const through = { ...snap, through: { kind: "median", spikes: 0.002 } } as const;
    const pair = dimension("d", { from: { ...snapped, snap: through }, to: snapped });
    expect(throughText(pair, { ...lane, filters: {} })).toBe("through Rear: median, spikes up to 2\u00a0ms out");
    expect(asShown({ label: "delay", through: "through x" }).label).toBe("delay, through x");
  });

  test("leaves nothing of a filter that is taken off", () => {
    const on = setFilter(bench, "c1", filters.c1);
    expect(filtersOn(on)).toEqual(filters);
    expect(filtersOn(setFilter(on, "c1", null))).toEqual({});
  });
});
