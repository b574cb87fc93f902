import { describe, expect, test } from "vitest";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { runsOf } from "../../src/signal/series/runs.ts";
import { timeAt } from "../../src/signal/series/series.ts";
import { channel, open } from "./open.ts";

/** A square wave of 4 s, five rows a second; the front's cell is empty in the rows that `isEmpty` names. */
function log(isEmpty: (row: number) => boolean): string {
  const rows = Array.from({ length: 200 }, (_, i) => {
    const value = Math.floor(i / 10) % 2 === 0 ? 0.1 : 0.8;
    return `${(i / 5).toFixed(1)},${isEmpty(i) ? "" : value},0.5`;
  });
  return `Time (s),Front O2 (V),Rear O2 (V)\n${rows.join("\n")}\n`;
}

describe("a channel refreshed in some rows only", () => {
  const cases: [string, (row: number) => boolean][] = [
    ["every second row", (i) => i % 2 === 1],
    ["two rows of three", (i) => i % 3 === 2],
    ["one row of three", (i) => i % 3 !== 0],
    ["pairs of rows", (i) => i % 4 >= 2],
  ];
  for (const [name, isEmpty] of cases) {
    test(`${name}: is measured between the samples it has`, async () => {
      const { series } = channel(await open(log(isEmpty)), "front-o2");
      const { times, low, high } = findCrossings(series, { level: 0.45, hysteresis: 0.05 });
      // 20 half-periods of 10 rows: 19 changes of side, each between the last filled row before and the first after it.
      expect(times.length).toBe(19);
      times.forEach((_, k) => {
        const turn = 10 * (k + 1);
        let [before, after] = [turn - 1, turn];
        while (isEmpty(before)) before--;
        while (isEmpty(after)) after++;
        expect(low[k]).toBeCloseTo(before / 5, 9);
        expect(high[k]).toBeCloseTo(after / 5, 9);
      });
      expect(runsOf(series).length).toBe(2);
    });
  }

  // Closed form: front and rear in turn, 300 rows/s, a 1 Hz square with edges at k / 2 s; the rear is 0.12 s later.
  test("interleaved numbers without stamps are measured as if each had been recorded alone", async () => {
    const square = (t: number) => (Math.floor(2 * t) % 2 === 0 ? 0.1 : 0.8);
    const rows = new Float32Array(2 * 3000);
    for (let i = 0; i < 3000; i++) {
      rows[2 * i] = i % 3 === 0 ? square(i / 300 + 1e-4) : NaN;
      rows[2 * i + 1] = i % 3 === 1 ? square(i / 300 - 0.12 + 1 + 1e-4) : NaN;
    }
    const layout = "f32le channels=2 rate=300 unit=V names=Front,Rear";
    const capture = await open(new Uint8Array(rows.buffer), { layout });
    const edges = (role: "front-o2" | "rear-o2") =>
      findCrossings(channel(capture, role).series, { level: 0.45, hysteresis: 0.05 });
    const [front, rear] = [edges("front-o2"), edges("rear-o2")];
    expect(front.times.length).toBe(19);
    for (const [edge, late] of [[front, 0] as const, [rear, 0.12] as const]) {
      edge.times.forEach((_, k) => {
        const truth = Math.round(2 * (edge.times[k]! - late)) / 2 + late;
        expect(edge.low[k]).toBeLessThanOrEqual(truth + 1e-9);
        expect(edge.high[k]).toBeGreaterThanOrEqual(truth - 2e-4);
        expect(edge.high[k]! - edge.low[k]!).toBeCloseTo(0.01, 6);
      });
    }
  });

  test("a long hole stays a gap that nothing crosses", async () => {
    const { series } = channel(await open(log((i) => i % 3 === 2 || (i > 88 && i < 112))), "front-o2");
    expect(runsOf(series).length).toBe(4);
    const { times } = findCrossings(series, { level: 0.45, hysteresis: 0.05 });
    expect([...times].some((t) => t > 17.5 && t < 22.5)).toBe(false);
    expect(timeAt(series.time, 0)).toBe(0);
  });
});
