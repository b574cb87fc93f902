// Series read part by part: every reading is what it is of the same series in memory, wherever the parts meet.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dutyOf, frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { amplitudeOf, maximumOf, minimumOf } from "../../src/signal/levels/levels.ts";
import { lengthRuleFor, lineLength } from "../../src/signal/levels/line-length.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import { cutOut, partsOf, reelOver, within } from "../../src/signal/series/reel.ts";
import { onGrid } from "../../src/signal/series/resample.ts";
import { runsOf } from "../../src/signal/series/runs.ts";
import { type AnySeries, indexAt, type Series, timeAt } from "../../src/signal/series/series.ts";
import { usualStep } from "../../src/signal/series/usual-step.ts";
import { noiseOf } from "../../src/signal/statistics/noise.ts";
import { quantisationOf } from "../../src/signal/statistics/quantisation.ts";
import { percentiles } from "../../src/signal/statistics/statistics.ts";
import { difference } from "../difference.ts";
import { ofTrials } from "../share.ts";
import { normal, uniform } from "./signals.ts";

/** A switching sensor: waves that rest, drift and turn back half-way, with noise, steps, missing samples and gaps. */
function recorded(seed: number, isEven: boolean): Series {
  const [next, hiss] = [uniform(seed), normal(seed + 1)];
  const count = 200 + Math.floor(5000 * next());
  const rate = 20 + 400 * next();
  const [sigma, step, missing] = [next() < 0.3 ? 0 : 0.02 * next(), next() < 0.5 ? 0 : 0.02 * next(), 0.003 * next()];
  const [pace, rest] = [0.3 + 2 * next(), next()];
  const stamps = new Float64Array(count);
  let now = 10 * next();
  for (let i = 0; i < count; i++) {
    stamps[i] = now;
    now += isEven ? 1 / rate : (0.6 + 0.8 * next() + (next() < 0.002 ? 40 : 0)) / rate;
  }
  const samples = Float64Array.from(stamps, (t, i) => {
    if (next() < missing) return NaN;
    const wave = Math.tanh(4 * Math.sin(2 * Math.PI * pace * t)) * (Math.sin(0.7 * t) > rest - 0.5 ? 1 : 0.1);
    const value = 0.45 + 0.4 * wave + sigma * hiss();
    return step > 0 ? step * Math.round(value / step) : value + 0 * i;
  });
  if (!isEven) return { time: { kind: "stamped", stamps }, samples };
  return { time: { kind: "even", start: stamps[0]!, step: 1 / rate, count }, samples };
}

const cases = fc.record({
  seed: fc.integer({ min: 1, max: 1e9 }),
  isEven: fc.boolean(),
  part: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 13, max: 2000 })),
});

const asReel = (series: Series, part: number) => reelOver(series, part, () => {});

/** That `measure` tells the same of a series and of its reel. */
function agreesOn(measure: (series: AnySeries) => unknown, runs = ofTrials(50, 150)): void {
  fc.assert(
    fc.property(cases, ({ seed, isEven, part }) => {
      const series = recorded(seed, isEven);
      expect(difference(measure(asReel(series, part)), measure(series))).toBe(null);
    }),
    { numRuns: runs },
  );
}

describe("a reel", () => {
  test("gives its samples in order, once", () => {
    fc.assert(
      fc.property(cases, ({ seed, isEven, part }) => {
        const series = recorded(seed, isEven);
        const parts = [...partsOf(asReel(series, part))];
        expect(parts.flatMap(({ series }) => [...series.samples])).toEqual([...series.samples]);
        expect(
          parts.flatMap(({ series: { time, samples } }) => Array.from(samples, (_, i) => timeAt(time, i))),
        ).toEqual(Array.from(series.samples, (_, i) => expect.closeTo(timeAt(series.time, i), 9)));
        expect(Math.max(...parts.map(({ series }) => series.samples.length))).toBeLessThanOrEqual(part);
      }),
      { numRuns: ofTrials(15, 30) },
    );
  });

  test("is cut like a series in memory", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: -5, max: 60, noNaN: true }), ({ seed, isEven, part }, at) => {
        const series = recorded(seed, isEven);
        const reel = asReel(series, part);
        expect(indexAt(reel.time, at)).toBe(indexAt(series.time, at));
        expect(runsOf(within(reel, at, at + 7))).toEqual(runsOf(within(series, at, at + 7)));
        expect(runsOf(cutOut(reel, 40, 170))).toEqual(runsOf(cutOut(series, 40, 170)));
      }),
    );
  });

  test("has the same runs, steps and noise", () => {
    agreesOn((series) => [
      runsOf(series),
      usualStep(series.time),
      noiseOf(series.samples),
      quantisationOf(series.samples),
      percentiles(series.samples, [0, 0.05, 0.31, 0.95, 1]),
    ]);
  });

  test("has the same crossings", () => agreesOn((series) => findCrossings(series, { level: 0.45, hysteresis: 0.05 })));

  test("has the same frequency", () => {
    agreesOn(
      (series) => frequencyOf(findCrossings(series, { level: 0.45, hysteresis: 0.05 }), { series }),
      ofTrials(20, 60),
    );
  });

  test("has the same transitions", () => {
    agreesOn((series) => findTransitions(series, { from: 0.3, to: 0.6 }));
    agreesOn((series) => findTransitions(series, { from: 0.6, to: 0.3 }));
  });

  test("has the same levels, mean and share above a level", () => {
    agreesOn((series) => [
      amplitudeOf(series),
      minimumOf(series),
      maximumOf(series),
      meanOf(series),
      dutyOf(series, 0.45),
    ]);
  });

  test("has the same way up and down", () => {
    agreesOn((series) => {
      const rule = lengthRuleFor(series, noiseOf(series.samples));
      return [rule, lineLength(series, rule), lineLength(series, { ...rule, block: 7 })];
    });
  });

  test("is put on the same grid, and lags as much", () => {
    agreesOn((series) => onGrid(series, { start: 11, step: 0.013, count: 900 }));
    const other = recorded(77, false);
    agreesOn((series) => lagBetween(other, series, { most: 0.4 }), ofTrials(10, 30));
  });
});

describe("percentiles of many samples", () => {
  // Closed form: of the numbers 0 … n - 1, each once, a share p lies at p (n - 1); of two values, at the one or the other.
  test("are exact where a class holds more than are put in order at once", () => {
    const n = 9_000_000;
    const crowded = Float64Array.from({ length: n }, (_, i) => (i * 7919) % n);
    crowded[0] = 1e12;
    const [low, middle] = percentiles(crowded, [0.05, 0.5]);
    // The number taken away was 0: all others move up by one place.
    expect(low).toBeCloseTo(0.05 * (n - 1) + 1, 6);
    expect(middle).toBeCloseTo(0.5 * (n - 1) + 1, 6);
    const two = Float32Array.from({ length: n }, (_, i) => (i % 3 === 0 ? 1 : 0.25));
    expect(percentiles(two, [0.2, 0.6, 0.7, 1])).toEqual([0.25, 0.25, 1, 1]);
  });
});
