// Draws the parts of a car, its drive and its recorder from wide distributions.

import type { CarSpec, CatalystSpec, EngineSpec, FuellingSpec, Phase, SensorSpec } from "./car.ts";
import type { Random } from "./random.ts";
import type { PollSpec, ScopeSpec } from "./recorder.ts";
import type { Quantity } from "./run.ts";

/** Limits are chosen on "choose" and tabled on "judge", which is drawn wider and from other seeds. */
export type Split = "choose" | "judge";

/** Draws between two ends; a judge's ends lie a fifth further out. */
export interface Draw {
  readonly random: Random;
  /** Even in the logarithm; both ends > 0. */
  between(low: number, high: number): number;
}

export function drawing(random: Random, split: Split): Draw {
  const further = split === "judge" ? 1.2 : 1;
  return { random, between: (low, high) => random.logUniform(low / further, high * further) };
}

export type CatalystState = "healthy" | "worn" | "dead";

export function drawCatalyst({ random, between }: Draw, state: CatalystState): CatalystSpec {
  const hot = {
    startTemperature: random.uniform(420, 620),
    warmUp: between(20, 60),
    lightOff: random.uniform(270, 320),
  };
  if (state === "healthy") {
    return {
      ...hot,
      capacity: between(0.6, 2),
      slip: 0,
      reach: between(450, 900),
      sharpness: between(25, 120),
      hydrogen: between(0.002, 0.005),
    };
  }
  if (state === "worn") {
    return {
      ...hot,
      capacity: between(0.06, 0.3),
      slip: 0,
      reach: between(12, 40),
      sharpness: between(6, 20),
      hydrogen: between(0.0012, 0.003),
    };
  }
  return {
    ...hot,
    capacity: between(0.003, 0.03),
    slip: random.uniform(0.3, 0.75),
    reach: between(60, 400),
    sharpness: between(2, 8),
    hydrogen: between(0.00005, 0.0006),
  };
}

export function drawSensor({ random, between }: Draw, place: "front" | "rear"): SensorSpec {
  const isRear = place === "rear";
  return {
    coldTemperature: random.uniform(500, 650),
    hotTemperature: random.uniform(560, 720),
    warmUp: between(9, 20) * (isRear ? 1.3 : 1),
    wakeTemperature: random.uniform(370, 430),
    bias: random.uniform(0.42, 0.48),
    richToLean: between(0.025, 0.06),
    leanToRich: between(0.03, 0.07),
    richLevel: random.uniform(0.76, 0.86),
    width: between(0.0025, 0.005),
    shift: random.uniform(-0.0004, 0.0006),
  };
}

export function drawEngine({ random }: Draw): EngineSpec {
  return {
    displacement: random.uniform(1, 2.4),
    coolantStart: random.uniform(82, 92),
    coolantRise: random.uniform(0.3, 0.6),
    exhaustBase: random.uniform(660, 740),
    exhaustRise: random.uniform(280, 420),
    speedScatter: random.uniform(4, 16),
  };
}

export function drawFuelling({ random, between }: Draw): FuellingSpec {
  return {
    step: between(0.02, 0.036),
    rampRate: between(0.025, 0.06),
    authority: random.uniform(0.2, 0.28),
    error: random.uniform(-0.04, 0.04),
    longTrim: random.uniform(-0.03, 0.03),
    rearTarget: random.uniform(0.58, 0.7),
    cutDelay: random.uniform(0.1, 0.5),
    cutEnds: random.uniform(1100, 1350),
    scatter: between(0.002, 0.005),
  };
}

export function drawCar(draw: Draw, state: CatalystState, drive: readonly Phase[]): CarSpec {
  const { random, between } = draw;
  const engine = drawEngine(draw);
  return {
    seed: Math.floor(random.uniform(0, 2 ** 31)),
    drive,
    engine,
    fuelling: drawFuelling(draw),
    // Larger engines have larger pipes.
    pipes: {
      ahead: engine.displacement * between(0.35, 0.8),
      behind: engine.displacement * between(0.7, 1.3),
      mixing: between(0.025, 0.06),
    },
    catalyst: drawCatalyst(draw, state),
    front: drawSensor(draw, "front"),
    rear: drawSensor(draw, "rear"),
    leaks: { ahead: 0, between: 0 },
    misfire: 0,
  };
}

