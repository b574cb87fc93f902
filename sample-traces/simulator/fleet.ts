// A fleet of simulated cars with known truth, for judging what findings are worth.

import type { Capture } from "../../src/capture/model/capture.ts";
import { asCapture } from "./as-capture.ts";
import type { CarSpec, Phase, SensorSpec } from "./car.ts";
import {
  type CatalystState,
  type Draw,
  drawCar as drawCarParts,
  drawDrive,
  drawing,
  drawManners,
  drawPolled,
  drawScope,
  idle,
  type Split,
} from "./draw.ts";
import { phaseStarts } from "./drive.ts";
import { seededRandom } from "./random.ts";
import { type PollSpec, recordPolled, recordScope, type ScopeSpec } from "./recorder.ts";
import { type History, runCar } from "./run.ts";
import { type Truth, tellTruth } from "./truth.ts";

export type { Split } from "./draw.ts";

/** What a car of the fleet stands for. All but the first three are about what may be mistaken for a dead catalyst. */
export const fleetKinds = [
  "healthy",
  "dead",
  "worn",
  "slow-front",
  "lazy-rear",
  "rear-asleep",
  "leak-ahead",
  "rich",
  "lean",
  "misfire",
  "dead-behind-lazy-rear",
  "polled-too-slow",
  "cold",
  "idle-only",
  "too-short",
] as const;
export type FleetKind = (typeof fleetKinds)[number];

/** How many of each a whole fleet holds: 1,150 cars. */
export const fleetCounts: Readonly<Record<FleetKind, number>> = {
  healthy: 260,
  dead: 260,
  worn: 50,
  "slow-front": 50,
  "lazy-rear": 50,
  "rear-asleep": 50,
  "leak-ahead": 50,
  rich: 50,
  lean: 50,
  misfire: 50,
  "dead-behind-lazy-rear": 50,
  "polled-too-slow": 80,
  cold: 40,
  "idle-only": 40,
  "too-short": 20,
};

export interface FleetCar {
  readonly seed: number;
  readonly split: Split;
  readonly kind: FleetKind;
  readonly catalyst: CatalystState;
  /** A careful technician would accept the recording for judging the catalyst. */
  readonly fit: boolean;
  readonly car: CarSpec;
  readonly recorder: ScopeSpec | PollSpec;
  /** Each value of a polled log carries its own stamp. */
  readonly ownStamps: boolean;
}

export interface FleetRun {
  readonly capture: Capture;
  readonly truth: Truth;
  /** When a charge that did not burn made the front read at least 0.2 V lower, s from the capture's first sample. */
  readonly spikes: readonly number[];
}

/** Every car of a fleet, in the order of the kinds; the same list each time. */
export function* drawFleet(
  split: Split,
  counts: Partial<Record<FleetKind, number>> = fleetCounts,
): Generator<FleetCar> {
  for (const kind of fleetKinds) {
    for (let k = 0; k < (counts[kind] ?? 0); k++) yield drawKind(kind, 1000 * fleetKinds.indexOf(kind) + k, split);
  }
}

/** One car, its kind drawn as often as a fleet holds it. */
export function drawCar(seed: number, split: Split): FleetCar {
  const all = Object.values(fleetCounts).reduce((a, b) => a + b, 0);
  const place = seededRandom(seedOf(seed, split)).uniform(0, all);
  let passed = 0;
  for (const kind of fleetKinds) {
    passed += fleetCounts[kind];
    if (place < passed) return drawKind(kind, seed, split);
  }
  return drawKind("healthy", seed, split);
}

/** Seeds of the two splits never meet. */
const seedOf = (seed: number, split: Split) => 2 * seed + (split === "judge" ? 1 : 0);

export function drawKind(kind: FleetKind, seed: number, split: Split): FleetCar {
  const draw = drawing(seededRandom(seedOf(seed, split)).split(), split);
  const { random } = draw;
  const catalyst = catalystOf(kind, draw);
  const drive = driveOf(kind, draw);
  const car = withFault(kind, drawCarParts(draw, catalyst, drive), draw);
  const seconds = phaseStarts(drive).at(-1)!;
  const polled = kind === "polled-too-slow" || (needsTrims(kind) && random.chance(0.5));
  const scope = drawScope(draw, seconds);
  const recorder = polled ? drawPolled(draw, seconds) : needsTrims(kind) ? withTrims(scope) : withStart(kind, scope);
  const unfit = polled || kind === "cold" || kind === "idle-only" || kind === "too-short";
  const ownStamps = polled && random.chance(0.2);
  return { seed, split, kind, catalyst, fit: !unfit, car, recorder, ownStamps };
}

/** Faults that only trims tell are recorded with trims: by a log, or by a scope that reads the car's bus as well. */
const needsTrims = (kind: FleetKind) => kind === "leak-ahead" || kind === "rich" || kind === "lean";

const withTrims = (scope: ScopeSpec): ScopeSpec => ({
  ...scope,
  channels: [
    "frontVoltage",
    "rearVoltage",
    "engineSpeed",
    "throttle",
    "airFlow",
    "coolant",
    "shortTrim",
    "longTrim",
    "fuelStatus",
  ],
});

