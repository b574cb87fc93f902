// A recorder that hung, and sensors that only rest.

import { expect, test } from "vitest";
import { channelOf, csv, says, sensors } from "../logs/made.ts";
import { openBytes } from "./open.ts";

/** Front and rear without noise, written to 10 mV: at either end for `half` s; from row `hung` on every row repeats. */
async function opened(rate: number, half: number, hung = Number.POSITIVE_INFINITY) {
  const rows = Array.from({ length: 40 * rate }, (_, i) => {
    const [at, t] = [Math.min(i, hung), Math.min(i, hung) / rate];
    const cycle = Math.floor(t / half);
    // In one of five half-cycles nothing moves at all, in the others something does every third row.
    const rear = cycle % 5 === 4 ? 0.66 : at % 6 < 3 ? 0.66 : 0.67;
    return [(i / rate).toFixed(3), 2000 + Math.round(3 * Math.sin(cycle)), cycle % 2 === 0 ? 0.78 : 0.12, rear];
  });
  const outcome = await openBytes(new TextEncoder().encode(csv(`Time (s),RPM,${sensors}`, rows)), {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  return outcome.value;
}

test.each([
  [200, 0.4],
  [50, 1.1],
])(
  "at %d rows/s a front that rests for %d s at its ends is no hung recorder, and keeps its samples",
  async (rate, half) => {
    const capture = await opened(rate, half);
    expect(says(capture, /recorder hung/)).toBe(false);
    expect(channelOf(capture, "front-o2")!.series.samples.every(Number.isFinite)).toBe(true);
  },
);

test("one that repeats its row for 20 s is, and the rows it repeats are judged by nothing", async () => {
  const capture = await opened(50, 0.4, 1000);
  expect(says(capture, /recorder hung/)).toBe(true);
  expect(channelOf(capture, "front-o2")!.series.samples.filter(Number.isFinite).length).toBeLessThanOrEqual(1001);
});

test("one that hung while every column stood at an end of its range did hang: no running engine keeps its speed for a minute", async () => {
  const at = (i: number) => Math.min(i, 150);
  // Row 150 is the highest of all four, by chance.
  const high = (i: number, value: number, most: number) => (i === 150 ? most : value);
  const rows = Array.from({ length: 210 }, (_, i) => [
    i,
    high(at(i), 2200 + Math.round(28 * Math.sin(at(i))), 2230),
    high(at(i), 18 + Math.sin(at(i) / 3), 19).toFixed(2),
    high(at(i), 0.45 + 0.38 * Math.sin(2 * at(i)), 0.83).toFixed(3),
    high(at(i), 0.68 + 0.03 * Math.sin(at(i) / 5), 0.71).toFixed(3),
  ]);
  const outcome = await openBytes(new TextEncoder().encode(csv(`Time (s),RPM,Throttle (%),${sensors}`, rows)), {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  expect(says(outcome.value, /recorder hung/)).toBe(true);
});

test.each([
  ["another in nearly every row", 1, true],
  ["in steps of 200, which it keeps for long", 200, false],
])("25 s at the end of all ranges, in a pull, is a hang where the engine's speed is %s", async (_, step, isHung) => {
  const at = (i: number) => Math.min(i, 150) + Math.max(0, i - 200);
  const rows = Array.from({ length: 400 }, (_, i) => {
    const pull = at(i) > 140 && at(i) < 152 ? (at(i) - 140) * 120 : 0;
    const speed = 2000 + pull + 30 * Math.sin(at(i));
    const [front, rear] =
      pull > 1000 ? [0.86, 0.78] : [0.45 + 0.38 * Math.sin(2 * at(i)), 0.68 + 0.03 * Math.sin(at(i))];
    return [i / 2, step * Math.round(speed / step), pull > 1000 ? 70 : 18, front.toFixed(3), rear.toFixed(3)];
  });
  const outcome = await openBytes(new TextEncoder().encode(csv(`Time (s),RPM,Throttle (%),${sensors}`, rows)), {});
  if (!outcome.ok) throw new Error(outcome.problem.what);
  expect(says(outcome.value, /recorder hung/)).toBe(isHung);
});
