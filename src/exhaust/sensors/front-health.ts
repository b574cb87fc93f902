// The ten quantities of the oxygen-sensor monitoring tests, and the rich share, for the front sensor of a stretch.

import { periodsOf } from "../../signal/cycles/cycles.ts";
import type { Crossings } from "../../signal/edges/crossings.ts";
import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { medianOfNumbers, spreadOfMedian } from "../../signal/statistics/statistics.ts";
import type { FrontHealth } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";
import type { SensorMeasured } from "./sensor.ts";

/**
 * Tests $01 … $0A of SAE J1979 / ISO 15031-5 (their names from a general packet library's tables, the standard itself not
 * seen). $01 to $04 are constants of the vehicle there; here they are the levels this measurement used.
 */
export function frontHealthOf({ sensor, crossings, trouble }: SensorMeasured, limits: Limits): FrontHealth {
  const level = (value: number): Reading => measured(value, [value, value], "V", { because: "the level used here" });
  return {
    richToLeanThreshold: level(limits.switchLevel),
    leanToRichThreshold: level(limits.switchLevel),
    lowSwitchLevel: level(limits.lowLevel),
    highSwitchLevel: level(limits.highLevel),
    richToLean: sensor.richToLean,
    leanToRich: sensor.leanToRich,
    minimum: sensor.minimum,
    maximum: sensor.maximum,
    betweenTransitions: medianTime(halfCycles(crossings), crossings, trouble),
    period: medianTime(periodsOf(crossings), crossings, trouble),
    richShare: sensor.richShare,
  };
}

/** From each crossing to the next, in the same gap-free run. */
function halfCycles({ times, runs }: Crossings): Float64Array {
  const spells: number[] = [];
  for (let k = 1; k < times.length; k++) if (runs[k] === runs[k - 1]) spells.push(times[k]! - times[k - 1]!);
  return Float64Array.from(spells);
}

/**
 * Median with its bounds: what the spread leaves open, and the usual doubt of two crossings. Edges hidden between samples may
 * lie alike in many cycles, where the rhythm and the samples' keep step: then a quarter of that doubt stays however many.
 */
function medianTime(times: Float64Array, { low, high, slack, step }: Crossings, trouble: string | null): Reading {
  const count = times.length;
  if (trouble) return notResolvable("s", trouble, { count });
  if (count === 0) return notResolvable("s", "The sensor did not switch often enough in this span.", { count });
  const value = medianOfNumbers(times);
  const width = medianOfNumbers(high.map((bound, k) => bound - low[k]!));
  const doubt = width / (width > step / 2 ? Math.min(4, Math.sqrt(count)) : Math.sqrt(count));
  const half = Math.hypot(spreadOfMedian(times), doubt) + slack;
  if (2 * half > value) {
    const because = "Too few or too uneven cycles for a median. A longer span would tell.";
    return notResolvable("s", because, { low: Math.max(0, value - half), high: value + half, count });
  }
  return measured(value, [value - half, value + half], "s", { count });
}
