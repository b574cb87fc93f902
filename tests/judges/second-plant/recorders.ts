// What the second plant is recorded with, as text of an invented dialect: a scope's even samples, or a log that asks in turn.

import type { Chance } from "./chance.ts";
import type { Ride, Track } from "./plant.ts";

export interface Recorded {
  readonly kind: "scope" | "log";
  /** Samples/s of a scope; times a second that a log asks each of its columns. */
  readonly rate: number;
  readonly offset: number;
  readonly columns: readonly { readonly track: Track; readonly samples: Float64Array }[];
  /** s of each row. */
  readonly stamps: Float64Array;
}

export interface RecorderWish {
  readonly kind: "scope" | "log";
  readonly offset: number;
  readonly swapped: boolean;
  /** Trims are needed to tell the fault. */
  readonly trims: boolean;
}

const scopeSets: readonly (readonly Track[])[] = [
  [],
  ["throttle", "speed"],
  ["speed", "throttle", "air"],
  ["speed", "throttle", "air", "coolant"],
  ["speed", "manifold", "throttle"],
  ["speed", "air", "short", "long", "loop", "coolant"],
];
const logSets: readonly (readonly Track[])[] = [
  ["speed", "air"],
  ["speed", "throttle", "air", "short"],
  ["speed", "load", "throttle", "coolant"],
  ["speed", "throttle", "air", "coolant", "short", "long", "loop"],
  ["speed", "manifold", "throttle", "road", "short", "long"],
];
/** Steps in which a module tells them (SAE J1979). */
const stepOf: Record<Track, number> = {
  front: 0.005,
  rear: 0.005,
  speed: 0.25,
  throttle: 100 / 255,
  road: 1,
  air: 0.01,
  load: 100 / 255,
  manifold: 1,
  coolant: 1,
  short: 100 / 128,
  long: 100 / 128,
  loop: 1,
};

export function record(ride: Ride, wish: RecorderWish, chance: Chance): Recorded {
  const sets = wish.kind === "scope" ? scopeSets : logSets;
  const others = wish.trims ? (wish.kind === "scope" ? sets[5]! : sets[3]!) : chance.oneOf(sets);
  const plain = wish.kind === "scope" ? sampled(ride, others, wish, chance) : asked(ride, others, wish, chance);
  if (!wish.swapped) return plain;
  const other = (track: Track): Track => (track === "front" ? "rear" : track === "rear" ? "front" : track);
  return { ...plain, columns: plain.columns.map(({ track, samples }) => ({ track: other(track), samples })) };
}

const isSensor = (track: Track) => track === "front" || track === "rear";

function at(ride: Ride, track: Track, seconds: number): number {
  const values = ride.tracks[track];
  const place = Math.min(ride.count - 1.001, Math.max(0, seconds / ride.step));
  const i = Math.floor(place);
  return track === "loop" ? values[i]! : values[i]! + (values[i + 1]! - values[i]!) * (place - i);
}

/** Noise of the leads with a little hum of the ignition; a converter of 8 to 12 bits over 2 V. */
function sampled(ride: Ride, others: readonly Track[], { offset }: RecorderWish, chance: Chance): Recorded {
  const rate = chance.happens(0.08) ? 1000 : Math.round(chance.decades(100, 450));
  const count = Math.floor(ride.count * ride.step * rate);
  const [noise, hum] = [chance.decades(0.001, 0.015), chance.decades(0.0005, 0.006)];
  const bit = 2 / 2 ** chance.oneOf([8, 10, 12]);
  const stamps = Float64Array.from({ length: count }, (_, k) => k / rate);
  const columns = (["front", "rear", ...others] as const).map((track) => {
    const own = chance.branch(`noise of ${track}`);
    const step = isSensor(track) ? bit : stepOf[track];
    const samples = stamps.map((t) => {
      const value = at(ride, track, t);
      const shown = isSensor(track)
        ? value + offset + noise * own.bell() + hum * Math.sin(2 * Math.PI * 49.3 * t)
        : value;
      return Math.round(shown / step) * step;
    });
    return { track, samples };
  });
  return { kind: "scope", rate, offset, columns, stamps };
}

