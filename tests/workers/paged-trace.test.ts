// What is drawn from bounds of blocks, against a plain scan of the samples in those blocks.

import { describe, expect, test } from "vitest";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { TimeBase } from "../../src/signal/series/series.ts";
import { timeAt } from "../../src/signal/series/series.ts";
import { type Bounds, type PagedTrace, pagedWindow } from "../../workers/drawing/paged-trace.ts";
import { blockSize, coarser, fanOut, Pyramid } from "../../workers/drawing/pyramid.ts";

const count = 3_000_017;
const samples = Float32Array.from({ length: count }, (_, i) => Math.sin(i / 70_000) + 0.1 * Math.sin(i * i));
samples.fill(Number.NaN, 1_000_000, 1_100_000);
const spike = 2_345_678;
samples[spike] = 9;

const even: TimeBase = { kind: "even", start: 5, step: 0.001, count };
const stamps = Float64Array.from({ length: count }, (_, i) => 5 + i / 1000 + (i > 2_000_000 ? 300 : 0));
const stamped: TimeBase = { kind: "stamped", stamps };

/** Bounds of all blocks, made once. */
const { low, high } = new Pyramid(samples).blocks(samples);
const levels = {
  fine: { size: blockSize, low, high },
  coarse: { size: blockSize * fanOut, low: coarser(low, "lowest"), high: coarser(high, "highest") },
};

/** As storage has it: coarse bounds in memory, fine ones and samples by range. */
function paged(time: TimeBase) {
  const asked = { finer: 0, samples: 0 };
  const boundsOf = (level: keyof typeof levels, from: number, to: number): Bounds => {
    const all = levels[level];
    const end = Math.min(to, all.low.length);
    const places = Array.from({ length: end - from }, (_, block) => timeAt(time, (from + block) * all.size));
    const pyramid = Pyramid.ofBlocks(all.low.subarray(from, end), all.high.subarray(from, end));
    return { size: all.size, pyramid, times: { kind: "stamped", stamps: Float64Array.from(places) } };
  };
  const trace: PagedTrace = {
    bounds: boundsOf("coarse", 0, levels.coarse.low.length),
    finer: (from, to) => {
      asked.finer += to - from;
      return boundsOf("fine", from * fanOut, to * fanOut);
    },
    count,
    longestStep: 0.01,
    gain: -2,
    offset: 1,
    fetch: (from, to) => {
      asked.samples += to - from;
      const part = Float64Array.from({ length: to - from }, (_, i) => timeAt(time, from + i));
      return { time: { kind: "stamped", stamps: part }, samples: samples.subarray(from, to) };
    },
  };
  return { trace, asked };
}

/** Lowest and highest of each column that lies in `span`, by blocks of `size`: one counts for the column in which it begins. */
function scanned(time: TimeBase, size: number, step: number, span: Span): Map<number, [number, number]> {
  const columns = new Map<number, [number, number]>();
  for (let from = 0; from < count; from += size) {
    const begins = timeAt(time, from);
    if (begins < span.from - step || begins > span.to + step) continue;
    let column = Math.floor(begins / step);
    // The division may be off by one in the last digit.
    if (begins >= (column + 1) * step) column++;
    if (begins < column * step) column--;
    const [low, high] = columns.get(column) ?? [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    const block = samples.subarray(from, from + size).filter((sample) => !Number.isNaN(sample));
    columns.set(column, [Math.min(low, ...block), Math.max(high, ...block)]);
  }
  return columns;
}

const whole = { from: 5, to: 3305 };
const close = { from: 2000, to: 2700 };
const views = [
  ["blocks of blocks", whole, 300, blockSize * fanOut],
  ["blocks", close, 500, blockSize],
  ["samples", { from: 2640, to: 2650 }, 500, 1],
] as const;

describe.each([
  ["even", even],
  ["stamped", stamped],
] as const)("a channel in storage with %s samples", (_, time) => {
  test.each(views)("is drawn from %s as a scan of them says", (_, span, width, size) => {
    const { trace, asked } = paged(time);
    const points = pagedWindow(trace, span, width);
    expect([asked.finer > 0, asked.samples > 0]).toEqual([size === blockSize, size === 1]);
    const step = (span.to - span.from) / width;
    const judge = scanned(time, size, step, span);
    let seen = 0;
    for (let i = 0; i + 1 < points.times.length; i++) {
      if (Number.isNaN(points.values[i]!) || points.times[i] !== points.times[i + 1]) continue;
      const column = Math.floor(points.times[i]! / step);
      if (column * step < span.from || (column + 1) * step > span.to) continue;
      const [low, high] = judge.get(column)!;
      expect([points.values[i], points.values[i + 1]]).toEqual([high * -2 + 1, low * -2 + 1]);
      seen++;
      i++;
    }
    expect(seen).toBeGreaterThan(width / 4);
  });

  test("shows a spike of one sample from far and near", () => {
    const at = timeAt(time, spike);
    for (const [reach, width] of [
      [1600, 200],
      [400, 300],
      [20, 1000],
      [0.02, 1000],
    ] as const) {
      const { values } = pagedWindow(paged(time).trace, { from: at - reach, to: at + reach }, width);
      expect(Math.min(...values.filter((value) => !Number.isNaN(value)))).toBe(9 * -2 + 1);
    }
  });
});
