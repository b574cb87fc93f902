// Slow, obvious second implementations, and properties that no correct one can break.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { within } from "../../src/signal/series/reel.ts";
import { runsOf } from "../../src/signal/series/runs.ts";
import { gapLimit, indexAt, type Series, slice, timeAt } from "../../src/signal/series/series.ts";
import { describeStamps, describeTimeBase } from "../../src/signal/stamps/time-base.ts";

const rule = { level: 0.45, hysteresis: 0.05, noise: 0 };

const level = fc.double({ min: 0, max: 1, noNaN: true });
const mostlyLevel = fc.oneof({ weight: 12, arbitrary: level }, { weight: 1, arbitrary: fc.constant(NaN) });
const jittered = fc.array(fc.tuple(mostlyLevel, fc.double({ min: 0.5, max: 1.5, noNaN: true })), { maxLength: 60 });
const series = jittered.map((rows): Series => {
  let now = 0;
  const stamps = Float64Array.from(rows, ([, dt]) => (now += dt));
  return { time: { kind: "stamped", stamps }, samples: Float64Array.from(rows, ([v]) => v) };
});

/** Sides of level ± hysteresis as words, joined per run, then read off by eye: "HmmL" is a fall. */
function sidesOf({ samples }: Series): { index: number; rising: boolean }[] {
  const found: { index: number; rising: boolean }[] = [];
  const text = [...samples].map((v) => (Number.isNaN(v) ? "|" : v > 0.5 ? "H" : v < 0.4 ? "L" : "m")).join("");
  for (let i = 0; i < text.length; i++) {
    const before = text.slice(0, i).split("|").pop()!.replaceAll("m", "");
    if (text[i] === "H" && before.endsWith("L")) found.push({ index: i, rising: true });
    if (text[i] === "L" && before.endsWith("H")) found.push({ index: i, rising: false });
  }
  return found;
}

