// A sensor of 0 to 1 V whose signal was turned over, 1 V less itself: told by where it stands when fuel is cut.

import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { medianOfNumbers, percentiles } from "../../signal/statistics/statistics.ts";
import type { Closing } from "../lift-offs/closings.ts";
import type { Limits } from "../terms/limits.ts";

/** After the throttle closed: until then a right one may still be on its way down, or held rich by the store. Common practice, s. */
const settles = 1;
/** As even as this, V, stands a sensor that nothing moves. Own choice. */
const even = 0.12;
/** Once may be an odd overrun. Own choice. */
const often = 2;

/**
 * Whether the front one stands high, evenly, wherever the throttle closed at speed, where fuel is cut and a right one
 * stands low; and was low at other times, for else it is stuck or the mixture rich. Then both are turned over: one recorder,
 * one pair of leads.
 *
 * @returns false where the throttle or the engine's speed was not recorded: nothing then tells it from a right one.
 */
export function isTurnedOver(front: Series, closings: readonly Closing[], limits: Limits): boolean {
  const stands = closings.flatMap((closing) => standsAt(front, closing) ?? []);
  if (stands.length < often || stands.some((level) => level < limits.highLevel)) return false;
  const [low] = percentiles(front.samples, [0.05]);
  return low! < limits.lowLevel;
}

/** Where it stands while the throttle is closed, V; null where it does not stand. */
function standsAt(series: Series, { at, until }: Closing): number | null {
  const samples = Float64Array.from([...within(series, at + settles, until).samples].filter(Number.isFinite));
  if (samples.length < 3) return null;
  const [low, high] = percentiles(samples, [0.05, 0.95]);
  return high! - low! < even ? medianOfNumbers([...samples]) : null;
}
