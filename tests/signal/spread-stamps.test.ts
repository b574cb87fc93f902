// Rows that share a coarse stamp are spread over it: how long anything took within a channel is then known that well only.

import { describe, expect, test } from "vitest";
import { orderStamps } from "../../src/capture/time/stamps.ts";
import { frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { transitionTime } from "../../src/signal/edges/transition-time.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { uniform } from "./signals.ts";

const wave = (t: number) => 0.45 + 0.4 * Math.sin(2 * Math.PI * 0.2 * t);

/** A wave of 0.2 Hz, 0.6 to 0.3 V in 0.61 s, in rows that come in bursts and are stamped with the whole second. */
function bursts(seed: number): Series {
  const next = uniform(seed);
  const truth = Array.from({ length: 60 }, (_, second) =>
    Array.from({ length: 20 }, () => second + next() ** 3).sort((a, b) => a - b),
  ).flat();
  const seconds = Float64Array.from(truth, Math.floor);
  const ordered = orderStamps({ seconds, resolution: 1, isAbsolute: false, wrap: 0 });
  const time = { kind: "stamped", stamps: ordered.seconds, doubt: ordered.doubt! } as const;
  return { time, samples: Float64Array.from(truth, wave) };
}

describe("of stamps spread over their second", () => {
  const seeds = Array.from({ length: 50 }, (_, seed) => seed + 1);
  // Closed form: 0.45 + 0.4 sin falls from 0.6 to 0.3 V in 2 asin(0.375) / (2 pi f).
  const truth = (2 * Math.asin(0.375)) / (2 * Math.PI * 0.2);

  test.each(seeds)("bounds of each transition hold the truth (seed %i)", (seed) => {
    const { low, high } = findTransitions(bursts(seed), { from: 0.6, to: 0.3, noise: 0 });
    expect(low.length).toBeGreaterThan(8);
    for (let k = 0; k < low.length; k++) {
      expect(low[k]).toBeLessThanOrEqual(truth);
      expect(high[k]).toBeGreaterThanOrEqual(truth);
    }
  });

  test("no median is claimed of what is shorter than a stamp, and the remedy is finer stamps", () => {
    const reading = transitionTime(findTransitions(bursts(7), { from: 0.6, to: 0.3, noise: 0 }));
    expect(reading.grade).toBe("not-resolvable");
    expect(reading.because).toContain("stamps finer than 1\u00a0s");
  });

  test.each(seeds)("bounds of the frequency hold the truth (seed %i)", (seed) => {
    const series = bursts(seed);
    const { low, high } = frequencyOf(findCrossings(series, { level: 0.45, hysteresis: 0.05, noise: 0 }), { series });
    expect(low).toBeLessThanOrEqual(0.2);
    expect(high).toBeGreaterThanOrEqual(0.2);
  });
});
