// Captures made by hand for the tests of this folder.

import type { Bank, Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import { liftOffsOf } from "../../src/exhaust/lift-offs/lift-offs.ts";
import { awakeningOf } from "../../src/exhaust/sensors/awake.ts";
import type { LiftOff, LiftOffEdit } from "../../src/exhaust/terms/analysis.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { type Limits, limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { anew, answering } from "../../src/exhaust/terms/remembered.ts";
import type { Samples, StampDoubt, TimeBase } from "../../src/signal/series/series.ts";

const units: Partial<Record<Role, string>> = {
  "front-o2": "V",
  "rear-o2": "V",
  "front-lambda": "1",
  "engine-speed": "1/min",
  throttle: "%",
  "road-speed": "km/h",
  "air-flow": "g/s",
  "short-trim": "%",
  "long-trim": "%",
  "coolant-temp": "degC",
  "catalyst-temp": "degC",
  "fuel-status": "1",
};

export interface Part {
  readonly role: Role;
  readonly time: TimeBase;
  readonly samples: Samples;
  readonly bank?: Bank;
  readonly unit?: string;
  readonly name?: string;
  readonly polled?: boolean;
}

export function capture(...parts: Part[]): Capture {
  const channels = parts.map(
    ({ role, time, samples, bank = 1, unit = units[role] ?? "", name = role, polled = false }, k): Channel => ({
      id: `c${k + 1}`,
      name,
      unit,
      fileUnit: unit,
      role,
      bank,
      series: { time, samples },
      polled,
    }),
  );
  return { name: "made.csv", format: "made for a test", startedAt: null, channels, remarks: [] };
}

/** A function of time sampled evenly. */
export function even(role: Role, seconds: number, rate: number, value: (t: number) => number): Part {
  const count = Math.round(seconds * rate);
  return {
    role,
    time: { kind: "even", start: 0, step: 1 / rate, count },
    samples: Float64Array.from({ length: count }, (_, i) => value(i / rate)),
  };
}

/** Rows with a stamp each; `doubt` for a log whose order of asking is unknown. */
export function rows(role: Role, stamps: readonly number[], values: readonly number[], doubt?: StampDoubt): Part {
  return {
    role,
    time: { kind: "stamped", stamps: Float64Array.from(stamps), ...(doubt ? { doubt } : {}) },
    samples: Float64Array.from(values),
    polled: true,
  };
}

/** 0.1 and 0.9 V, rich first. */
export const square =
  (frequency: number, late = 0) =>
  (t: number): number =>
    (((t - late) * frequency) % 1) + ((t - late) * frequency < 0 ? 1 : 0) < 0.5 ? 0.9 : 0.1;

/** Seeded normal noise (Box & Muller, Ann. Math. Stat. 29 (1958) 610, on a linear congruential generator). */
export function noise(seed: number, sigma: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => sigma * Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/**
 * Switches at 1 Hz, is rich from `pull` on, falls at `fall` and is rich again at `back`.
 */
export function liftOff(fall: number, back: number, pull = fall - 3): (t: number) => number {
  return (t) => (t < pull || t > back + 2 ? square(1)(t) : t < fall || t >= back ? 0.85 : 0.05);
}

/** For tests that judge nothing by it: the store is not fitted, which takes longer than all the rest. */
export const withoutStore = answering(anew, "store", null);

/** Lift-offs of a bank as a whole analysis finds them. */
export function findLiftOffs(
  made: Capture,
  bank: Bank,
  edits: readonly LiftOffEdit[] = [],
  limits: Limits = limitsInForce(),
): LiftOff[] {
  const channels = channelsOf(made, bank);
  const rearAwake = channels.rear && awakeningOf(channels.rear, limits);
  return liftOffsOf({ channels, limits, edits, rearAwake, pipe: undefined });
}
