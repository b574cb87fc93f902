// How numbers and dates are written: units, decimal mark and order of a date, chosen once. All values are stored in the units of
// the reading type, with a point, and dates as ISO 8601; only what is shown changes.

export interface UnitChoice {
  readonly speed: "km/h" | "mph";
  readonly temperature: "degC" | "degF";
  readonly pressure: "kPa" | "inHg" | "psi";
  readonly airFlow: "g/s" | "lb/min";
}

export const decimalMarks = [".", ","] as const;
/** Each written as it writes the 4th of May. */
export const dateOrders = ["4 May 2026", "May 4, 2026", "04.05.2026", "04/05/2026", "2026-05-04"] as const;

export interface Writing extends UnitChoice {
  readonly decimal: (typeof decimalMarks)[number];
  readonly dates: (typeof dateOrders)[number];
}

/** As the command line writes, and a page that was told nothing. */
export const plainWriting: Writing = {
  ...{ speed: "km/h", temperature: "degC", pressure: "kPa", airFlow: "g/s" },
  ...{ decimal: ".", dates: "4 May 2026" },
};

let inForce: Writing = plainWriting;

/** Chosen once for a thread; what was written before is written anew by whoever chose. */
export function writeAs(choice: Writing): void {
  inForce = choice;
}

export const writingInForce = (): Writing => inForce;

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

/** As technicians say it: "4491 1/min" is hard to read at arm's length. A map, for a unit may be any text, "constructor" too. */
const spoken: ReadonlyMap<string, string> = new Map([
  ["degC", "°C"],
  ["1/min", "rpm"],
]);

/** A unit as written on screen, the one chosen for its kind: "degC" is "°C" or "°F", "1/min" is "rpm", ratios and counts have none. */
export const showUnit = (unit: string): string => storedUnit(shownAs(unit).unit);

/** The same for numbers shown as they are stored, such as limits. */
export function storedUnit(unit: string): string {
  if (unit === "1") return "";
  return spoken.get(unit) ?? unit;
}
