// Cars drawn so widely that no rule of the findings can know the ends of it: store without a gap, every mimic, every recorder.

import type { CarSpec, SensorSpec } from "../car.ts";
import { activeShare, createCatalyst } from "../catalyst.ts";
import { phaseStarts } from "../drive.ts";
import { oxygenInAir } from "../gas.ts";
import { type Random, seededRandom } from "../random.ts";
import { type PollSpec, type Recording, recordPolled, recordScope, type ScopeSpec } from "../recorder.ts";
import { type History, runCar } from "../run.ts";
import { type Truth, tellTruth } from "../truth.ts";
import { type DriveStyle, drawWideDrive, drawWideManners, type EngineManner, idling } from "./manners.ts";
import { drawCatalyst, drawWideCar } from "./parts.ts";
import { drawWideLog, drawWideScope, roundsPerSecond } from "./recorders.ts";

/** "worn" lies between and has no right answer. Mimics have a sound store, unless their name begins with "dead". */
export const wideKinds = [
  "healthy",
  "worn",
  "dead",
  "dead-behind-slow-rear",
  "slow-front",
  "slow-rear",
  "rear-asleep",
  "offset",
  "leak-ahead",
  "leak-between",
  "rich",
  "lean",
  "misfire",
  "swapped-leads",
  "no-cut",
  "start-stop",
  "cold",
  "idle-only",
  "too-short",
] as const;
export type WideKind = (typeof wideKinds)[number];

export interface WideCar {
  readonly seed: number;
  readonly kind: WideKind;
  readonly style: DriveStyle;
  /** Grams of oxygen that the hot catalyst can hold. */
  readonly store: number;
  readonly car: CarSpec;
  readonly recorder: ScopeSpec | PollSpec;
  /** Front and rear leads are in each other's place. */
  readonly swapped: boolean;
}

export interface WideTruth extends Truth {
  readonly kind: WideKind;
  /** g: what the hot catalyst can hold; what of it an emptied one takes in a cut of 8 g/s until 1 % of the air passes. */
  readonly store: number;
  readonly usable: number;
  /** A careful technician would judge the catalyst by it. */
  readonly fit: boolean;
  /** g: the most oxygen that one lean spell brought to the hot catalyst. What is below it was never asked of the store. */
  readonly largestOffer: number;
  /** First-order lags, falling, s; ground offset, V; air drawn in between the sensors at idle over that of the engine. */
  readonly frontLag: number;
  readonly rearLag: number;
  readonly offset: number;
  readonly leakBetween: number;
}

export interface WideRun {
  readonly recording: Recording;
  readonly truth: WideTruth;
}

/** The same car for the same kind and seed. Even seeds are there to choose on, odd ones to judge on. */
export function drawWide(kind: WideKind, seed: number): WideCar {
  const random = seededRandom(8 * seed + 5 + 2 ** 24 * (1 + wideKinds.indexOf(kind))).split();
  const manner = drawManner(kind, random);
  const manners = drawWideManners(random, manner);
  const style = drawStyle(kind, random);
  const store = drawStore(kind, random);
  const whole = drawWideDrive(style, manners, random);
  const drive =
    kind === "idle-only" || kind === "cold"
      ? idling({ manners, random }, [60, 90]).map((phase) =>
          kind === "cold" ? { ...phase, kind: "cold" as const } : phase,
        )
      : kind === "too-short"
        ? whole.slice(0, 1).map((phase) => ({ ...phase, seconds: random.uniform(2, 5) }))
        : whole;
  const car = withFault(kind, drawWideCar(random, store, manner, drive), random);
  const seconds = phaseStarts(drive).at(-1)!;
  const trims = kind === "leak-ahead" || kind === "rich" || kind === "lean";
  const isLog = random.chance(0.5);
  const drawn = isLog ? drawWideLog(random, seconds, trims) : drawWideScope(random, seconds, trims || kind === "cold");
  const recorder = kind === "offset" ? { ...drawn, offset: random.uniform(0.1, 0.2) } : drawn;
  return { seed, kind, style, store, car, recorder, swapped: kind === "swapped-leads" };
}

