// One time for all transitions of a kind: their median, with the bounds of that median.

import { askedRateFor } from "../numbers/asked-rate.ts";
import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import { medianOfNumbers, spreadOfMedian } from "../statistics/statistics.ts";
import { formatValue } from "../written/reading-text.ts";
import type { Transitions } from "./transitions.ts";

/**
 * Median duration of the complete transitions, with the bounds of that median, not the spread of the durations.
 *
 * @param transitions  of one channel, all of one kind.
 * @returns s. `not-resolvable` without a complete transition, or where the bounds would be wider than the value.
 *
 * What sampling leaves open is common to all transitions and stays: the medians of the lower and upper bounds without
 * their noise (a median rises with every number it is taken of, so this needs no independence). Noise and true variation
 * average out: the standard error of the median is added.
 */
export function transitionTime(transitions: Transitions): Reading {
  const { durations, low, high, deviations } = transitions;
  const count = durations.length;
  const seen = `${transitions.partial} partial and ${transitions.ragged} ragged left out`;
  if (count === 0) return notResolvable("s", `no complete transition between the two levels (${seen})`, { count });
  const value = medianOfNumbers(durations);
  const firmLow = medianOfNumbers(low.map((bound, k) => Math.min(durations[k]!, bound + coverage * deviations[k]!)));
  const firmHigh = medianOfNumbers(high.map((bound, k) => Math.max(durations[k]!, bound - coverage * deviations[k]!)));
  const half = Math.max(coverage * typicalNoise(deviations), spreadOfMedian(durations));
  const bounds = [Math.max(0, firmLow - half), firmHigh + half] as const;
  if (bounds[1] - bounds[0] > value) {
    const wanted =
      transitions.slack > value / 2
        ? `stamps finer than ${formatValue(transitions.slack, "s")}`
        : askedRateFor(within / bounds[1]);
    const because = `the bounds are wider than the time itself; ${wanted} would tell`;
    return notResolvable("s", because, { low: bounds[0], high: bounds[1], count });
  }
  return measured(
    value,
    bounds,
    "s",
    transitions.partial + transitions.ragged > 0 ? { count, because: seen } : { count },
  );
}

/** Standard error of a median of values with these deviations: sqrt(pi / 2) of that of their mean. */
function typicalNoise(deviations: Float64Array): number {
  const meanSquare = deviations.reduce((sum, d) => sum + d * d, 0) / deviations.length;
  const factor = deviations.length < 3 ? 1 : Math.sqrt(Math.PI / 2);
  return factor * Math.sqrt(meanSquare / deviations.length);
}

/** Samples within the longest time that is still possible. */
const within = 10;
