// Gas arithmetic that the whole simulator shares.

/** Mass share of oxygen in air: 0.2095 mol/mol x 32.00 / 28.97 g/mol. */
export const oxygenInAir = 0.2314;

/** J/(kg K), exhaust taken as air. */
const gasConstant = 287;

/** Litres that one gram of gas fills. */
export function litresPerGram(kelvin: number, kiloPascal: number): number {
  return (gasConstant * kelvin) / (kiloPascal * 1000);
}

/**
 * Time that gas needs through a pipe: t = V p / (R T m), plug flow.
 *
 * @param litres of pipe. @param flow g/s, > 0. @returns s.
 */
export function transportTime(litres: number, gas: { kelvin: number; kiloPascal: number; flow: number }): number {
  return litres / (gas.flow * litresPerGram(gas.kelvin, gas.kiloPascal));
}

/** R T / 4F in V: the slope of an oxygen cell in the natural logarithm of the pressure ratio. */
export function cellSlope(kelvin: number): number {
  return (8.314462618 * kelvin) / (4 * 96485.33212);
}

/** Voltage of an oxygen concentration cell between air at 1 atm and an exhaust oxygen pressure in bar: Nernst. */
export function nernstVoltage(kelvin: number, oxygenBar: number): number {
  return cellSlope(kelvin) * Math.log((0.2095 * 1.01325) / oxygenBar);
}

/**
 * Oxygen that a mixture brings in excess (positive) or lacks (negative) over a time, in grams.
 *
 * @param airFlow g/s. @param excess 1 - 1/lambda: 1 in a fuel cut. @param seconds how long.
 */
export function oxygenOver(airFlow: number, excess: number, seconds: number): number {
  return oxygenInAir * airFlow * excess * seconds;
}
