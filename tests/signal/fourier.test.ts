// Correlation by blocks against its definition, sum by sum; the lag of signals with and without holes.

import { describe, expect, test } from "vitest";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import { correlate, selfCorrelations } from "../../src/signal/numbers/fourier.ts";
import { uniform } from "./signals.ts";

describe("correlation", () => {
  // Shorter than a block, one block exactly, several blocks with a rest, hardly any lag, more lag than signal.
  test.each([
    [5, 4],
    [100, 40],
    [4096, 10],
    [4090, 3],
    [20_011, 700],
    [9000, 1],
    [30, 29],
  ])("of %i samples at lags to %i is the sum of products", (length, most) => {
    const random = uniform(length + most);
    const [a, b] = [0, 0].map(() => Float64Array.from({ length }, () => random() - 0.4)) as [
      Float64Array,
      Float64Array,
    ];
    const found = correlate(a, b, most);
    expect(found.length).toBe(2 * most + 1);
    for (let k = -most; k <= most; k += Math.max(1, Math.floor(most / 7))) {
      let sum = 0;
      for (let i = Math.max(0, -k); i < length && i + k < length; i++) sum += a[i]! * b[i + k]!;
      expect(found[most + k]!).toBeCloseTo(sum, 9);
    }
  });
});

describe("correlation of two signals with themselves", () => {
  test.each([
    [5, 4],
    [4096, 10],
    [20_011, 700],
  ])("of %i samples at lags to %i is the sum of products", (length, most) => {
    const random = uniform(length + most);
    const signal = () => Float64Array.from({ length }, () => random() - 0.4);
    const signals = [signal(), signal()] as const;
    const found = selfCorrelations(...signals, most);
    for (const [which, values] of signals.entries()) {
      expect(found[which]!.length).toBe(most + 1);
      for (let k = 0; k <= most; k += Math.max(1, Math.floor(most / 5))) {
        let sum = 0;
        for (let i = 0; i + k < length; i++) sum += values[i]! * values[i + k]!;
        expect(found[which]![k]!).toBeCloseTo(sum, 9);
      }
    }
  });
});

describe("lag", () => {
  test("is the same to its bounds whether or not a hole makes every overlap be counted", () => {
    const random = uniform(3);
    const course = (t: number) => Math.sin(2 * Math.PI * 1.1 * t) + 0.4 * Math.sin(2 * Math.PI * 0.37 * t + 1);
    const even = (delay: number) => ({
      time: { kind: "even", start: 0, step: 0.005, count: 12_000 } as const,
      samples: Float64Array.from({ length: 12_000 }, (_, i) => course(i * 0.005 - delay) + 0.02 * (random() - 0.5)),
    });
    const [early, late] = [even(0), even(0.1234)];
    const broken = { ...late, samples: late.samples.map((v, i) => (i > 5000 && i < 5600 ? NaN : v)) };
    for (const later of [late, broken]) {
      const { lag, height } = lagBetween(early, later, { most: 0.4 });
      expect(lag.low).toBeLessThanOrEqual(0.1234);
      expect(lag.high).toBeGreaterThanOrEqual(0.1234);
      expect(lag.high! - lag.low!).toBeLessThan(0.01);
      expect(height).toBeGreaterThan(0.99);
      expect(height).toBeLessThanOrEqual(1);
    }
  });
});
