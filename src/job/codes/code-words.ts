// What the standard's codes that matter here mean, in our own words. Meanings from memory (SAE J2012); all others are shown as
// codes only, and a maker's own code never gets words made up from its number.

import { type CodeName, definedBy, systemOf } from "./code.ts";

/** What a code is about, as far as it bears on the catalyst. */
export type CodeConcern =
  | "misfire"
  | "heater"
  | "sensor"
  | "mixture"
  | "air-meter"
  | "temperature"
  | "leak"
  | "catalyst"
  | "speed"
  | "other";

export interface CodeMeaning {
  readonly says: string;
  readonly concern: CodeConcern;
}

const meanings = new Map<CodeName, CodeMeaning>();

function tell(concern: CodeConcern, words: Readonly<Record<CodeName, string>>): void {
  for (const [code, says] of Object.entries(words)) meanings.set(code, { says, concern });
}

/** Codes in a row from `first` on. Most of the table counts in tens (P0139, P0140); what holds a letter counts in sixteens. */
function row(concern: CodeConcern, first: CodeName, says: readonly string[]): void {
  says.forEach((one, i) => {
    meanings.set(later(first, i), { says: one, concern });
  });
}

function later(first: CodeName, steps: number): CodeName {
  const base = /[A-F]/.test(first.slice(1)) ? 16 : 10;
  const number = Number.parseInt(first.slice(1), base) + steps;
  return first[0]! + number.toString(base).toUpperCase().padStart(4, "0");
}

/** "front sensor, bank 1": sensor 1 is nearest to the engine. */
const place = (bank: number, sensor: number): string =>
  `${["front", "rear", "third"][sensor - 1]} oxygen sensor, bank ${bank}`;

const circuit = ["circuit", "voltage too low", "voltage too high", "slow response", "no activity"];

for (const [first, bank, sensor] of [
  ["P0130", 1, 1],
  ["P0136", 1, 2],
  ["P0142", 1, 3],
  ["P0150", 2, 1],
  ["P0156", 2, 2],
  ["P0162", 2, 3],
] as const) {
  const where = place(bank, sensor);
  row(
    "sensor",
    first,
    circuit.map((what) => `${where}: ${what}`),
  );
  tell("heater", { [later(first, 5)]: `${where}: heater` });
}
for (const [first, bank, sensor] of [
  ["P0030", 1, 1],
  ["P0036", 1, 2],
  ["P0042", 1, 3],
  ["P0050", 2, 1],
  ["P0056", 2, 2],
  ["P0062", 2, 3],
] as const) {
  const where = `${place(bank, sensor)}: heater control circuit`;
  row("heater", first, [where, `${where}, too low`, `${where}, too high`]);
}
row(
  "heater",
  "P0053",
  [1, 2, 3].map((sensor) => `${place(1, sensor)}: heater resistance out of range`),
);
row(
  "heater",
  "P0059",
  [1, 2, 3].map((sensor) => `${place(2, sensor)}: heater resistance out of range`),
);
tell("sensor", {
  P0040: "front oxygen sensors swapped between the banks",
  P0041: "rear oxygen sensors swapped between the banks",
});
const directions = ["from rich to lean", "from lean to rich"];
for (const [first, how, bank, sensor] of [
  ["P013A", "slow", 1, 2],
  ["P013C", "slow", 2, 2],
  ["P013E", "late", 1, 2],
  ["P014A", "late", 2, 2],
  ["P014C", "slow", 1, 1],
  ["P014E", "slow", 2, 1],
  ["P015A", "late", 1, 1],
  ["P015C", "late", 2, 1],
] as const) {
  row(
    "sensor",
    first,
    directions.map((way) => `${place(bank, sensor)}: ${how} ${way}`),
  );
}
for (const [first, what, bank, sensor] of [
  ["P2195", "stuck", 1, 1],
  ["P2197", "stuck", 2, 1],
  ["P2270", "stuck", 1, 2],
  ["P2272", "stuck", 2, 2],
] as const) {
  row(
    "sensor",
    first,
    ["lean", "rich"].map((side) => `${place(bank, sensor)}: ${what} ${side}`),
  );
}
row(
  "sensor",
  "P2A00",
  [1, 2, 3].map((sensor) => `${place(1, sensor)}: reads implausibly`),
);
row(
  "sensor",
  "P2A03",
  [1, 2, 3].map((sensor) => `${place(2, sensor)}: reads implausibly`),
);

tell("misfire", { P0300: "misfire, several cylinders or changing ones" });
for (let cylinder = 1; cylinder <= 12; cylinder++) {
  tell("misfire", { [`P03${String(cylinder).padStart(2, "0")}`]: `misfire, cylinder ${cylinder}` });
}
tell("mixture", {
  P0170: "fuel trim, bank 1",
  P0171: "mixture too lean, bank 1",
  P0172: "mixture too rich, bank 1",
  P0173: "fuel trim, bank 2",
  P0174: "mixture too lean, bank 2",
  P0175: "mixture too rich, bank 2",
  P2096: "trim behind the catalyst too lean, bank 1",
  P2097: "trim behind the catalyst too rich, bank 1",
  P2098: "trim behind the catalyst too lean, bank 2",
  P2099: "trim behind the catalyst too rich, bank 2",
});
row("air-meter", "P0100", [
  "air meter: circuit",
  "air meter: implausible",
  "air meter: signal too low",
  "air meter: signal too high",
  "air meter: signal comes and goes",
]);
tell("temperature", {
  P0125: "coolant too cold for the mixture loop to close",
  P0128: "coolant does not get warm enough: thermostat",
  P0425: "catalyst temperature sensor, bank 1: circuit",
  P0426: "catalyst temperature sensor, bank 1: implausible",
  P0427: "catalyst temperature sensor, bank 1: too low",
  P0428: "catalyst temperature sensor, bank 1: too high",
});
tell("leak", {
  P0440: "fuel vapour system",
  P0441: "fuel vapour system: purge flow",
  P0442: "fuel vapour system: small leak",
  P0455: "fuel vapour system: large leak",
  P0456: "fuel vapour system: very small leak",
  P2279: "air leaks into the intake",
});
for (const [bank, tens] of [
  [1, 2],
  [2, 3],
] as const) {
  row("catalyst", `P04${tens}0`, [
    `catalyst efficiency below its limit, bank ${bank}`,
    `warm-up catalyst: efficiency below its limit, bank ${bank}`,
    `main catalyst: efficiency below its limit, bank ${bank}`,
    `heated catalyst: efficiency below its limit, bank ${bank}`,
    `heated catalyst: does not get hot enough, bank ${bank}`,
  ]);
}
row(
  "speed",
  "P0500",
  ["circuit", "implausible", "too low", "jumps or too high"].map((w) => `vehicle speed: ${w}`),
);
row(
  "speed",
  "P0725",
  ["circuit", "implausible", "no signal", "comes and goes"].map((w) => `engine speed: ${w}`),
);

const apart = {
  chassis: "a code of the chassis; kept, and no part of this job",
  body: "a code of the body; kept, and no part of this job",
  network: "a code of the bus between the modules; kept, and no part of this job",
} as const;

/** What is said of a code: its meaning where we know it, else only whose it is. */
export function meaningOf(code: CodeName): CodeMeaning {
  const known = meanings.get(code);
  if (known) return known;
  if (definedBy(code) === "maker")
    return { says: "the maker's own code: only the maker's data tells", concern: "other" };
  const system = systemOf(code);
  return { says: system === "powertrain" ? "see the table of the standard" : apart[system], concern: "other" };
}
