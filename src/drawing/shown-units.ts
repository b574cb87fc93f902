// Units as people read them: chosen once, by kind. All values are stored in the units of the reading type; only what is shown
// changes.

export interface UnitChoice {
  readonly speed: "km/h" | "mph";
  readonly temperature: "degC" | "degF";
  readonly pressure: "kPa" | "inHg" | "psi";
  readonly airFlow: "g/s" | "lb/min";
}

export const siUnits: UnitChoice = { speed: "km/h", temperature: "degC", pressure: "kPa", airFlow: "g/s" };

/** shown = value * times + plus; a difference has no `plus`. */
export interface Shown {
  readonly unit: string;
  readonly times: number;
  readonly plus: number;
}

// Mile 1.609344 km, pound 453.59237 g, inHg 3.386389 kPa, psi 6.894757 kPa (NIST SP 811, appendix B).
const conversions: Readonly<Record<string, Shown>> = {
  mph: { unit: "mph", times: 1 / 1.609344, plus: 0 },
  degF: { unit: "°F", times: 1.8, plus: 32 },
  inHg: { unit: "inHg", times: 1 / 3.386389, plus: 0 },
  psi: { unit: "psi", times: 1 / 6.894757293168361, plus: 0 },
  "lb/min": { unit: "lb/min", times: 60 / 453.59237, plus: 0 },
  miles: { unit: "mi", times: 1 / 1.609344, plus: 0 },
};

const same = (unit: string): Shown => ({ unit, times: 1, plus: 0 });

let inForce: UnitChoice = siUnits;

/** Chosen once, by the page; what was drawn before is drawn anew by whoever chose. */
export function chooseUnits(choice: UnitChoice): void {
  inForce = choice;
}

export const unitsInForce = (): UnitChoice => inForce;

/** How a stored unit is shown under the choice in force. A unit of another kind stays as it is. */
export function shownAs(unit: string, choice: UnitChoice = inForce): Shown {
  const wanted = wantedFor(unit, choice);
  return (wanted && conversions[wanted]) || same(unit);
}

function wantedFor(unit: string, { speed, temperature, pressure, airFlow }: UnitChoice): string | null {
  if (unit === "km/h") return speed;
  if (unit === "km") return speed === "mph" ? "miles" : null;
  if (unit === "degC") return temperature;
  if (unit === "kPa") return pressure;
  return unit === "g/s" ? airFlow : null;
}
