// Scopes and logs of a ride: what each sees of it, and how a log writes it down.

import type { Chance } from "./chance.ts";
import type { Ride, Track } from "./plant.ts";

export interface Recorded {
  readonly kind: "scope" | "log";
  /** Samples/s, or times a second that each channel is asked. */
  readonly rate: number;
  readonly stamps: Float64Array;
  readonly columns: readonly { readonly track: Track; readonly samples: Float64Array }[];
}

export interface Wish {
  readonly kind: "scope" | "log";
  readonly wide: boolean;
  /** V of ground between sensor and recorder, and whether only the rear's lead has it. */
  readonly offset: { readonly volts: number; readonly rearOnly: boolean };
  readonly swapped: boolean;
  readonly trims: boolean;
}

/** Steps of what a module sends (SAE J1979 scalings; 5 mV, 1 km/h, 0.01 g/s, 1/2.55 %). */
const sent: Record<Track, number> = {
  front: 0.005,
  rear: 0.005,
  lambda: 0.0001,
  speed: 0.25,
  throttle: 0.392,
  road: 1,
  air: 0.01,
  load: 0.392,
  manifold: 1,
  coolant: 1,
  short: 0.78125,
  long: 0.78125,
  loop: 1,
};

export function record(ride: Ride, wish: Wish, chance: Chance): Recorded {
  return wish.kind === "scope" ? scope(ride, wish, chance) : log(ride, wish, chance);
}

/** Value of a track at a moment, s, straight between steps; words of state as they stood. */
function valueAt(ride: Ride, track: Track, at: number): number {
  const samples = ride.tracks[track];
  const place = Math.min(ride.count - 1, Math.max(0, at / ride.step));
  const k = Math.floor(place);
  if (track === "loop" || k + 1 >= ride.count) return samples[k]!;
  return samples[k]! + (place - k) * (samples[k + 1]! - samples[k]!);
}

const rounded = (value: number, to: number): number => Math.round(value / to) * to;
const isSensor = (track: Track) => track === "front" || track === "rear";

function sourceOf(track: Track, { swapped }: Wish): Track {
  if (!swapped || !isSensor(track)) return track;
  return track === "front" ? "rear" : "front";
}

const groundOf = (source: Track, { offset }: Wish): number =>
  source === "rear" || (source === "front" && !offset.rearOnly) ? offset.volts : 0;

function scopeTracks({ wide, trims }: Wish, chance: Chance): Track[] {
  const extras = (["speed", "air", "throttle", "road", "manifold", "load"] as const).filter((track) =>
    chance.happens({ speed: 0.7, air: 0.75, throttle: 0.65, road: 0.25, manifold: 0.25, load: 0.2 }[track]),
  );
  const data: Track[] = trims ? ["short", "long", "coolant"] : chance.happens(0.15) ? ["short", "loop"] : [];
  return [wide ? "lambda" : "front", "rear", ...data, ...extras].slice(0, 8) as Track[];
}

function scope(ride: Ride, wish: Wish, chance: Chance): Recorded {
  const rate = Math.round(chance.spread(50, 1000));
  const count = Math.floor(ride.count * ride.step * rate);
  const stamps = Float64Array.from({ length: count }, (_, i) => i / rate);
  const columns = scopeTracks(wish, chance).map((track) => ({
    track,
    samples: isSensor(track)
      ? lead(ride, wish, chance, { track, rate, count })
      : wired(ride, chance, { track, rate, count }),
  }));
  return { kind: "scope", rate, stamps, columns };
}

interface Sampling {
  readonly track: Track;
  readonly rate: number;
  readonly count: number;
}

