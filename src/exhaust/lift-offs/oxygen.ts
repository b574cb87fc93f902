// Oxygen in the exhaust, and how long gas takes on its way: closed forms.

import type { Seconds } from "../../signal/numbers/units.ts";

/** Mass share of oxygen in dry air: 0.2095 x 32.00 / 28.97. */
export const oxygenShare = 0.2314;

/** J/(kg K), of air; exhaust gas differs by about a percent. */
const gasConstant = 287.05;
const ambient = 101_325;

/** Time for gas to pass a volume, s, at ambient pressure: t = V p / (R T mdot), the ideal gas law. */
export function transportTime(way: {
  readonly litres: number;
  readonly kelvin: number;
  readonly gramsPerSecond: number;
}): Seconds {
  return ((way.litres / 1000) * ambient) / (gasConstant * way.kelvin * (way.gramsPerSecond / 1000));
}
