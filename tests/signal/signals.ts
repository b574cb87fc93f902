// Signals with a closed form, and seeded noise, for the tests of this folder.

import type { Series } from "../../src/signal/series/series.ts";

/** Even samples of a function of time. */
export function sampled(f: (t: number) => number, rate: number, duration: number, start = 0): Series {
  const count = Math.round(duration * rate);
  const samples = Float64Array.from({ length: count }, (_, i) => f(start + i / rate));
  return { time: { kind: "even", start, step: 1 / rate, count }, samples };
}

/** Samples of a function at given stamps. */
export function sampledAt(f: (t: number) => number, stamps: Float64Array): Series {
  return { time: { kind: "stamped", stamps }, samples: stamps.map(f) };
}

/** Seeded uniform numbers 0 … 1: Mulberry32 by Tommy Ettinger, public domain. */
export function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Seeded standard normal numbers: Box & Muller, Ann. Math. Stat. 29 (1958) 610. */
export function normal(seed: number): () => number {
  const next = uniform(seed);
  return () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

/** The same series with white noise of deviation `sigma` and, where `step` > 0, quantised. */
export function disturbed(series: Series, sigma: number, seed: number, step = 0): Series {
  const next = normal(seed);
  const samples = Float64Array.from(series.samples, (s) => {
    const noisy = s + sigma * next();
    return step > 0 ? step * Math.round(noisy / step) : noisy;
  });
  return { ...series, samples };
}

/** A first-order step from `a` to `b` at time 0. */
export function exponential(a: number, b: number, tau: number): (t: number) => number {
  return (t) => (t < 0 ? a : b + (a - b) * Math.exp(-t / tau));
}
