// Units in any usual spelling, and how they become the units of the reading type.

import type { Samples } from "../../signal/series/series.ts";
import type { Role } from "../model/capture.ts";

/** canonical = (written - zero) * times / over. Multiplied and divided apart, so that 9 mV becomes 0.009 V exactly. */
export interface Conversion {
  /** Canonical unit; the written one where we do not know it. */
  readonly unit: string;
  readonly times: number;
  readonly over: number;
  readonly zero: number;
  /** False where the spelling is not in the table. */
  readonly known: boolean;
}

/** One row: canonical unit, times, over, zero, spellings in lower case without blanks and degree signs. */
type Row = readonly [unit: string, times: number, over: number, zero: number, spellings: string];

// Pound 0.45359237 kg, mile 1.609344 km, psi and inHg by definition (NIST SP 811, appendix B).
const table: readonly Row[] = [
  ["V", 1, 1, 0, "v volt volts vdc voltdc voltios volt(s) в"],
  ["V", 1, 1e3, 0, "mv millivolt millivolts mvolt mvolts mvdc мв"],
  ["V", 1, 1e6, 0, "uv microvolt microvolts"],
  ["V", 1e3, 1, 0, "kv"],
  ["s", 1, 1, 0, "s sec secs second seconds sek sekunde sekunden seconde secondes segundo segundos secondi с сек 秒"],
  [
    "s",
    1,
    1e3,
    0,
    "ms msec msecs millisec millis millisecond milliseconds millisekunden millisecondes milisegundos мс",
  ],
  ["s", 1, 1e6, 0, "us usec usecs micros microsec microsecond microseconds mikrosekunden"],
  ["s", 1, 1e9, 0, "ns nsec nanos nanosecond nanoseconds"],
  ["s", 60, 1, 0, "min mins minute minutes minuten minutos"],
  ["s", 3600, 1, 0, "h hr hrs hour hours std stunde stunden u uur heure heures hora horas"],
  ["s", 86400, 1, 0, "d day days tag tage jour jours dia dias"],
  ["Hz", 1, 1, 0, "hz hertz 1/s s-1 cps sa/s samples/s sps"],
  ["Hz", 1e3, 1, 0, "khz ksa/s ks/s"],
  ["Hz", 1e6, 1, 0, "mhz msa/s"],
  [
    "1/min",
    1,
    1,
    0,
    "rpm 1/min min-1 min^-1 /min u/min upm umin tr/min trs/min r/min rev/min revs/min giri/min obr/min ot/min omw/min ford/min об/мин об/хв",
  ],
  ["1/min", 1e3, 1, 0, "krpm rpmx1000 x1000rpm 1000rpm 1000/min"],
  ["1/min", 60, 1, 0, "rps rev/s"],
  ["g/s", 1, 1, 0, "g/s g/sec gm/s gm/sec gms/sec gps gram/s gram/sec grams/s grams/sec grams/second gramm/s gs-1 г/с"],
  ["g/s", 1, 3.6, 0, "kg/h kg/hr kg/std kg/hour kgh-1 kgph"],
  ["g/s", 1000, 60, 0, "kg/min"],
  ["g/s", 1000, 1, 0, "kg/s kg/sec"],
  ["g/s", 1, 1000, 0, "mg/s"],
  ["g/s", 1, 3600, 0, "g/h g/hr"],
  ["g/s", 453.59237, 60, 0, "lb/min lbs/min lb/mn lb/m lbm/min pounds/min"],
  ["g/s", 453.59237, 3600, 0, "lb/h lb/hr lbs/h lbs/hr lbm/h"],
  ["km/h", 1, 1, 0, "km/h kph kilometers/hour kilometres/hour kmh kmph km/hr km/std km/uur km/u kmh-1 км/ч км/год"],
  ["km/h", 1.609344, 1, 0, "mph mi/h mi/hr miles/hour mile/h miles/h milesperhour"],
  ["km/h", 3.6, 1, 0, "m/s m/sec ms-1 meters/second metres/second meter/sec"],
  ["km/h", 1.852, 1, 0, "kn kt kts knot knots"],
  ["degC", 1, 1, 0, "c degc celsius gradc grdc degreec degreesc gradcelsius degreescelsius"],
  ["degC", 5, 9, 32, "f degf fahrenheit degreef degreesf degreesfahrenheit"],
  ["degC", 1, 1, 273.15, "k kelvin degk"],
  ["kPa", 1, 1, 0, "kpa kpaa kpaabs kpa(abs) кпа"],
  ["kPa", 1, 1e3, 0, "pa"],
  ["kPa", 1, 10, 0, "hpa mbar millibar mb"],
  ["kPa", 100, 1, 0, "bar bara"],
  ["kPa", 1e3, 1, 0, "mpa"],
  ["kPa", 6.894757293168361, 1, 0, "psi psia lbf/in2 lb/in2"],
  ["kPa", 3.386389, 1, 0, 'inhg in.hg in-hg inhga "hg inofhg'],
  ["kPa", 101.325, 760, 0, "mmhg torr mm.hg"],
  ["kPa", 101.325, 1, 0, "atm"],
  ["mA", 1, 1, 0, "ma milliamp milliamps"],
  ["mA", 1e3, 1, 0, "a amp amps ampere ampère"],
  ["mA", 1, 1e3, 0, "ua microamp"],
  ["%", 1, 1, 0, "% percent pct prozent proz pourcent porcentaje porciento perc"],
  ["g", 1, 1, 0, "g gram grams gramm"],
  ["g", 1e3, 1, 0, "kg"],
  ["g", 1, 1e3, 0, "mg"],
  ["1", 1, 1, 0, "1 lambda λ ratio count counts equiv eqratio"],
  // Petrol, stoichiometric 14.7 kg air per kg fuel: common practice; said in a remark where it is used.
  ["1", 1, 14.7, 0, "afr a/f a:f"],
];