/** A sensor's lead: noise, the ripple of ignition and alternator, ground, and the converter's steps. */
function lead(ride: Ride, wish: Wish, chance: Chance, { track, rate, count }: Sampling): Float64Array {
  const source = sourceOf(track, wish);
  const [noise, ripple, ground] = [chance.spread(0.001, 0.012), chance.spread(0.001, 0.02), groundOf(source, wish)];
  const bits = chance.pick([0.001, 0.005, 0.01, 0.02]);
  const samples = new Float64Array(count);
  let angle = chance.between(0, 1);
  for (let i = 0; i < count; i++) {
    const at = i / rate;
    angle += valueAt(ride, "speed", at) / 30 / rate;
    const disturbed = noise * chance.bell() + ripple * Math.sin(2 * Math.PI * angle) ** 9;
    samples[i] = rounded(valueAt(ride, source, at) + ground + disturbed, bits);
  }
  return samples;
}

/** What a probe or the module's data link lays beside the leads. */
function wired(ride: Ride, chance: Chance, { track, rate, count }: Sampling): Float64Array {
  const isData = track === "short" || track === "long" || track === "coolant" || track === "loop";
  const noise = { speed: 6, air: 0.06, throttle: 0.15, manifold: 0.4, load: 0.2, road: 0.1, lambda: 0.0008 } as Partial<
    Record<Track, number>
  >;
  const sigma = noise[track] ?? 0;
  return Float64Array.from({ length: count }, (_, i) => {
    const at = isData ? Math.floor((4 * i) / rate) / 4 : i / rate;
    const value = valueAt(ride, track, at);
    return isData ? rounded(value, sent[track]) : value + sigma * chance.bell();
  });
}

type LogKind = "even" | "round" | "held" | "jittered";

function logTracks({ wide, trims }: Wish, chance: Chance): Track[] {
  const often = { speed: 0.95, throttle: 0.7, road: 0.7, air: 0.75, load: 0.5, manifold: 0.4, coolant: 0.6, loop: 0.5 };
  const extras = (Object.keys(often) as (keyof typeof often)[]).filter((track) => chance.happens(often[track]));
  const data: Track[] = trims ? ["short", "long"] : (["short", "long"] as const).filter(() => chance.happens(0.6));
  return [wide ? "lambda" : "front", "rear", ...data, ...extras];
}

function log(ride: Ride, wish: Wish, chance: Chance): Recorded {
  const kind = chance.pick<LogKind>(["even", "round", "round", "held", "jittered"]);
  const rate = chance.happens(0.68) ? chance.between(8, 14) : chance.spread(1, 8);
  const stamps = rowsOf(ride.count * ride.step, rate, kind, chance);
  const tracks = logTracks(wish, chance);
  const late = chance.between(0.004, 0.03);
  const columns = tracks.map((track, c) => {
    const source = sourceOf(track, wish);
    const ground = groundOf(source, wish);
    // Asked one after the other within a row, or all answered at once; slow ones only each fourth row where the log holds them.
    const share = kind === "even" ? 0 : c / tracks.length;
    const everyRow = kind !== "held" || isSensor(track) || track === "lambda" || track === "speed";
    let kept = Number.NaN;
    const samples = Float64Array.from(stamps, (at, i) => {
      const row = (stamps[i + 1] ?? at + 1 / rate) - at;
      if (everyRow || i % 4 === c % 4 || Number.isNaN(kept))
        kept = rounded(valueAt(ride, source, at + share * row - late) + ground, sent[track]);
      return kept;
    });
    return { track, samples };
  });
  return { kind: "log", rate, stamps, columns };
}

function rowsOf(seconds: number, rate: number, kind: LogKind, chance: Chance): Float64Array {
  const stamps: number[] = [];
  const jitter = kind === "jittered" ? 0.25 : kind === "even" ? 0 : 0.06;
  for (let at = 0; at < seconds - 1 / rate; ) {
    stamps.push(at);
    const stalls = kind === "jittered" && chance.happens(0.004) ? chance.between(0.2, 0.8) : 0;
    at += (1 + jitter * Math.max(-2, Math.min(2, chance.bell()))) / rate + stalls;
  }
  return Float64Array.from(stamps);
}
