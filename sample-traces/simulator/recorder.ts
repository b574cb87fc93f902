// What a recorder makes of a drive: a scope that samples evenly with noise, or a log that asks one value after another.

import type { Random } from "./random.ts";
import type { History, Quantity } from "./run.ts";

export interface Recording {
  readonly kind: "scope" | "polled";
  /** Second of the drive at which the first row was stamped. */
  readonly start: number;
  /** s from the first row; a polled row is stamped when its last answer has come in. */
  readonly stamps: Float64Array;
  readonly columns: readonly RecordedColumn[];
}

export interface RecordedColumn {
  readonly quantity: Quantity;
  readonly samples: Float64Array;
  /** s from the first row: when each value of a polled log was really taken. */
  readonly taken?: Float64Array;
}

export interface ScopeSpec {
  readonly kind: "scope";
  /** Samples/s. */
  readonly rate: number;
  /** Seconds of the drive: first sample, end (exclusive). */
  readonly from: number;
  readonly to: number;
  /** V: standard deviation of the noise on the sensor leads, and the step of the converter. */
  readonly noise: number;
  /** V by which the recorder's ground lies below that of the sensors; absent: 0. */
  readonly offset?: number;
  readonly resolution: number;
  readonly channels: readonly Quantity[];
}

export interface PollSpec {
  readonly kind: "polled";
  readonly requestsPerSecond: number;
  /** Standard deviation of the time between answers, as a share of it. */
  readonly jitter: number;
  readonly from: number;
  readonly to: number;
  /** In the order of asking. */
  readonly channels: readonly Quantity[];
  /** Chance that an answer of the slow channels is missed and the log repeats the value before. */
  readonly missed: number;
  /**
   * When a row is written: with the last answer of a round (absent), with every answer, or so many times a second; what has
   * not been asked again stands there as before.
   */
  readonly writes?: "each-answer" | number;
  /** As of a scope. */
  readonly offset?: number;
}

/** Steps in which a module tells a value: SAE J1979, as far as it has the quantity. */
const told: Record<Quantity, number> = {
  frontVoltage: 0.005,
  rearVoltage: 0.005,
  throttle: 100 / 255,
  engineSpeed: 0.25,
  roadSpeed: 1,
  airFlow: 0.01,
  engineLoad: 100 / 255,
  manifoldPressure: 1,
  coolant: 1,
  shortTrim: 100 / 128,
  longTrim: 100 / 128,
  fuelStatus: 1,
  catalystTemperature: 0.1,
};

/** On a scope the slow quantities come from transducers or the car's bus: standard deviation of noise, step. */
const transducer: Partial<Record<Quantity, readonly [noise: number, resolution: number]>> = {
  throttle: [0, 0.5],
  engineSpeed: [0.5, 10],
  airFlow: [0.01, 0.2],
  engineLoad: [0, 0.5],
  manifoldPressure: [0.2, 0.5],
  roadSpeed: [0, 1],
  coolant: [0, 1],
  shortTrim: [0, 0.5],
  longTrim: [0, 0.5],
  fuelStatus: [0, 1],
};

const isFast = (quantity: Quantity) => quantity === "frontVoltage" || quantity === "rearVoltage";

export function recordScope(history: History, spec: ScopeSpec, random: Random): Recording {
  const count = Math.floor((spec.to - spec.from) * spec.rate);
  const stamps = Float64Array.from({ length: count }, (_, i) => i / spec.rate);
  const columns = spec.channels.map((quantity) => {
    const [noise, resolution] = transducer[quantity] ?? [spec.noise, spec.resolution];
    const offset = isFast(quantity) ? (spec.offset ?? 0) : 0;
    const samples = new Float64Array(count);
    const chance = random.split();
    for (let i = 0; i < count; i++) {
      const value = valueAt(history, quantity, spec.from + stamps[i]!) + offset + noise * chance.normal();
      samples[i] = Math.round(value / resolution) * resolution;
    }
    return { quantity, samples };
  });
  return { kind: "scope", start: spec.from, stamps, columns };
}

export function recordPolled(history: History, spec: PollSpec, random: Random): Recording {
  const rows: number[] = [];
  const taken = spec.channels.map(() => [] as number[]);
  const values = spec.channels.map(() => [] as number[]);
  let clock = spec.from;
  while (clock < spec.to) {
    spec.channels.forEach((quantity, c) => {
      clock += (1 / spec.requestsPerSecond) * Math.max(0.3, 1 + spec.jitter * random.normal());
      const missed = !isFast(quantity) && random.chance(spec.missed) && rows.length > 0;
      taken[c]!.push(clock);
      values[c]!.push(missed ? values[c]!.at(-1)! : answer(history, quantity, clock, spec.offset));
    });
    rows.push(clock);
  }
  const start = rows[0]!;
  const round: Recording = {
    kind: "polled",
    start,
    stamps: Float64Array.from(rows, (t) => t - start),
    columns: spec.channels.map((quantity, c) => ({
      quantity,
      samples: Float64Array.from(values[c]!),
      taken: Float64Array.from(taken[c]!, (t) => t - start),
    })),
  };
  return spec.writes === undefined ? round : held(round, spec.writes);
}

/** The same answers, written in more rows: each shows the last answer of every channel. */
function held(round: Recording, writes: "each-answer" | number): Recording {
  const end = round.stamps.at(-1)!;
  const stamps =
    writes === "each-answer"
      ? Float64Array.from(round.columns.flatMap(({ taken }) => [...taken!]))
          .sort()
          .filter((t) => t >= 0)
      : Float64Array.from({ length: Math.floor(end * writes) + 1 }, (_, k) => k / writes);
  const columns = round.columns.map(({ quantity, samples, taken }) => {
    let place = 0;
    const last = Float64Array.from(stamps, (t) => {
      while (place + 1 < taken!.length && taken![place + 1]! <= t) place++;
      return place;
    });
    return { quantity, samples: last.map((at) => samples[at]!), taken: last.map((at) => taken![at]!) };
  });
  return { ...round, stamps, columns };
}

function answer(history: History, quantity: Quantity, seconds: number, offset = 0): number {
  const shown = valueAt(history, quantity, seconds) + (isFast(quantity) ? offset : 0);
  const value = Math.round(shown / told[quantity]) * told[quantity];
  return isFast(quantity) ? Math.max(0, value) : value;
}

/** Straight line between two steps of the simulation; a status does not lie between two others. */
function valueAt(history: History, quantity: Quantity, seconds: number): number {
  const values = history[quantity];
  const place = Math.min(history.count - 1, seconds / history.step);
  const i = Math.min(history.count - 2, Math.floor(place));
  if (quantity === "fuelStatus") return values[i]!;
  return values[i]! + (values[i + 1]! - values[i]!) * (place - i);
}
