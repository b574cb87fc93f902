// Where a sensor rests that does not move: at its bias level, or where no sensor sleeps.

import type { Awakening } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";

const isBias = (level: number, { biasLow, biasHigh }: Limits): boolean => level > biasLow && level < biasHigh;

/** "its bias level of 0.45 V", "0 V, as without a signal", "1.2 V, more than such a sensor gives" */
export function restInWords(level: number, limits: Limits): string {
  const said = quantity(level, "V");
  if (isBias(level, limits)) return `its bias level of ${said}`;
  return level < limits.biasLow ? `${said}, as without a signal` : `${said}, more than such a sensor gives`;
}

/** It stood for the whole recording where no sensor rests: it, its heater or a wire is dead, or the engine is one that never needs it. */
export const isMute = (sensor: Awakening | null, limits: Limits): boolean =>
  sensor !== null && sensor.bias.value !== null && sensor.leftBias.value === null && !isBias(sensor.bias.value, limits);
