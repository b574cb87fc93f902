// A zirconia sensor: cell voltage over mixture, lag, and the module's bias while the element is cold.

import type { SensorSpec } from "./car.ts";
import { cellSlope, nernstVoltage } from "./gas.ts";
import { lagShare } from "./lag.ts";

/**
 * Cell voltage in the steady state, V.
 *
 * Lean: Nernst on the oxygen left over, which in pure air gives 0 V. Rich: rises with the logarithm of what is
 * unburnt. In between a tanh step, the common form in modelling (no single source).
 *
 * @param excess 1 - 1/lambda. @param kelvin of the element.
 */
export function cellVoltage(spec: SensorSpec, excess: number, kelvin: number): number {
  const lean = nernstVoltage(kelvin, 0.2095 * 1.01325 * Math.min(1, Math.max(excess, 0.001)));
  const rich = spec.richLevel + 2 * cellSlope(kelvin) * Math.log(Math.max(-excess, 0.002) / 0.01);
  const richness = 0.5 * (1 - Math.tanh((excess - spec.shift) / spec.width));
  return lean + (rich - lean) * richness;
}

/** Share of the cell in the reading: its resistance falls with temperature against the module's. From memory. */
export function awakeShare(spec: SensorSpec, celsius: number): number {
  return 1 / (1 + Math.exp((spec.wakeTemperature - celsius) / 15));
}

/** @param step s. @returns one step: excess at the tip in, terminal voltage out. `heated`: the engine runs. */
export function createSensor(spec: SensorSpec, step: number): (excess: number, heated: boolean) => number {
  const fall = lagShare(spec.richToLean, step);
  const rise = lagShare(spec.leanToRich, step);
  const heat = lagShare(spec.warmUp, step);
  let celsius = spec.coldTemperature;
  let cell = spec.bias;
  return (excess, heated) => {
    if (heated) celsius += (spec.hotTemperature - celsius) * heat;
    const target = cellVoltage(spec, excess, celsius + 273.15);
    const awake = awakeShare(spec, celsius);
    // A cool element is slow as well: up to four times at the edge of sleep.
    cell += (target - cell) * (target < cell ? fall : rise) * (0.25 + 0.75 * awake);
    return spec.bias + (cell - spec.bias) * awake;
  };
}