/** That a start was cold can be seen only by who records the coolant or the start itself; here both. */
const withStart = (kind: FleetKind, scope: ScopeSpec): ScopeSpec =>
  kind === "cold"
    ? { ...scope, channels: ["frontVoltage", "rearVoltage", "engineSpeed", "throttle", "coolant"] }
    : scope;

function catalystOf(kind: FleetKind, { random }: Draw): CatalystState {
  if (kind === "dead" || kind === "dead-behind-lazy-rear") return "dead";
  if (kind === "worn") return "worn";
  const either = kind === "polled-too-slow" || kind === "cold" || kind === "idle-only" || kind === "too-short";
  return either && random.chance(0.5) ? "dead" : "healthy";
}

function driveOf(kind: FleetKind, draw: Draw): Phase[] {
  const { random } = draw;
  const manners = drawManners(draw);
  if (kind === "idle-only") return [idle(manners, random.uniform(60, 90), random)];
  const whole = drawDrive(manners, random);
  if (kind === "too-short") return whole.slice(2, 3).map((phase) => ({ ...phase, seconds: random.uniform(2, 5) }));
  if (kind !== "cold") return whole;
  const off: Phase = { kind: "not-running", seconds: 1, engineSpeed: 0, ramp: 1, filling: 0, throttle: 0, gear: 0 };
  const running = idle({ ...manners, idleSpeed: random.uniform(900, 1200) }, random.uniform(50, 70), random);
  return [off, { ...running, kind: "cold", ramp: 0.6 }];
}

function withFault(kind: FleetKind, car: CarSpec, draw: Draw): CarSpec {
  const { random, between } = draw;
  switch (kind) {
    case "slow-front":
      return { ...car, front: slowed(car.front, draw, [0.22, 0.6]) };
    case "lazy-rear":
    case "dead-behind-lazy-rear":
      return { ...car, rear: slowed(car.rear, draw, [0.6, 2]) };
    case "rear-asleep":
      return { ...car, rear: { ...car.rear, coldTemperature: 100, hotTemperature: random.uniform(150, 280) } };
    case "leak-ahead":
      return leaking(car, between(0.08, 0.16));
    case "rich":
      return fuelledWrong(car, between(0.14, 0.4), draw);
    case "lean":
      return fuelledWrong(car, -between(0.14, 0.3), draw);
    case "misfire":
      return { ...car, misfire: between(0.02, 0.1) };
    case "cold":
      return asleepAndCold(car, draw);
    default:
      return car;
  }
}

/** Both directions, or now and then one more than the other. */
function slowed(sensor: SensorSpec, { random, between }: Draw, [low, high]: readonly [number, number]): SensorSpec {
  const lag = between(low, high);
  return { ...sensor, richToLean: lag, leanToRich: random.chance(0.3) ? lag * random.uniform(0.4, 1) : lag };
}

/** A hole draws much the same all the time: a large share of the little flow at idle. */
function leaking(car: CarSpec, shareAtIdle: number): CarSpec {
  const idleFlow = ((car.engine.displacement * 800) / 120) * 1.2 * 0.25;
  return {
    ...car,
    leaks: { ahead: shareAtIdle * idleFlow, between: 0 },
    fuelling: { ...car.fuelling, longTrim: 0.4 * shareAtIdle },
  };
}

/** The long trim has learned what it may of an error that has been there for days; with a short leash it is not enough. */
function fuelledWrong(car: CarSpec, error: number, { random }: Draw): CarSpec {
  const authority = random.chance(0.4) ? Math.abs(error) * random.uniform(0.2, 0.35) : car.fuelling.authority;
  const learned = Math.max(-authority, Math.min(authority, 1 / (1 + error) - 1));
  return { ...car, fuelling: { ...car.fuelling, authority, error, longTrim: learned } };
}

function asleepAndCold(car: CarSpec, { random }: Draw): CarSpec {
  const outside = random.uniform(-5, 25);
  return {
    ...car,
    engine: { ...car.engine, coolantStart: outside, coolantRise: random.uniform(0.2, 0.5) },
    catalyst: { ...car.catalyst, startTemperature: outside, warmUp: random.uniform(120, 200) },
    front: { ...car.front, coldTemperature: outside },
    rear: { ...car.rear, coldTemperature: outside },
  };
}

/** Drives and records one car; the same for the same spec. */
export function simulate(spec: FleetCar): FleetRun {
  const history = runCar(spec.car);
  const random = seededRandom(spec.car.seed ^ 20_250);
  const { recorder } = spec;
  const recording =
    recorder.kind === "scope" ? recordScope(history, recorder, random) : recordPolled(history, recorder, random);
  const name = `${spec.kind} ${spec.split} ${spec.seed}`;
  return {
    capture: asCapture(recording, name, spec.ownStamps),
    truth: tellTruth(history, recording.start),
    spikes: spikesFrom(history, recording.start),
  };
}

const leastSpike = 0.2;

function spikesFrom({ spike, step }: History, start: number): number[] {
  const times: number[] = [];
  for (let i = 1; i < spike.length; i++) {
    if (spike[i]! >= leastSpike && spike[i - 1]! < leastSpike) times.push(i * step - start);
  }
  return times;
}