/** How one driver in one car goes about it. */
export interface Manners {
  readonly gear: number;
  /** %, closed. */
  readonly throttle: number;
  readonly idleSpeed: number;
  readonly cruiseSpeed: number;
  readonly cruiseFilling: number;
  /** Engine speed reached before each release, filling after it, lambda before it. */
  readonly top: number;
  readonly overrunFilling: number;
  readonly rich: number;
}

export function drawManners({ random }: Draw): Manners {
  return {
    gear: random.uniform(0.025, 0.045),
    throttle: random.uniform(0, 16),
    idleSpeed: random.uniform(680, 900),
    cruiseSpeed: random.uniform(2000, 3000),
    cruiseFilling: random.uniform(0.28, 0.5),
    top: random.uniform(3200, 4400),
    overrunFilling: random.uniform(0.11, 0.2),
    rich: random.uniform(0.85, 0.91),
  };
}

/** Idle, cruise, and two to four times full throttle and release, never twice quite the same. */
export function drawDrive(manners: Manners, random: Random): Phase[] {
  const { gear, throttle, cruiseSpeed } = manners;
  const cruise = (seconds: number): Phase => ({
    kind: "cruise",
    seconds,
    engineSpeed: cruiseSpeed + random.uniform(-60, 60),
    ramp: 3,
    filling: manners.cruiseFilling,
    throttle: throttle + random.uniform(10, 18),
    gear,
  });
  const away: Phase = {
    kind: "unsteady",
    seconds: random.uniform(5, 8),
    engineSpeed: cruiseSpeed,
    ramp: 5,
    filling: random.uniform(0.45, 0.65),
    throttle: throttle + random.uniform(18, 28),
    gear,
  };
  const phases = [idle(manners, random.uniform(30, 40), random), away, cruise(random.uniform(34, 45))];
  const pulls = 2 + Math.floor(random.uniform(0, 2.4));
  for (let k = 0; k < pulls; k++) phases.push(...pullAndRelease(manners, random), cruise(random.uniform(4, 7)));
  return phases;
}

export function idle({ idleSpeed, throttle }: Manners, seconds: number, random: Random): Phase {
  const filling = random.uniform(0.2, 0.3);
  return { kind: "idle", seconds, engineSpeed: idleSpeed, ramp: 0.3, filling, throttle, gear: 0 };
}

function pullAndRelease({ gear, throttle, top, overrunFilling, rich }: Manners, random: Random): Phase[] {
  const seconds = random.uniform(2.8, 5);
  const reached = top * random.uniform(0.92, 1.08);
  return [
    {
      kind: "load",
      seconds,
      engineSpeed: reached,
      ramp: seconds,
      filling: random.uniform(0.65, 0.9),
      throttle: random.uniform(60, 95),
      gear,
      enrich: rich,
    },
    {
      kind: "overrun",
      seconds: random.uniform(3.6, 6),
      engineSpeed: reached * random.uniform(0.48, 0.6),
      ramp: 6,
      filling: overrunFilling * random.uniform(0.94, 1.06),
      throttle,
      gear,
      enrich: rich + 0.02,
      released: true,
    },
  ];
}

const sensors: readonly Quantity[] = ["frontVoltage", "rearVoltage"];

/** A scope good enough to judge by: 200 samples/s and up. Some record the sensors alone. */
export function drawScope({ random, between }: Draw, seconds: number): ScopeSpec {
  const rest: readonly (readonly Quantity[])[] = [
    [],
    ["throttle", "engineSpeed"],
    ["throttle", "engineSpeed", "airFlow"],
    ["engineSpeed", "throttle", "airFlow", "coolant"],
  ];
  const noise = between(0.002, 0.012);
  return {
    kind: "scope",
    rate: Math.round(random.logUniform(200, 2000)),
    from: 0,
    to: seconds,
    noise,
    resolution: random.pick([0.001, 0.002, 0.005, 0.01]),
    channels: [...sensors, ...random.pick(rest)],
  };
}

/** A polled log of everything: two to five rows a second. */
export function drawPolled({ random }: Draw, seconds: number): PollSpec {
  const channels: Quantity[] = [
    ...sensors,
    "engineSpeed",
    "throttle",
    "airFlow",
    "roadSpeed",
    "coolant",
    "shortTrim",
    "longTrim",
    "fuelStatus",
  ];
  return {
    kind: "polled",
    requestsPerSecond: channels.length * random.logUniform(2, 5),
    jitter: random.uniform(0.02, 0.2),
    from: 0,
    to: seconds,
    channels,
    missed: random.uniform(0, 0.08),
  };
}