const known = new Map<string, Conversion>();
for (const [unit, times, over, zero, spellings] of table) {
  for (const spelling of spellings.split(" ")) known.set(spelling, { unit, times, over, zero, known: true });
}

/**
 * How numbers written in `fileUnit` become canonical ones. An unknown unit, or none, is kept as it is written.
 * Never throws.
 */
export function conversionOf(fileUnit: string): Conversion {
  const unit = bare(fileUnit);
  return known.get(spelling(unit)) ?? { unit, times: 1, over: 1, zero: 0, known: false };
}

/** Whether `text` is a unit we know, in any usual spelling. */
export function isUnit(text: string): boolean {
  return known.has(spelling(bare(text)));
}

/** The unit in which a channel of this role is measured; "" for roles without one of their own. */
export function unitOfRole(role: Role): string {
  return unitOf[role] ?? "";
}

const unitOf: Readonly<Partial<Record<Role, string>>> = {
  "front-o2": "V",
  "rear-o2": "V",
  "front-lambda": "1",
  "engine-speed": "1/min",
  throttle: "%",
  "road-speed": "km/h",
  "air-flow": "g/s",
  "short-trim": "%",
  "long-trim": "%",
  "coolant-temp": "degC",
  "catalyst-temp": "degC",
  "fuel-status": "1",
  "engine-load": "%",
  "manifold-pressure": "kPa",
};

/** A written number in the canonical unit. */
export function toCanonical(written: number, by: Conversion): number {
  return ((written - by.zero) * by.times) / by.over;
}

/** A new array in the canonical unit; the same kind of array, NaN stays NaN. */
export function convertSamples(written: Samples, by: Conversion): Samples {
  return written.map((value) => toCanonical(value, by)) as Samples;
}

/** The letters that signs became where UTF-8 was read as Windows-1252 or Mac Roman, or a degree sign by another table still. */
function mended(unit: string): string {
  const plain = unit
    .replace(/[\u00c2\u00e2\u00ac](?=[\u00b0\u00ba\u00b2\u00b3\u00b5\u00b7\u221e])/g, "")
    .replace(/\u00ce\u00bc/g, "u");
  return plain
    .replace(/^(?:[\u00f8\u00e2]|[^\p{L}\p{N}\s/%])+\s*([cf])$/iu, "deg$1")
    .replace(/^[\u00b0\u00ba]\s*\u0441$/i, "degc")
    .replace(/\u00ce\u00bb/g, "\u03bb");
}

/** Without the brackets around it. */
function bare(text: string): string {
  return text
    .trim()
    .replace(/^[[({<]\s*(.*?)\s*[\])}>]$/, "$1")
    .trim();
}

function spelling(unit: string): string {
  return mended(unit)
    .normalize("NFKC") // superscripts, the one-character degree Celsius, the micro sign
    .replace(/[−–]/g, "-")
    .replace(/[\u00b5\u03bc]/g, "u")
    .replace(/[\s°º·*_\ufffd]/g, "")
    .toLowerCase();
}
