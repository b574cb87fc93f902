// How a recorder turns a signal into samples: rate, noise, steps, jitter, repeats and lost rows, all seeded.

import type { Series, StampDoubt } from "../../src/signal/series/series.ts";

export interface Random {
  /** 0 … 1 */
  uniform(): number;
  normal(): number;
  /** Evenly distributed over the logarithm. */
  between(low: number, high: number): number;
}

export interface Recorder {
  readonly kind: "scope" | "polled";
  readonly rate: number;
  readonly noise: number;
  readonly quantum: number;
  /** Spread of the row instants, share of the step; repeats and losses as shares of the rows. */
  readonly jitter: number;
  readonly repeats: number;
  readonly losses: number;
}

/** Seeded numbers: Mulberry32 (Tommy Ettinger, public domain); Box & Muller, Ann. Math. Stat. 29 (1958) 610. */
export function random(seed: number): Random {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    between: (low, high) => low * (high / low) ** uniform(),
  };
}

/** The recorders of the issue: scope 0.2 to 10 kHz, polled 1 to 10 Hz, noise 0 to 30 mV, steps of 1 to 20 mV. */
export function someRecorder(kind: Recorder["kind"], next: Random): Recorder {
  const isPolled = kind === "polled";
  return {
    kind,
    rate: isPolled ? next.between(1, 10) : next.between(200, 10_000),
    noise: next.uniform() < 0.1 ? 0 : 0.03 * next.uniform(),
    quantum: next.between(0.001, 0.02),
    jitter: isPolled ? 0.3 * next.uniform() : 0,
    repeats: isPolled && next.uniform() < 0.5 ? 0.2 * next.uniform() : 0,
    losses: isPolled && next.uniform() < 0.5 ? 0.1 * next.uniform() : 0,
  };
}

/** Noise and quantisation together, as one deviation. */
export function disturbance({ noise, quantum }: Recorder): number {
  return Math.hypot(noise, quantum / Math.sqrt(12));
}

/** Row instants over a span: evenly spaced with a random phase, then jittered, then thinned. */
export function rows(recorder: Recorder, from: number, to: number, next: Random): Float64Array {
  const step = 1 / recorder.rate;
  const first = from + step * next.uniform();
  const all = Float64Array.from(
    { length: Math.floor((to - first) / step) + 1 },
    (_, i) => first + step * (i + recorder.jitter * (next.uniform() - 0.5)),
  );
  return recorder.losses > 0 ? all.filter(() => next.uniform() >= recorder.losses) : all;
}

/**
 * What the recorder writes at the given row instants.
 *
 * @param age  by how much each value is older than its row, s.
 */
export function record(
  signal: (t: number) => number,
  stamps: Float64Array,
  recorder: Recorder,
  next: Random,
  age: () => number = () => 0,
): Series {
  const { noise, quantum, repeats } = recorder;
  const samples = new Float64Array(stamps.length);
  for (let i = 0; i < stamps.length; i++) {
    const isRepeat = i > 0 && next.uniform() < repeats;
    const value = signal(stamps[i]! - age()) + noise * next.normal();
    samples[i] = isRepeat ? samples[i - 1]! : quantum * Math.round(value / quantum);
  }
  const step = 1 / recorder.rate;
  if (recorder.kind === "scope") {
    return { time: { kind: "even", start: stamps[0]!, step, count: stamps.length }, samples };
  }
  return { time: { kind: "stamped", stamps }, samples };
}

/** The same series, its values up to one row older than their stamps. */
export function doubted(series: Series, doubt: StampDoubt): Series {
  return { ...series, time: { ...series.time, doubt } };
}
