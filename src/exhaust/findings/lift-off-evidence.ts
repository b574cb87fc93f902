// What the lift-offs say of the catalyst: the rear fell at once, held on, or the recording cannot tell.

import { medianOf } from "../../signal/combining/combine.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import type { LiftOff } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";

export interface LiftOffEvidence {
  readonly verdict: "short" | "long" | "between" | "none";
  /** Over the valid events; null without one. */
  readonly delay: Reading | null;
  readonly count: number;
  /** Mean air flow over the events, g/s; null when unknown. */
  readonly airFlow: number | null;
  /** g that the events show to have been stored, at the least: gas on the way and the sensor's own fall are taken off; null when unknown. */
  readonly stored: number | null;
}

/**
 * "long" is safe against a slow rear sensor: what its own fall takes is taken off first. Where that is not known either,
 * the delay must exceed the limit by as much as a slow sensor takes.
 */
export function liftOffEvidence(valid: readonly LiftOff[], limits: Limits): LiftOffEvidence {
  const timed = valid.filter(({ delay }) => delay.grade !== "not-resolvable");
  if (timed.length === 0) return { verdict: "none", delay: null, count: 0, airFlow: null, stored: null };
  const delay = medianOf(
    timed.map((one) => one.delay),
    "s",
  );
  const flows = timed.flatMap(({ airFlow }) => (airFlow === null ? [] : [airFlow]));
  const airFlow = flows.length === 0 ? null : flows.reduce((sum, flow) => sum + flow, 0) / flows.length;
  const holds = medianOf(
    timed.map((one) => lessSensor(one, limits)),
    "s",
  );
  const verdict =
    holds.low !== null && holds.low >= limits.longDelay
      ? "long"
      : delay.high !== null && delay.high <= limits.shortDelay
        ? "short"
        : "between";
  return { verdict, delay, count: timed.length, airFlow, stored: storedAtLeast(timed, limits) };
}

function storedAtLeast(timed: readonly LiftOff[], limits: Limits): number | null {
  const stored = timed.flatMap((one) => {
    const [passed, held] = [one.storedOxygen.low, lessSensor(one, limits).low];
    if (passed === null || held === null || !(one.delay.low! > 0)) return [];
    return [Math.max(0, (passed * held) / one.delay.low! - limits.wayOxygen)];
  });
  return stored.length > 0 ? medianOfNumbers(stored) : null;
}

/** A first-order sensor that falls towards 0 V passes 0.45 V about as late as it takes from 0.3 to 0.15 V. */
function lessSensor({ delay, rearSwitch }: LiftOff, limits: Limits): Reading {
  const own = rearSwitch.high ?? (delay.grade === "at-least" ? 0 : 2 * limits.slowRear);
  const less = (bound: number | null) => (bound === null ? null : Math.max(0, bound - own));
  return { ...delay, value: less(delay.value), low: less(delay.low), high: less(delay.high) };
}
