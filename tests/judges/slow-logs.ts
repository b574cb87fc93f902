// Delays and crossing ratios in slow logs of cars that are none of ours: rides of the second and third plant, asked by a bus loop built here.

import { measurePair } from "../../src/exhaust/activity/pair.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { open } from "../capture/open.ts";
import { drawSecond } from "./second-plant/cars.ts";
import { ride as rideSecond, type Track } from "./second-plant/plant.ts";
import { drawThird } from "./third-plant/cars.ts";
import { type Chance, chanceOf } from "./third-plant/chance.ts";
import { ride as rideThird } from "./third-plant/plant.ts";

export const foreignPlants = ["second", "third"] as const;
export type ForeignPlant = (typeof foreignPlants)[number];

/** What both plants tell of a ride, in even steps. */
export interface Ridden {
  readonly step: number;
  readonly tracks: Readonly<Record<Track, ArrayLike<number>>>;
  readonly cut: Uint8Array;
  readonly hot: Uint8Array;
}

const kinds = ["healthy", "dead", "worn", "slow-rear", "dead-behind-slow-rear", "slow-front"] as const;
/** Cars of these numbers are in no other table. */
const firstNumber = 5000;

/** A ride with a switching front sensor; two drawings of the same plant and number are the same. */
export function riddenBy(plant: ForeignPlant, number: number): Ridden {
  const kind = kinds[number % kinds.length]!;
  if (plant === "second") return rideSecond(drawSecond(kind, firstNumber + number).plant);
  for (let at = firstNumber + 100 * number; ; at++) {
    const car = drawThird(kind, at, true);
    if (!car.wide) return rideThird(car.plant);
  }
}

/** How a log asks, and how it writes what it was answered. */
export interface Asking {
  /** Answers one at a time, in this order. */
  readonly channels: readonly Track[];
  /** s from a question to its answer. */
  readonly answers: readonly [least: number, most: number];
  /** A row when all have answered; at each answer, the others as they were or empty; or at the beat of a timer. */
  readonly writes: "rounds" | "held" | "blank" | "timer";
  /** V of noise in the sensors; 0: still. */
  readonly noise: number;
}

/** A timer beats after so many rounds of answers at most, and never before a new one is there. */
const slack = 1.3;
const others: readonly Track[] = ["speed", "throttle", "road", "air", "coolant", "load", "manifold", "short", "long"];

/** @param rows  wanted rows a second, least and most; the channels in turn are 2 to 11. */
export function someAsking(chance: Chance, [least, most]: readonly [number, number], writes: Asking["writes"]): Asking {
  const more = Math.floor(chance.between(2, 9.99));
  const channels: Track[] = ["front", ...others.slice(0, more), "rear"];
  const rows = chance.between(least, most);
  const perRow = { rounds: channels.length, timer: slack * channels.length, held: 1, blank: 1 }[writes];
  const each = 1 / (rows * perRow);
  const spread = chance.between(0, 0.4);
  const noise = chance.happens(0.5) ? 0 : chance.between(0.003, 0.012);
  return { channels, answers: [each * (1 - spread), each * (1 + spread)], writes, noise };
}

const names: Readonly<Record<Track, string>> = {
  front: "O2 B1S1 (V)",
  rear: "O2 B1S2 (V)",
  speed: "Engine speed (1/min)",
  throttle: "Throttle (%)",
  road: "Road speed (km/h)",
  air: "Air flow (g/s)",
  load: "Engine load (%)",
  manifold: "Manifold pressure (kPa)",
  coolant: "Coolant temperature (°C)",
  short: "Short fuel trim (%)",
  long: "Long fuel trim (%)",
  loop: "Fuel system status",
};
/** SAE J1979 scalings: 5 mV, a quarter of 1/min, 1/2.55 %, 1 km/h, 0.01 g/s. */
const steps: Readonly<Record<Track, number>> = {
  ...{ front: 0.005, rear: 0.005, speed: 0.25, throttle: 1 / 2.55, road: 1, air: 0.01 },
  ...{ load: 1 / 2.55, manifold: 1, coolant: 1, short: 0.78125, long: 0.78125, loop: 1 },
};

/** The log as text: a stamp is that of the moment at which its row is written. */
export function logged({ step, tracks }: Ridden, asking: Asking, chance: Chance): string {
  const { channels, answers, writes, noise } = asking;
  const end = (tracks.front.length - 1) * step;
  const known: string[] = channels.map(() => "");
  const rows: string[] = [`Time (s),${channels.map((track) => names[track]).join(",")}`];
  const row = (at: number, cells: readonly string[]) => rows.push(`${at.toFixed(3)},${cells.join(",")}`);
  const beat = (slack * channels.length * (answers[0] + answers[1])) / 2;
  let [now, next] = [0, beat];
  while (now < end) {
    for (const [k, track] of channels.entries()) {
      now += chance.between(answers[0], answers[1]);
      if (now >= end) break;
      while (writes === "timer" && next < now) {
        row(next, known);
        next += beat;
      }
      const isSensor = track === "front" || track === "rear";
      const value = tracks[track][Math.round(now / step)]! + (isSensor ? noise * chance.bell() : 0);
      known[k] = (steps[track] * Math.round(value / steps[track])).toFixed(3);
      if (writes === "held") row(now, known);
      if (writes === "blank")
        row(
          now,
          channels.map((_, c) => (c === k ? known[k]! : "")),
        );
    }
    if (writes === "rounds") row(now, known);
  }
  return `${rows.join("\n")}\n`;
}

/** Rows a second, and s until a channel's next value stands in a row. */
export function paceOf({ channels, answers, writes }: Asking): { readonly rows: number; readonly again: number } {
  const each = (answers[0] + answers[1]) / 2;
  const round = each * channels.length;
  const beat = (slack * channels.length * (answers[0] + answers[1])) / 2;
  return {
    rows: 1 / (writes === "rounds" ? round : writes === "timer" ? beat : each),
    again: Math.max(round, writes === "timer" ? beat : 0),
  };
}

