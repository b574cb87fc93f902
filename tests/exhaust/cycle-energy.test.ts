// Energy of the first harmonic, cycle by cycle, against its closed form.

import { describe, expect, test } from "vitest";
import { cycleEnergies } from "../../src/exhaust/activity/cycle-energy.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import type { Series } from "../../src/signal/series/series.ts";

/** 0.45 + A sin(2 pi f t) + drift t, 40 s at 1000/s: 909 samples a cycle, no whole number of 64. */
const [frequency, drift, count, step] = [1.1, 0.003, 40_000, 0.001];
const wave = (amplitude: number) =>
  Float64Array.from(
    { length: count },
    (_, i) => 0.45 + amplitude * Math.sin(2 * Math.PI * frequency * i * step) + drift * i * step,
  );
const even = (samples: Float64Array): Series => ({ time: { kind: "even", start: 0, step, count }, samples });
const stamped = ({ samples }: Series): Series => ({
  time: { kind: "stamped", stamps: Float64Array.from({ length: count }, (_, i) => i * step) },
  samples: samples as Float64Array,
});

describe("the energy of a cycle", () => {
  const front = findCrossings(even(wave(0.4).map((value, i) => value - drift * i * step)), {
    level: 0.45,
    hysteresis: 0.05,
  });
  const rear = even(wave(0.2));

  // The mean square of A sin is A²/2, of which the harmonic's coefficient at +f holds half: A²/4 with both of ± f.
  test("is a quarter of the amplitude's square, whatever drifts", () => {
    const energies = cycleEnergies(rear, front);
    expect(energies.length).toBe(42);
    for (const energy of energies.slice(1, -1)) expect(energy).toBeCloseTo(0.2 ** 2 / 4, 5);
  });

  test("is the same from even steps and from stamps", () => {
    const [one, other] = [cycleEnergies(rear, front), cycleEnergies(stamped(rear), front)];
    for (const [k, energy] of one.entries()) expect(energy).toBeCloseTo(other[k]!, 12);
  });
});
