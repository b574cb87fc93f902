// Busy spans as envelopes: closed forms of a sine, a ramp and noise, as columns of lowest and highest.

import { describe, expect, test } from "vitest";
import { mapping } from "../../src/drawing/paths.ts";
import { partedLine } from "../../src/report/exhibit/envelopes.ts";
import type { SheetLine } from "../../src/report/exhibit/sheet.ts";

/** 150 mm for 150 s, 50 mm for -1 to 1 V. */
const [x, y] = [mapping(0, 150, 0, 150), mapping(-1, 1, 50, 0)];
const columns = 1500;

/** Lowest and highest of each column, looked at in 40 places. */
function columnsOf(level: (time: number) => number): SheetLine {
  const extremes = Array.from({ length: columns }, (_, i) => {
    const values = Array.from({ length: 41 }, (_, k) => level(0.1 * (i + k / 40)));
    return [Math.min(...values), Math.max(...values)];
  });
  return {
    form: "line",
    source: "own",
    channelId: "a",
    label: "a",
    unit: "V",
    look: "rear",
    times: Float64Array.from(extremes.flatMap((_, i) => [0.1 * i, 0.1 * i])),
    values: Float64Array.from(extremes.flat()),
    dense: true,
  };
}

const sine = (perSecond: number, swing = 0.8) => columnsOf((t) => swing * Math.sin(2 * Math.PI * perSecond * t));

describe("partedLine", () => {
  test("five swings a millimetre are one envelope from lowest to highest, and no line", () => {
    const { line, envelopes } = partedLine(sine(5), x, y);
    expect(envelopes).toHaveLength(1);
    const [{ low, high, times, look }] = envelopes as [(typeof envelopes)[0]];
    expect(look).toBe("rear");
    expect(times.at(-1)! - times[0]!).toBeGreaterThan(147.5);
    expect([...low].every((level) => Math.abs(level + 0.8) < 0.01)).toBe(true);
    expect([...high].every((level) => Math.abs(level - 0.8) < 0.01)).toBe(true);
    const drawn = [...line.times].filter((_, i) => !Number.isNaN(line.values[i]!));
    expect(drawn.every((time) => time < 1.3 || time > 148.7)).toBe(true);
  });

  test("a swing that the paper shows, a ramp, and noise on a level stay lines", () => {
    for (const calm of [sine(0.1), columnsOf((t) => t / 150), sine(5, 0.03)]) {
      const { line, envelopes } = partedLine(calm, x, y);
      expect(envelopes).toEqual([]);
      expect(line.values).toEqual(calm.values);
    }
  });

  test("between busy spans the line is drawn, and each envelope holds every value it stands for", () => {
    const mixed = columnsOf((t) => (t > 60 && t < 90 ? 0.5 : 0.8 * Math.sin(10 * Math.PI * t)));
    const { line, envelopes } = partedLine(mixed, x, y);
    expect(envelopes).toHaveLength(2);
    const middle = [...line.values].filter((_, i) => line.times[i]! > 62 && line.times[i]! < 88);
    expect(middle.every((level) => Math.abs(level - 0.5) < 1e-9)).toBe(true);
    for (const { times, low, high } of envelopes) {
      times.forEach((time, i) => {
        const at = 2 * Math.round(time * 10);
        expect(low[i]!).toBeLessThanOrEqual(mixed.values[at]!);
        expect(high[i]!).toBeGreaterThanOrEqual(mixed.values[at + 1]!);
      });
    }
  });

  test("a gap ends an envelope, and a line of samples is never parted", () => {
    const busy = sine(5);
    const values = busy.values.slice().fill(NaN, 1400, 1500);
    expect(partedLine({ ...busy, values }, x, y).envelopes).toHaveLength(2);
    expect(partedLine({ ...busy, dense: false }, x, y).envelopes).toEqual([]);
  });
});
