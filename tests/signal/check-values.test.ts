// Values known beforehand, each with its source: what sampling does to edges, peaks and counts, and published tables.

import { describe, expect, test } from "vitest";
import { delayBetween } from "../../src/signal/combining/combine.ts";
import { frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { maximumOf } from "../../src/signal/levels/levels.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { normal, sampled, uniform } from "./signals.ts";

const deviationOf = (values: readonly number[]) => {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
};

const rule = { level: 0.45, hysteresis: 0.05 };

describe("sampling", () => {
  const step = 0.1;
  const places = 500;

  /** The one crossing of an edge between two samples, 0.1 s apart. */
  function edgeAt(t: number) {
    const { times, low, high } = findCrossings(
      sampled((x) => (x < t ? 0.1 : 0.8), 1 / step, 2),
      rule,
    );
    return { time: times[0]!, low: low[0]!, high: high[0]! };
  }

  // Uniform between two samples: deviation dt / sqrt 12 = 28.9 ms; the difference of two such, dt / sqrt 6 = 40.8 ms.
  test("leaves an edge 28.9 ms and the difference of two 40.8 ms at 100 ms, inside their bounds", () => {
    const next = uniform(11);
    const [single, pairs]: [number[], number[]] = [[], []];
    for (let k = 0; k < places; k++) {
      const [a, b] = [0.5 + (k / places) * step, 1 + next() * step];
      const [first, second] = [edgeAt(a), edgeAt(b)];
      single.push(first.time - a);
      const delay = delayBetween(first, second);
      pairs.push(delay.value! - (b - a));
      expect(first.low <= a && a <= first.high).toBe(true);
      expect(delay.low! <= b - a && b - a <= delay.high!).toBe(true);
      expect(delay.high! - delay.low!).toBeCloseTo(2 * step, 9);
    }
    expect(Math.abs(deviationOf(single) / (step / Math.sqrt(12)) - 1)).toBeLessThan(0.01);
    // 500 pairs: the deviation of a deviation is about 3 %.
    expect(Math.abs(deviationOf(pairs) / (step / Math.sqrt(6)) - 1)).toBeLessThan(0.06);
  });

  // Worst loss of a sine's peak 1 - cos(pi / n) with n samples a cycle: 29.3 % at 4, 19.1 % at 5, 4.9 % at 10, 1.2 % at 20.
  test.each([
    [4, 0.293],
    [5, 0.191],
    [6, 0.134],
    [10, 0.049],
    [20, 0.0123],
  ])("at %i samples a cycle may hide a share of a peak, which the bounds leave open", (perCycle, loss) => {
    const worst = sampled((t) => Math.cos(2 * Math.PI * (t / perCycle) + Math.PI / perCycle), 1, 20 * perCycle);
    const { low, high } = maximumOf(worst, { noise: 0 });
    expect(1 - Math.max(...worst.samples)).toBeCloseTo(loss, 3);
    expect(low! <= 1).toBe(true);
    expect(high === null || high >= 1).toBe(true);
  });

  // Standard error of a mean of 40 periods that vary by 10 %: 10 % / sqrt 40 = 1.58 %; Student's 97.5 % at 39: 2.023.
  test("knows a frequency of 40 cycles that vary by 10 % to 1.58 %", () => {
    const next = normal(17);
    const widths: number[] = [];
    for (let k = 0; k < 60; k++) {
      const turns = [0.3];
      for (let i = 0; i < 41; i++) turns.push(turns[i]! + 1 + 0.1 * next());
      let i = 0;
      const wave = sampled(
        (t) => {
          while (i < turns.length && turns[i]! <= t) i++;
          return i > 0 && t - turns[i - 1]! < 0.5 ? 0.8 : 0.1;
        },
        1000,
        turns[40]! + 0.4,
      );
      const { low, high, value } = frequencyOf(findCrossings(wave, rule));
      widths.push((high! - low!) / value! / 2);
    }
    const median = widths.sort((a, b) => a - b)[30]!;
    expect(Math.abs(median / (2.023 * 0.0158) - 1)).toBeLessThan(0.08);
  });

  // Sampled Gaussian noise whose neighbours correlate by r changes sign in acos(r) / pi of all steps: 0.1436 for 0.9.
  test("counts sign changes of correlated noise", () => {
    const next = normal(23);
    const r = 0.9;
    let now = next();
    const samples = Float64Array.from({ length: 200_000 }, () => (now = r * now + Math.sqrt(1 - r * r) * next()));
    const series: Series = { time: { kind: "even", start: 0, step: 1, count: samples.length }, samples };
    const changes = findCrossings(series, { level: 0, hysteresis: 0, noise: 0 }).times.length;
    expect(Math.abs(changes / samples.length / 0.1436 - 1)).toBeLessThan(0.02);
  });
});
