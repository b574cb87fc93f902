// Draws the parts of a car from everything that drives on the road, without a gap between sound and dead.

import type { CarSpec, CatalystSpec, EngineSpec, FuellingSpec, Phase, SensorSpec } from "../car.ts";
import type { Random } from "../random.ts";
import type { EngineManner } from "./manners.ts";

/** All ranges are own choice from memory, wide enough that no rule of the findings can lean on an end of them. */
export function drawWideCar(random: Random, grams: number, manner: EngineManner, drive: readonly Phase[]): CarSpec {
  const engine = drawEngine(random, manner);
  return {
    seed: Math.floor(random.uniform(0, 2 ** 31)),
    drive,
    engine,
    fuelling: drawFuelling(random, manner),
    pipes: {
      ahead: engine.displacement * random.logUniform(0.25, 0.9),
      behind: engine.displacement * random.logUniform(0.5, 1.6),
      mixing: random.logUniform(0.02, 0.18),
    },
    catalyst: drawCatalyst(random, grams, engine.displacement),
    front: drawSensor(random, [0.02, 0.08]),
    rear: drawSensor(random, [0.02, 0.2]),
    leaks: { ahead: 0, between: 0 },
    misfire: 0,
    ...(manner.stops ? { seep: random.logUniform(3, 40) } : {}),
  };
}

function drawEngine(random: Random, { throttle }: EngineManner): EngineSpec {
  return {
    displacement: random.logUniform(1, 3.5),
    coolantStart: random.uniform(75, 100),
    coolantRise: random.pick([0, 0.05, 0.4]),
    exhaustBase: random.uniform(660, 760),
    exhaustRise: random.uniform(250, 430),
    speedScatter: random.uniform(4, 18),
    ...(throttle === "electric" ? { throttleLag: random.uniform(0.1, 0.5) } : {}),
    ...(throttle === "none" ? { unthrottled: true } : {}),
  };
}

/** @param grams of oxygen it can hold. The less it holds, the earlier it lets go and the more passes for want of time. */
export function drawCatalyst(random: Random, grams: number, litres: number): CatalystSpec {
  // 0 at 0.03 g, 1 at 1 g, in the logarithm.
  const soundness = Math.min(1, Math.max(0, Math.log(grams / 0.03) / Math.log(1 / 0.03)));
  const isHollow = grams <= 0.08 && random.chance(0.5);
  return {
    capacity: grams,
    slip: isHollow ? random.uniform(0.02, 0.6) : 0,
    reach: litres * random.logUniform(40, 130) * (1 + 3 * soundness),
    sharpness: random.logUniform(4, 20) * (1 + 5 * soundness),
    hydrogen: random.logUniform(0.0003, 0.0025) * (1 + soundness),
    startTemperature: random.uniform(420, 620),
    warmUp: random.logUniform(20, 60),
    lightOff: random.uniform(260, 320),
  };
}

export function drawSensor(random: Random, [quickest, slowest]: readonly [number, number]): SensorSpec {
  const lag = random.logUniform(quickest, slowest);
  return {
    coldTemperature: random.uniform(560, 660),
    hotTemperature: random.uniform(560, 740),
    warmUp: random.logUniform(9, 26),
    wakeTemperature: random.uniform(360, 430),
    bias: random.uniform(0.4, 0.5),
    richToLean: lag,
    leanToRich: lag * random.uniform(0.8, 1.6),
    richLevel: random.uniform(0.72, 1.06),
    width: random.logUniform(0.0015, 0.006),
    shift: random.uniform(-0.001, 0.0012),
  };
}

function drawFuelling(random: Random, { noCut }: EngineManner): FuellingSpec {
  return {
    step: random.logUniform(0.012, 0.05),
    rampRate: random.logUniform(0.015, 0.08),
    authority: random.uniform(0.18, 0.3),
    error: random.uniform(-0.05, 0.05),
    longTrim: random.uniform(-0.04, 0.04),
    rearTarget: random.chance(0.2) ? null : random.uniform(0.4, 0.8),
    cutDelay: noCut ? Number.POSITIVE_INFINITY : random.logUniform(0.08, 1.3),
    cutEnds: random.uniform(1050, 1600),
    scatter: random.logUniform(0.0015, 0.008),
  };
}
