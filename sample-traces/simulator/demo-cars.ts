// The cars of the sample job: one invented hatchback with a 1.6 litre engine, and what may be wrong with it.

import type { CarSpec, CatalystSpec, Phase, SensorSpec } from "./car.ts";

const gear = 0.0352;

/** Restarted after a short stop; idle, held speed, cruise, then three times full throttle and release. */
export const demoDrive: readonly Phase[] = [
  { kind: "not-running", seconds: 1, engineSpeed: 0, ramp: 1, filling: 0, throttle: 13, gear: 0 },
  { kind: "cold", seconds: 3, engineSpeed: 1250, ramp: 0.6, filling: 0.3, throttle: 15, gear: 0 },
  { kind: "cold", seconds: 32, engineSpeed: 900, ramp: 12, filling: 0.24, throttle: 14, gear: 0 },
  { kind: "idle", seconds: 44, engineSpeed: 790, ramp: 4, filling: 0.23, throttle: 13, gear: 0 },
  { kind: "cruise", seconds: 30, engineSpeed: 2500, ramp: 1.5, filling: 0.2, throttle: 19, gear: 0 },
  { kind: "unsteady", seconds: 3, engineSpeed: 1100, ramp: 2, filling: 0.2, throttle: 16, gear: 0 },
  { kind: "unsteady", seconds: 7, engineSpeed: 2500, ramp: 6, filling: 0.55, throttle: 36, gear },
  { kind: "cruise", seconds: 36, engineSpeed: 2620, ramp: 6, filling: 0.38, throttle: 28, gear },
  ...pullAndRelease(4020, 8),
  ...pullAndRelease(3900, 8),
  ...pullAndRelease(4080, 6),
];

function pullAndRelease(engineSpeed: number, after: number): Phase[] {
  return [
    { kind: "load", seconds: 4.5, engineSpeed, ramp: 4.5, filling: 0.84, throttle: 81, gear, enrich: 0.88 },
    {
      kind: "overrun",
      seconds: 5.4,
      engineSpeed: 2050,
      ramp: 6,
      filling: 0.13,
      throttle: 12,
      gear,
      enrich: 0.9,
      released: true,
    },
    { kind: "cruise", seconds: after, engineSpeed: 2600, ramp: 3, filling: 0.38, throttle: 28, gear },
  ];
}

const quickSensor: SensorSpec = {
  coldTemperature: 120,
  hotTemperature: 640,
  warmUp: 13,
  wakeTemperature: 400,
  bias: 0.45,
  richToLean: 0.045,
  leanToRich: 0.055,
  richLevel: 0.81,
  width: 0.0035,
  shift: 0,
};
const rearSensor: SensorSpec = {
  ...quickSensor,
  hotTemperature: 610,
  warmUp: 17,
  richToLean: 0.06,
  leanToRich: 0.07,
  richLevel: 0.77,
  shift: 0,
};
const goodCatalyst: CatalystSpec = {
  capacity: 2,
  slip: 0,
  reach: 400,
  sharpness: 60,
  hydrogen: 0.0035,
  startTemperature: 240,
  warmUp: 22,
  lightOff: 300,
};

const goodCar: CarSpec = {
  seed: 1,
  drive: demoDrive,
  engine: {
    displacement: 1.6,
    coolantStart: 66,
    coolantRise: 0.5,
    exhaustBase: 700,
    exhaustRise: 350,
    speedScatter: 9,
  },
  fuelling: {
    step: 0.028,
    rampRate: 0.04,
    authority: 0.25,
    error: 0.02,
    longTrim: -0.012,
    rearTarget: 0.66,
    cutDelay: 0.28,
    cutEnds: 1250,
    scatter: 0.004,
  },
  pipes: { ahead: 0.9, behind: 1.5, mixing: 0.045 },
  catalyst: goodCatalyst,
  front: quickSensor,
  rear: rearSensor,
  leaks: { ahead: 0, between: 0 },
  misfire: 0,
};

/** Sound cars for the shelf: the hatchback with many miles, a smaller car and a larger one. */
function knownGood() {
  const { engine, pipes } = goodCar;
  return {
    agedGood: { ...goodCar, seed: 7, catalyst: { ...goodCatalyst, capacity: 1.3, sharpness: 40 } },
    smallGood: {
      ...goodCar,
      seed: 8,
      engine: { ...engine, displacement: 1 },
      pipes: { ...pipes, ahead: 0.55, behind: 1 },
      catalyst: { ...goodCatalyst, capacity: 1.4 },
    },
    estateGood: {
      ...goodCar,
      seed: 9,
      engine: { ...engine, displacement: 2 },
      pipes: { ...pipes, ahead: 1.1, behind: 1.9 },
      catalyst: { ...goodCatalyst, capacity: 2.6, reach: 500 },
    },
  } satisfies Record<string, CarSpec>;
}

export const demoCars = {
  good: goodCar,
  worn: {
    ...goodCar,
    seed: 2,
    catalyst: { ...goodCatalyst, capacity: 0.12, reach: 13, sharpness: 10, hydrogen: 0.0028 },
  },
  dead: {
    ...goodCar,
    seed: 3,
    catalyst: { ...goodCatalyst, capacity: 0.008, slip: 0.45, sharpness: 4, hydrogen: 0.0003 },
  },
  slowFront: { ...goodCar, seed: 4, front: { ...quickSensor, richToLean: 0.26, leanToRich: 0.33 } },
  leak: { ...goodCar, seed: 5, leaks: { ahead: 0.3, between: 0 }, fuelling: { ...goodCar.fuelling, longTrim: 0.04 } },
  rearAsleep: { ...goodCar, seed: 6, rear: { ...rearSensor, hotTemperature: 255 } },
  ...knownGood(),
} satisfies Record<string, CarSpec>;
export type DemoCar = keyof typeof demoCars;