function drawManner(kind: WideKind, random: Random): EngineManner {
  return {
    throttle: random.pick(["cable", "cable", "cable", "electric", "electric", "electric", "none"]),
    stops: kind === "start-stop" || random.chance(0.12),
    noCut: kind === "no-cut" || random.chance(0.08),
  };
}

function drawStyle(kind: WideKind, random: Random): DriveStyle {
  if (kind === "start-stop") return random.pick(["road", "town"]);
  if (kind === "no-cut") return random.pick(["bay", "road"]);
  return random.pick(["bay", "bay", "bay", "road", "road", "road", "cruise", "pulls", "pulls", "town"]);
}

function drawStore(kind: WideKind, random: Random): number {
  if (kind === "dead" || kind === "dead-behind-slow-rear") return random.logUniform(0.02, 0.08);
  if (kind === "worn") return random.logUniform(0.08, 0.5);
  const either = kind === "start-stop" || kind === "cold" || kind === "idle-only" || kind === "too-short";
  return either && random.chance(0.5) ? random.logUniform(0.02, 0.08) : random.logUniform(0.5, 3);
}

function withFault(kind: WideKind, car: CarSpec, random: Random): CarSpec {
  switch (kind) {
    case "slow-front":
      return { ...car, front: slowed(car.front, random, [0.2, 0.7]) };
    case "slow-rear":
    case "dead-behind-slow-rear":
      return { ...car, rear: slowed(car.rear, random, [0.2, 0.6]) };
    case "rear-asleep":
      return { ...car, rear: { ...car.rear, coldTemperature: 100, hotTemperature: random.uniform(150, 290) } };
    case "leak-ahead":
      return leakingAhead(car, random.logUniform(0.06, 0.2));
    case "leak-between":
      return leakingBetween(car, random);
    case "rich":
      return fuelledWrong(car, random.logUniform(0.13, 0.4), random);
    case "lean":
      return fuelledWrong(car, -random.logUniform(0.13, 0.32), random);
    case "misfire":
      return { ...car, misfire: random.logUniform(0.015, 0.12) };
    case "cold":
      return cold(car, random);
    default:
      return car;
  }
}

function slowed(sensor: SensorSpec, random: Random, [low, high]: readonly [number, number]): SensorSpec {
  const lag = random.logUniform(low, high);
  return { ...sensor, richToLean: lag, leanToRich: random.chance(0.3) ? lag * random.uniform(0.4, 1) : lag };
}

/** g/s at a usual idle. */
const idleFlow = ({ engine }: CarSpec) => ((engine.displacement * 780) / 120) * 1.2 * 0.24;

function leakingAhead(car: CarSpec, shareAtIdle: number): CarSpec {
  return {
    ...car,
    leaks: { ahead: shareAtIdle * idleFlow(car), between: 0 },
    fuelling: { ...car.fuelling, longTrim: Math.min(car.fuelling.authority, 0.4 * shareAtIdle) },
  };
}

/** 1 to 10 % of the idle's gas, in pulses, gone once the flow fills the pipe. */
function leakingBetween(car: CarSpec, random: Random): CarSpec {
  const flow = idleFlow(car);
  return {
    ...car,
    leaks: {
      ahead: 0,
      between: random.logUniform(0.01, 0.1) * flow,
      pulses: { fadesAt: flow * random.logUniform(3, 15), scatter: random.uniform(0.1, 0.7) },
    },
  };
}

function fuelledWrong(car: CarSpec, error: number, random: Random): CarSpec {
  const authority = random.chance(0.4) ? Math.abs(error) * random.uniform(0.2, 0.35) : car.fuelling.authority;
  const learned = Math.max(-authority, Math.min(authority, 1 / (1 + error) - 1));
  return { ...car, fuelling: { ...car.fuelling, authority, error, longTrim: learned } };
}