/** A cut in which both sensors came down from rich to stay: from the front's last passage of 0.45 V to the rear's. */
export interface Fallen {
  readonly at: number;
  readonly delay: number;
}

export function fallsOf({ step, tracks, cut, hot }: Ridden): Fallen[] {
  const found: Fallen[] = [];
  for (let i = 1; i < cut.length; i++) {
    if (!cut[i] || cut[i - 1] || !hot[i]) continue;
    let end = i;
    while (end < cut.length && cut[end]) end++;
    const before = Math.max(0, i - Math.round(0.3 / step));
    const [f, r] = [tracks.front, tracks.rear].map((trace) => staysFrom(trace, before, end));
    if (f !== null && r !== null) found.push({ at: i * step, delay: (r! - f!) * step });
    i = end;
  }
  return found;
}

/** The last sample at or above 0.45 V before `end`, where the trace is above it at `begin` and below it at `end`. */
function staysFrom(trace: ArrayLike<number>, begin: number, end: number): number | null {
  if (trace[begin]! < 0.45 || trace[end - 1]! >= 0.45) return null;
  let last = end - 1;
  while (trace[last]! < 0.45) last--;
  return last;
}

export interface Told {
  readonly truth: number;
  readonly low: number;
  readonly high: number;
  readonly isHeld: boolean;
}

const toldOf = (truth: number, low: number | null, high: number | null): Told => {
  const [least, most] = [low ?? 0, high ?? Infinity];
  return { truth, low: least, high: most, isHeld: least <= truth + 1e-9 && truth <= most + 1e-9 };
};

export interface SlowTrial {
  readonly plant: ForeignPlant;
  readonly asking: Asking;
  readonly falls: number;
  readonly delays: readonly Told[];
  /** Lift-offs counted where no cut was. */
  readonly invented: number;
}

const writings = ["rounds", "held", "blank", "timer"] as const;

/** Delays, at 1 to 14 rows a second. */
export async function delayTrial(plant: ForeignPlant, number: number): Promise<SlowTrial> {
  const chance = chanceOf(`slow log ${plant} ${number}`);
  const ridden = riddenBy(plant, number);
  const asking = someAsking(chance, [1, 14], writings[number % writings.length]!);
  const capture = await open(logged(ridden, asking, chance), {}, "slow.csv");
  const falls = fallsOf(ridden);
  const events = analyse(capture, { bank: 1 }).liftOffs.filter(({ rejected }) => rejected === null);
  const { again } = paceOf(asking);
  // The time of a capture begins with its first row.
  const begin = startOf(asking);
  const near = (at: number, other: number) => Math.abs(at + begin - other) < 2.5 + 2 * again;
  const delays = falls.flatMap(({ at, delay }) => {
    const event = events.find((one) => near(one.at, at));
    if (!event || event.delay.grade === "not-resolvable") return [];
    // Gas cannot arrive before it left: a rear that is quicker than the front makes no delay below none.
    return [toldOf(Math.max(0, delay), event.delay.low, event.delay.high)];
  });
  const invented = events.filter((one) => !isCutNear(ridden, one.at + begin, 2.5 + 2 * again)).length;
  return { plant, asking, falls: falls.length, delays, invented };
}

/** About the stamp of the first row. */
const startOf = ({ channels, answers, writes }: Asking): number =>
  ((answers[0] + answers[1]) / 2) * (writes === "rounds" || writes === "timer" ? channels.length : 1);

function isCutNear({ cut, step }: Ridden, at: number, within: number): boolean {
  for (let i = Math.max(0, Math.round((at - within) / step)); i < Math.min(cut.length, (at + within) / step); i++)
    if (cut[i]) return true;
  return false;
}

export interface RatioTrial {
  readonly plant: ForeignPlant;
  readonly asking: Asking;
  /** Null where the log cannot support one. */
  readonly told: Told | null;
}

/** Crossings of the rear over those of the front, hot, in all channels' rows, 5 to 14 of them a second. */
export async function ratioTrial(plant: ForeignPlant, number: number): Promise<RatioTrial> {
  const chance = chanceOf(`slow ratio ${plant} ${number}`);
  const ridden = riddenBy(plant, number);
  const asking = someAsking(chance, [5, 14], "rounds");
  const capture = await open(logged(ridden, asking, chance), {}, "slow.csv");
  const begin = startOf(asking);
  const from = Math.max(20, ridden.hot.indexOf(1) * ridden.step);
  const to = (ridden.cut.length - 1) * ridden.step;
  if (!(to - from > 30)) return { plant, asking, told: null };
  const { activity } = measurePair(capture, 1, { from: from - begin, to: to - begin });
  const h = Math.max(0.05, 4 * asking.noise);
  const [front, rear] = [ridden.tracks.front, ridden.tracks.rear].map((trace) =>
    passages(trace, from / ridden.step, h),
  );
  const reading = activity?.crossingRatio;
  if (!reading || reading.grade === "not-resolvable" || front === 0) return { plant, asking, told: null };
  return { plant, asking, told: toldOf(rear! / front!, reading.low, reading.high) };
}

/** Passages from one side of 0.45 V ± h to the other. */
function passages(trace: ArrayLike<number>, from: number, h: number): number {
  let [side, count] = [0, 0];
  for (let i = Math.round(from); i < trace.length; i++) {
    const now = trace[i]! > 0.45 + h ? 1 : trace[i]! < 0.45 - h ? -1 : 0;
    if (now !== 0 && now === -side) count++;
    if (now !== 0) side = now;
  }
  return count;
}
