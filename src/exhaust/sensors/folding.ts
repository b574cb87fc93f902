// What is left of a sensor's readings where the samples are too far apart to exclude a faster swing that looks the same.

import type { Crossings } from "../../signal/edges/crossings.ts";
import { atLeast, atMost, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import type { Sensor } from "../terms/analysis.ts";
import { cyclesIn } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";

export interface Folding {
  /** Why, for people. */
  readonly because: string;
  readonly crossings: Crossings;
  /** Of the span, s. */
  readonly length: Seconds;
  readonly limits: Limits;
  /** The samples may have met the same part of every swing; see `mayBeLocked`. */
  readonly isLocked: boolean;
}

/** So many apparent cycles have met every part of the true ones about evenly. Own choice. */
const fairCycles = 10;
/** A sensor that stands so still, V, for so long, s, does stand: no rhythm stays in step with a recorder's. Own choice. */
const still = { swing: 0.15, seconds: 60 };

/** Whether samples that may be in step with the swing have seen too little of it to exclude that they are. */
export const mayBeLocked = ({ amplitude }: Pick<Sensor, "amplitude">, limits: Limits): boolean =>
  !((amplitude.value ?? 0) >= limits.leastSwing);

/**
 * Samples are true wherever they fall, so what they reached was reached: levels stay as one-sided bounds. How long a passage
 * took, and which share of the time lies above a level, may be those of a slower swing that never was.
 */
export function asFolded(sensor: Sensor, folding: Folding): Sensor {
  const { because, isLocked } = folding;
  return {
    ...sensor,
    richToLean: notResolvable("s", because),
    leanToRich: notResolvable("s", because),
    richShare: isFair(sensor, folding) ? sensor.richShare : notResolvable("%", because, { low: 0, high: 100 }),
    ...(isLocked ? { amplitude: reached(sensor.amplitude, because, 1) } : {}),
    ...(isLocked ? { minimum: reached(sensor.minimum, because, -1) } : {}),
    ...(isLocked ? { maximum: reached(sensor.maximum, because, 1) } : {}),
  };
}

function isFair({ amplitude }: Sensor, { crossings, length }: Folding): boolean {
  const stands = (amplitude.high ?? Infinity) < still.swing && length >= still.seconds;
  return stands || cyclesIn(crossings) >= fairCycles;
}

function reached(reading: Reading, because: string, sign: 1 | -1): Reading {
  const { unit, low, high, count } = reading;
  const remarks = { because, ...(count === undefined ? {} : { count }) };
  const bound = sign > 0 ? low : high;
  if (bound === null) return notResolvable(unit, because);
  return sign > 0 ? atLeast(bound, unit, remarks) : atMost(bound, unit, { ...remarks, low: null });
}