/** One request after another; rows by rounds, by answers, or by a clock that repeats what it last heard. */
function asked(ride: Ride, others: readonly Track[], { offset }: RecorderWish, chance: Chance): Recorded {
  const order = chance.happens(0.3)
    ? [...others, "front" as const, "rear" as const]
    : (["front", ...others, "rear"] as const);
  // Half of them quick enough to be judged by.
  const rate = chance.happens(0.5) ? chance.between(8, 14) : chance.decades(1, 14);
  const end = ride.count * ride.step;
  const answers: { t: number; column: number; value: number }[] = [];
  const every = 1 / (rate * order.length);
  for (let t = chance.between(0, 0.2), k = 0; t < end; k++) {
    const track = order[k % order.length]!;
    const value = at(ride, track, t) + (isSensor(track) ? offset : 0);
    const told = Math.round(value / stepOf[track]) * stepOf[track];
    answers.push({ t, column: k % order.length, value: isSensor(track) ? Math.max(0, told) : told });
    // Now and then the bus is busy.
    t += every * (chance.happens(0.01) ? chance.between(2, 6) : chance.between(0.8, 1.25));
  }
  const style = chance.oneOf(["round", "round", "answer", "clock"] as const);
  const clock = chance.oneOf([4, 8, 10, 16]);
  const rows = rowTimes(answers, order.length, style, clock, end);
  return { kind: "log", rate, offset, ...laidOut(answers, order, rows) };
}

type Answer = { readonly t: number; readonly column: number; readonly value: number };

function rowTimes(
  answers: readonly Answer[],
  columns: number,
  style: "round" | "answer" | "clock",
  clock: number,
  end: number,
) {
  const complete = answers.filter((_, k) => k >= columns - 1);
  if (style === "answer") return complete.map(({ t }) => t);
  if (style === "round") return complete.filter(({ column }) => column === columns - 1).map(({ t }) => t);
  const first = complete[0]?.t ?? 0;
  return Array.from({ length: Math.max(0, Math.floor((end - first) * clock)) }, (_, k) => first + k / clock);
}

function laidOut(answers: readonly Answer[], order: readonly Track[], rows: readonly number[]) {
  const columns = order.map((track) => ({ track, samples: new Float64Array(rows.length) }));
  const last = new Float64Array(order.length).fill(Number.NaN);
  let next = 0;
  rows.forEach((t, row) => {
    while (next < answers.length && answers[next]!.t <= t) {
      last[answers[next]!.column] = answers[next]!.value;
      next++;
    }
    columns.forEach(({ samples }, c) => {
      samples[row] = last[c]!;
    });
  });
  const start = rows[0] ?? 0;
  return { columns, stamps: Float64Array.from(rows, (t) => t - start) };
}

const headers: Record<Track, readonly [name: string, decimals: number]> = {
  front: ["Oxygen sensor before catalyst [V]", 3],
  rear: ["Oxygen sensor after catalyst [V]", 3],
  speed: ["Engine speed [1/min]", 0],
  throttle: ["Throttle position [%]", 1],
  road: ["Vehicle speed [km/h]", 0],
  air: ["Mass air flow [g/s]", 2],
  load: ["Calculated load [%]", 1],
  manifold: ["Manifold absolute pressure [kPa]", 0],
  coolant: ["Coolant temperature [degC]", 0],
  short: ["Short term fuel trim [%]", 1],
  long: ["Long term fuel trim [%]", 1],
  loop: ["Fuel system status", 0],
};

export const nameOf = (track: Track): string => headers[track][0];

export function asText({ columns, stamps }: Recorded): string {
  const lines = [["Elapsed [s]", ...columns.map(({ track }) => headers[track][0])].join(";")];
  stamps.forEach((t, row) => {
    const cells = columns.map(({ track, samples }) =>
      samples[row]!.toFixed(headers[track][1]).replace("-0.000", "0.000"),
    );
    lines.push([t.toFixed(3), ...cells].join(";"));
  });
  return `${lines.join("\n")}\n`;
}
