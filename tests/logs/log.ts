// What a log keeps of a drive: rows, and in each the value of every channel as it was when last asked for.

import type { Random } from "../reference/recorders.ts";
import type { Drive } from "./plant.ts";

export const logged = ["engineSpeed", "throttle", "roadSpeed", "airFlow", "front", "rear"] as const;
export type Logged = (typeof logged)[number];

export interface LogRule {
  readonly rows: number;
  readonly channels: readonly Logged[];
  /** Rows for which each channel is kept before it is asked for again; 1: anew in every row. */
  readonly turn: number;
  /** What stands in the rows between: the value again, or nothing. */
  readonly between: "held" | "blank";
  /** Spread of the row instants, share of the step. */
  readonly jitter: number;
  /** Deviation and step of the sensors' values, V. */
  readonly noise: number;
  readonly quantum: number;
}

export interface Log {
  /** Of the rows, s; a value is at most one row older when it is new. */
  readonly stamps: Float64Array;
  readonly columns: Readonly<Record<string, Float64Array>>;
}

const quanta: Readonly<Record<Logged, number>> = {
  engineSpeed: 0.25,
  throttle: 100 / 255,
  roadSpeed: 1,
  airFlow: 0.01,
  front: 0,
  rear: 0,
};

/** Channels are asked for one after the other: k of n in row r where r % turn falls on its place. */
export function logOf(drive: Drive, rule: LogRule, next: Random): Log {
  const step = 1 / rule.rows;
  const seconds = drive.front.length * drive.step;
  const count = Math.floor(seconds / step) - 1;
  const stamps = Float64Array.from({ length: count }, (_, i) => step * (i + 1 + rule.jitter * (next.uniform() - 0.5)));
  const columns = Object.fromEntries(
    rule.channels.map((name, k) => [name, column(drive, name, k / rule.channels.length, { rule, stamps, next })]),
  );
  return { stamps, columns };
}

function column(
  drive: Drive,
  name: Logged,
  place: number,
  { rule, stamps, next }: { readonly rule: LogRule; readonly stamps: Float64Array; readonly next: Random },
): Float64Array {
  const isSensor = name === "front" || name === "rear";
  const quantum = isSensor ? rule.quantum : quanta[name];
  const out = new Float64Array(stamps.length).fill(Number.NaN);
  const first = Math.floor(place * rule.turn);
  let last = Number.NaN;
  for (let i = 0; i < stamps.length; i++) {
    if (i % rule.turn === first) {
      const asked = stamps[i]! - (1 - ((place * rule.turn) % 1)) / rule.rows;
      const value = drive[name][Math.max(0, Math.min(drive.front.length - 1, Math.round(asked / drive.step)))]!;
      const noisy = value + (isSensor ? rule.noise * next.normal() : 0);
      last = quantum > 0 ? quantum * Math.round(noisy / quantum) : noisy;
      out[i] = last;
    } else if (rule.between === "held") out[i] = last;
  }
  return out;
}
