// The ten quantities of the oxygen-sensor monitoring tests, and the rich share, for the front sensor of a stretch.

import { medianHalfCycleOf, medianPeriodOf } from "../../signal/cycles/median-period.ts";
import type { Crossings } from "../../signal/edges/crossings.ts";
import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
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
    betweenTransitions: trouble ? refused(trouble, crossings) : medianHalfCycleOf(crossings),
    period: trouble ? refused(trouble, crossings) : medianPeriodOf(crossings),
    richShare: sensor.richShare,
  };
}

const refused = (trouble: string, { times }: Crossings): Reading =>
  notResolvable("s", trouble, { count: Math.max(0, times.length - 1) });
