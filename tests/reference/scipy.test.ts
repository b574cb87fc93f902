// SciPy as an outside judge. The committed results are compared with ours; where SciPy is installed they are computed
// afresh first, so that a changed script or version cannot go unnoticed.

import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { zeroPhaseLowPass } from "../../src/signal/filters/butterworth.ts";
import { medianFilter } from "../../src/signal/filters/median-filter.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import { correlate } from "../../src/signal/numbers/fourier.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { percentiles } from "../../src/signal/statistics/statistics.ts";

interface Reference {
  readonly scipy: string;
  readonly input: { step: number; wave: number[]; noisy: number[] };
  readonly crossings: number[];
  readonly percentiles: number[];
  readonly medfilt5: number[];
  readonly medfilt9: number[];
  readonly butter: Record<string, number[]>;
  readonly correlate: number[];
}

const folder = import.meta.dirname;
const committed = JSON.parse(readFileSync(join(folder, "scipy.json"), "utf8")) as Reference;
const python = "/usr/bin/python3";
const hasSciPy = spawnSync(python, ["-c", "import scipy.signal"]).status === 0;

/** Relative to the largest of the wanted values: rounding of sums, not of single terms, is what both sides share. */
function expectClose(got: ArrayLike<number>, want: ArrayLike<number>, tolerance = 1e-9): void {
  expect(got.length).toBe(want.length);
  const scale = Math.max(...Array.from(want, Math.abs));
  for (let i = 0; i < want.length; i++) {
    expect(Math.abs(got[i]! - want[i]!), `entry ${i}`).toBeLessThanOrEqual(tolerance * scale);
  }
}

const { input } = committed;
const noisy = Float64Array.from(input.noisy);
const even = (samples: Float64Array): Series => ({
  time: { kind: "even", start: 0, step: input.step, count: samples.length },
  samples,
});

describe(`SciPy ${committed.scipy}`, () => {
  test.runIf(hasSciPy)("gives the committed results today as well", () => {
    const fresh = spawnSync(python, [join(folder, "scipy.py")], { encoding: "utf8", maxBuffer: 1 << 26 });
    expect(fresh.status).toBe(0);
    const now = JSON.parse(fresh.stdout) as Reference;
    expect(Object.keys(now).sort()).toEqual(Object.keys(committed).sort());
    expectClose(now.input.noisy, input.noisy, 1e-12);
    expectClose(now.crossings, committed.crossings);
    expectClose(now.medfilt5, committed.medfilt5);
    expectClose(now.butter["4"]!, committed.butter["4"]!);
    expectClose(now.correlate, committed.correlate);
  });

  // Noise-free: the crossing is the straight line between two samples on either side.
  test("agrees on crossings with hysteresis", () => {
    const { times } = findCrossings(even(Float64Array.from(input.wave)), { level: 0.45, hysteresis: 0.05, noise: 0 });
    expectClose(
      times,
      committed.crossings.map((k) => k * input.step),
    );
  });

  test("agrees on percentiles", () => {
    expectClose(percentiles(noisy, [0, 0.05, 0.25, 0.5, 0.75, 0.95, 1]), committed.percentiles, 1e-12);
  });

  // medfilt continues the signal with zeros, ours answers NaN there: compared inside.
  test("agrees on the running median", () => {
    expect([...medianFilter(noisy, 5)].slice(2, -2)).toEqual(committed.medfilt5.slice(2, -2));
    expect([...medianFilter(noisy, 9)].slice(4, -4)).toEqual(committed.medfilt9.slice(4, -4));
  });

  test.each(["1", "2", "3", "4"])("agrees on the zero-phase Butterworth of order %s, ends included", (order) => {
    expectClose(zeroPhaseLowPass(noisy, input.step, { cutoff: 5, order: Number(order) }), committed.butter[order]!);
  });

  test("agrees on correlation, and finds the lag put in", () => {
    const later = Float64Array.from(noisy, (_, i) => noisy[(i - 15 + noisy.length) % noisy.length]!);
    const mean = noisy.reduce((sum, v) => sum + v, 0) / noisy.length;
    const [a, b] = [noisy, later].map((x) => x.map((v) => v - mean)) as [Float64Array, Float64Array];
    expectClose(correlate(a, b, 40), committed.correlate);
    const { lag } = lagBetween(even(noisy), even(later), { most: 0.35 });
    expect(lag.low! <= 0.15 && lag.high! >= 0.15).toBe(true);
  });
});