function cold(car: CarSpec, random: Random): CarSpec {
  const outside = random.uniform(-10, 30);
  return {
    ...car,
    engine: { ...car.engine, coolantStart: outside, coolantRise: random.uniform(0.2, 0.5) },
    catalyst: {
      ...drawCatalyst(random, car.catalyst.capacity, car.engine.displacement),
      startTemperature: outside,
      warmUp: random.logUniform(120, 250),
    },
    front: { ...car.front, coldTemperature: outside },
    rear: { ...car.rear, coldTemperature: outside },
  };
}

export function simulateWide(spec: WideCar): WideRun {
  const history = runCar(spec.car);
  const random = seededRandom(spec.car.seed ^ 0x1b873593);
  const { recorder } = spec;
  const plain =
    recorder.kind === "scope" ? recordScope(history, recorder, random) : recordPolled(history, recorder, random);
  const recording = spec.swapped ? inEachOthersPlace(plain) : plain;
  const truth = tellTruth(history, recording.start);
  const known = { ...ofCar(spec), fit: isFit(spec, truth), largestOffer: largestOffer(history) };
  return { recording, truth: { ...truth, ...known } };
}

function largestOffer({ excessIn, airFlow, catalystTemperature, car, step }: History): number {
  let [largest, offer] = [0, 0];
  for (let i = 0; i < excessIn.length; i++) {
    const isLean = excessIn[i]! > 0 && activeShare(car.catalyst, catalystTemperature[i]!) > 0.9;
    offer = isLean ? offer + oxygenInAir * airFlow[i]! * excessIn[i]! * step : 0;
    largest = Math.max(largest, offer);
  }
  return largest;
}

function ofCar({ kind, store, car, recorder }: WideCar): Omit<WideTruth, keyof Truth | "fit" | "largestOffer"> {
  return {
    kind,
    store,
    usable: usableStore(car),
    frontLag: car.front.richToLean,
    rearLag: car.rear.richToLean,
    offset: recorder.offset ?? 0,
    leakBetween: car.leaks.between / idleFlow(car),
  };
}

function inEachOthersPlace(recording: Recording): Recording {
  const other = { frontVoltage: "rearVoltage", rearVoltage: "frontVoltage" } as const;
  const columns = recording.columns.map((column) => {
    const { quantity } = column;
    const isSensor = quantity === "frontVoltage" || quantity === "rearVoltage";
    return isSensor ? { ...column, quantity: other[quantity] } : column;
  });
  return { ...recording, columns };
}

/** g/s of the fuel cut that `usable` is told of, and the share of its air at which the rear has surely turned lean. */
const cutFlow = 8;
const passing = 0.01;

/** g that the hot and emptied catalyst takes in a fuel cut before it lets 1 % of the air through. */
export function usableStore({ catalyst }: CarSpec): number {
  const step = 0.0005;
  const brick = createCatalyst(catalyst, step);
  // Rich gas until all is given off.
  for (let k = 0; brick.stored() > 1e-4 * catalyst.capacity && k < 200_000; k++) brick.pass(-0.1, cutFlow, 1);
  let taken = 0;
  for (let out = 0; out < passing && taken < catalyst.capacity; ) {
    const before = brick.stored();
    out = brick.pass(1, cutFlow, 1);
    if (out < passing) taken += Math.max(brick.stored() - before, oxygenInAir * cutFlow * step * 1e-6);
  }
  return Math.min(taken, catalyst.capacity);
}

/** Hot, and a cruise of 30 s or two cuts in which the front fell; a log must ask each channel 8 times a second. */
function isFit({ kind, recorder }: WideCar, truth: Truth): boolean {
  if (kind === "cold" || kind === "idle-only" || kind === "too-short") return false;
  if (recorder.kind === "polled" && roundsPerSecond(recorder) < 8) return false;
  const { catalystHotAt: hot } = truth;
  if (hot === null) return false;
  const cruise = truth.stretches.some(({ kind, from, to }) => kind === "cruise" && to - Math.max(from, hot) >= 30);
  const cuts = truth.liftOffs.filter(
    ({ at, frontFall, cutFrom, cutTo }) => at > hot && frontFall !== null && cutTo - cutFrom > 1,
  );
  return cruise || cuts.length >= 2;
}