describe("a second, slow opinion", () => {
  test("finds the same crossings from letters", () => {
    fc.assert(
      fc.property(series, (s) => {
        const { indices, rising, times, low, high } = findCrossings(s, rule);
        expect([...indices].map((index, k) => ({ index, rising: rising[k] === 1 }))).toEqual(sidesOf(s));
        for (let k = 0; k < times.length; k++) {
          expect(low[k]! <= times[k]! && times[k]! <= high[k]!).toBe(true);
          expect(high[k]!).toBeLessThanOrEqual(timeAt(s.time, indices[k]!) + 1e-9);
        }
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  test("finds the same complete falls from words", () => {
    fc.assert(
      fc.property(series, (s) => {
        const text = [...s.samples]
          .map((v) => (Number.isNaN(v) ? "|" : v >= 0.6 ? "H" : v <= 0.3 ? "L" : "m"))
          .join("");
        const falls = text.match(/Hm*(?=L)/g)?.length ?? 0;
        const { durations, ragged, starts, ends } = findTransitions(s, { from: 0.6, to: 0.3, noise: 0 });
        expect(durations.length + ragged).toBe(falls);
        for (let k = 0; k < durations.length; k++) expect(ends[k]! - starts[k]!).toBeGreaterThanOrEqual(-1e-12);
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  test("counts stamps as a loop over pairs does", () => {
    const stamp = fc.oneof(fc.integer({ min: 0, max: 20 }), fc.constant(NaN));
    fc.assert(
      fc.property(fc.array(stamp, { maxLength: 40 }), (list) => {
        const facts = describeStamps(Float64Array.from(list));
        const known = list.filter((t) => !Number.isNaN(t));
        const steps = known.slice(1).map((t, i) => t - known[i]!);
        expect(facts.duplicates).toBe(steps.filter((d) => d === 0).length);
        expect(facts.backwards).toBe(steps.filter((d) => d < 0).length);
        const rising = steps.filter((d) => d > 0);
        expect(facts.step.max).toBe(rising.length === 0 ? NaN : Math.max(...rising));
        expect(facts.rate.value === null || facts.rate.value < Infinity).toBe(true);
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  test("cuts time spans as a filter does", () => {
    const edge = fc.double({ min: -2, max: 70, noNaN: true });
    fc.assert(
      fc.property(series, edge, edge, (s, from, to) => {
        const part = within(s, from, to);
        const want = [...s.samples].filter((_, i) => timeAt(s.time, i) >= from && timeAt(s.time, i) < to);
        expect([...part.samples]).toEqual(want);
        const first = [...s.samples].findIndex((_, i) => timeAt(s.time, i) >= from);
        expect(indexAt(s.time, from)).toBe(first < 0 ? s.samples.length : first);
      }),
      { seed: 4, numRuns: 500 },
    );
  });
});

describe("properties of crossings", () => {
  const moved = (s: Series, by: number): Series => ({
    ...s,
    time: {
      kind: "stamped",
      stamps: s.time.kind === "stamped" ? s.time.stamps.map((t) => t + by) : new Float64Array(),
    },
  });

  test("shifting time shifts them, scaling the values leaves them", () => {
    fc.assert(
      fc.property(series, fc.integer({ min: -100, max: 100 }), (s, by) => {
        const [plain, shifted] = [findCrossings(s, rule), findCrossings(moved(s, by), rule)];
        plain.times.forEach((t, k) => {
          expect(shifted.times[k]! - by).toBeCloseTo(t, 9);
        });
        const scaled = { ...s, samples: Float64Array.from(s.samples, (v) => 8 * v) };
        const big = findCrossings(scaled, { level: 3.6, hysteresis: 0.4, noise: 0 });
        expect(big.times.length).toBe(plain.times.length);
        plain.times.forEach((t, k) => {
          expect(big.times[k]!).toBeCloseTo(t, 9);
        });
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  test("turning time round turns every fall into a rise", () => {
    fc.assert(
      fc.property(series, (s) => {
        const stamps = s.time.kind === "stamped" ? s.time.stamps.map((t) => -t).reverse() : new Float64Array();
        const turned: Series = { time: { kind: "stamped", stamps }, samples: s.samples.slice().reverse() };
        const [plain, back] = [findCrossings(s, rule), findCrossings(turned, rule)];
        expect([...back.rising].reverse()).toEqual([...plain.rising].map((r) => 1 - r));
      }),
      { seed: 6, numRuns: 300 },
    );
  });

  test("a hole between two recordings gives the crossings of both, and none in between", () => {
    fc.assert(
      fc.property(series, series, (a, b) => {
        const samples = Float64Array.from([...a.samples, NaN, ...b.samples]);
        const stamps = Float64Array.from(samples, (_, i) => i);
        const joined = findCrossings({ time: { kind: "stamped", stamps }, samples }, rule);
        const even = (s: Series): Series => ({
          ...s,
          time: { kind: "even", start: 0, step: 1, count: s.samples.length },
        });
        const apart = findCrossings(even(a), rule).times.length + findCrossings(even(b), rule).times.length;
        expect(joined.times.length).toBe(apart);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("gaps", () => {
  test("leave a jittered polled log whole, and cut at a hole", () => {
    const steady = Float64Array.from({ length: 200 }, (_, i) => i + 0.4 * Math.sin(i * i));
    const whole: Series = { time: { kind: "stamped", stamps: steady }, samples: new Float64Array(200) };
    expect([...runsOf(whole)]).toEqual([0, 200]);
    const holed = steady.map((t, i) => (i < 120 ? t : t + 9));
    const cut: Series = { time: { kind: "stamped", stamps: holed }, samples: new Float64Array(200) };
    expect([...runsOf(cut)]).toEqual([0, 120, 120, 200]);
    expect(describeTimeBase(cut).gaps.length).toBe(1);
    // A part of three samples around the hole cannot see what is usual, but carries its whole's limit.
    const part = slice(cut, 119, 122);
    expect(gapLimit(part.time)).toBe(gapLimit(cut.time));
    expect([...runsOf(part)]).toEqual([0, 1, 1, 3]);
  });

  test("cut runs out of long series as a walk from sample to sample does", () => {
    const spoilt = fc.tuple(fc.integer({ min: 0, max: 9999 }), fc.constantFrom(NaN, Infinity, -Infinity));
    const holes = fc.array(fc.integer({ min: 1, max: 9999 }), { maxLength: 4 });
    fc.assert(
      fc.property(fc.array(spoilt, { maxLength: 8 }), holes, fc.boolean(), (marks, cuts, isEven) => {
        // Sums of the largest doubles overflow, and are no sign of a missing sample.
        const samples = new Float64Array(10_000).fill(1.7e308);
        for (const [i, mark] of marks) samples[i] = mark;
        const isCut = (i: number) => !isEven && cuts.includes(i);
        let now = 0;
        const stamps = samples.map((_, i) => (now += isCut(i) ? 50 : 1));
        const time = isEven
          ? ({ kind: "even", start: 0, step: 1, count: 10_000 } as const)
          : { kind: "stamped" as const, stamps };
        const want: number[] = [];
        samples.forEach((sample, i) => {
          if (!Number.isFinite(sample)) return;
          if (i === 0 || !Number.isFinite(samples[i - 1]!) || isCut(i)) want.push(i, i);
          want[want.length - 1] = i + 1;
        });
        expect([...runsOf({ time, samples })]).toEqual(want);
      }),
      { seed: 8, numRuns: 100 },
    );
  });

  test("tells repeated values and the true rate of refreshing", () => {
    const samples = Float64Array.from({ length: 300 }, (_, i) => Math.sin(Math.floor(i / 3)));
    const facts = describeTimeBase({ time: { kind: "even", start: 0, step: 0.01, count: 300 }, samples });
    expect(facts.kind).toBe("scope");
    expect(facts.heldShare).toBeCloseTo(2 / 3, 2);
    expect(facts.updateRate.low! <= 100 / 3 && facts.updateRate.high! >= 100 / 3).toBe(true);
  });
});
