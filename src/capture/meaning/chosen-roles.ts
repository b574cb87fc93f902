// Which role and bank each column has: what the user said, else what its name says.

import type { Samples } from "../../signal/series/series.ts";
import type { Bank, Channel, Role } from "../model/capture.ts";
import type { ReadChoices } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { hasValue, type Recorded } from "../time/recorded.ts";
import { someAt } from "./likely-sensors.ts";
import { conversionOf } from "./quantities.ts";
import { type NamedRole, roleNamedBy } from "./roles.ts";

export interface ChosenRole extends NamedRole {
  readonly bank: Bank;
  readonly isSaid: boolean;
}

/** Roles of all columns: what the user said, else what the name says; the first of a kind has it, the others are "other". */
export function rolesOf(columns: readonly Recorded[], choices: ReadChoices, remarks: RemarkBook): ChosenRole[] {
  const taken = new Set<string>();
  const chosen: (ChosenRole | null)[] = columns.map((column) => {
    const role = lookUp(choices.roles, column);
    if (role === undefined) return null;
    const bank = roleNamedBy(column.name, "").bank ?? choices.bank ?? 1;
    taken.add(`${role} ${bank}`);
    return { role, bank, isSaid: true };
  });
  const unitless = unitOfLambda(columns);
  const said = columns.map((column) => {
    const unit = (lookUp(choices.units, column) ?? column.fileUnit) || (speaksOfLambda(column) ? unitless : "");
    return roleNamedBy(column.name, unit);
  });
  // A column that names its bank goes before one that does not; then the better match has the role, and of equals the first.
  const inTurn = [...columns.keys()].sort(
    (a, b) =>
      Number(said[a]!.bank === null) - Number(said[b]!.bank === null) ||
      matchOf(columns[b]!) - matchOf(columns[a]!) ||
      a - b,
  );
  for (const i of inTurn) chosen[i] ??= guessed(columns[i]!, said[i]!, { choices, taken, remarks });
  return chosen.map((one) => one!);
}

/** Volts of a zirconia sensor, or millivolts; wide enough for an offset and for leads the wrong way round. */
const sensorVolts = { least: -1.2, most: 1.4 };

/** How well a column that is named like an oxygen sensor also behaves like one: its unit, and its range. 0 for all others. */
function matchOf({ name, fileUnit, values }: Pick<Recorded, "name" | "fileUnit" | "values">): number {
  const { role } = roleNamedBy(name, fileUnit);
  if (role !== "front-o2" && role !== "rear-o2") return 0;
  const [low, high] = someAt(values, [0.02, 0.98]);
  if (low === undefined || high === undefined) return -2;
  const per = /^\s*mV\s*$/i.test(fileUnit) || (fileUnit === "" && high > 20) ? 1000 : 1;
  const isIn = low >= sensorVolts.least * per && high <= sensorVolts.most * per;
  return (isIn ? 1 : -1) + (fileUnit.trim() === "" ? 0 : 0.5);
}

/** Channels that could as well be the sensor that one of them was taken for: same role and bank by name, and as good a match. */
export interface Rivals {
  readonly role: Role;
  /** The one that was taken first. */
  readonly names: readonly string[];
}

export function rivalsIn(channels: readonly Channel[]): Rivals[] {
  const match = ({ name, fileUnit, series }: Channel) => matchOf({ name, fileUnit, values: series.samples });
  const sensors = channels.filter(({ role }) => role === "front-o2" || role === "rear-o2");
  return sensors.flatMap((sensor) => {
    const named = roleNamedBy(sensor.name, sensor.fileUnit);
    const others = channels.filter((other) => {
      const its = roleNamedBy(other.name, other.fileUnit);
      const isAlike = its.role === sensor.role && its.bank === named.bank;
      return other.role === "other" && isAlike && other.words === undefined && match(other) >= match(sensor);
    });
    return others.length === 0 ? [] : [{ role: sensor.role, names: [sensor, ...others].map(({ name }) => name) }];
  });
}

/** Named for lambda, which is a mixture and what people call the switching sensor that looks for it. */
function speaksOfLambda({ name }: Recorded): boolean {
  const { role } = roleNamedBy(name, "V");
  return (role === "front-o2" || role === "rear-o2") && roleNamedBy(name, "").role !== role;
}

/** "V" where a channel that is named for lambda, without a unit, holds what no mixture can be: the sensors are meant. */
function unitOfLambda(columns: readonly Recorded[]): string {
  const isVoltage = columns.some(
    (column) => column.fileUnit === "" && speaksOfLambda(column) && holdsVoltage(column.values),
  );
  return isVoltage ? "V" : "";
}

/** No engine runs at a lambda below the first, no air-fuel ratio lies above the second: then they are volts, or millivolts. */
const mixtures = { least: 0.5, most: 50 };

function holdsVoltage(values: Samples): boolean {
  const [low, middle] = someAt(values, [0.05, 0.5]);
  return low !== undefined && middle !== undefined && (low < mixtures.least || middle > mixtures.most);
}

/** V; no sensor of 0 to 1 V lies there half of the time, whatever its ground: a wide-band amplifier does. */
const otherVolts = { least: 1.3, most: 5.5, rows: 50 };
/** V; what goes from below the one to above the other, a tenth of the time each, switches on a supply of 5 V: a sensor all the same. */
const fiveVolts = { low: 1, high: 3.5 };

function isOtherVoltage({ fileUnit, values }: Recorded): boolean {
  const { unit, times, over } = conversionOf(fileUnit);
  if (values.length < otherVolts.rows || !(unit === "V" || fileUnit === "")) return false; // so few show nothing
  const [low = Number.NaN, middle = Number.NaN, high = Number.NaN] = someAt(values, [0.1, 0.5, 0.9]).map(
    (value) => (value * times) / over,
  );
  const isSwitching = low < fiveVolts.low && high > fiveVolts.high;
  return middle > otherVolts.least && middle < otherVolts.most && !isSwitching;
}

interface Guessing {
  readonly choices: ReadChoices;
  /** Roles that earlier columns have. */
  readonly taken: Set<string>;
  readonly remarks: RemarkBook;
}

function guessed(column: Recorded, said: NamedRole, { choices, taken, remarks }: Guessing): ChosenRole {
  const bank = said.bank ?? choices.bank ?? 1;
  const role = hasValue(column.values) && !column.isSwitch ? said.role : "other";
  if (role === "other") return { role, bank, isSaid: false };
  if ((role === "front-o2" || role === "rear-o2") && isOtherVoltage(column)) {
    remarks.tally(
      "named as an oxygen sensor, but its voltage is that of no switching one (0 to 1 V), perhaps of a wide-band sensor; left without a role (on the command line --role says otherwise)",
      undefined,
      1,
      column.name,
    );
    return { role: "other", bank, isSaid: false };
  }
  if (taken.has(`${role} ${bank}`)) {
    remarks.tally(
      "more channels for a role that another one has; left without a role (on the command line --role says which it is)",
      undefined,
      1,
      column.name,
    );
    return { role: "other", bank, isSaid: false };
  }
  taken.add(`${role} ${bank}`);
  return { role, bank, isSaid: false };
}

/** What was said of a column under its name or its header, letter case aside. */
export function lookUp<T>(
  said: Readonly<Record<string, T>> | undefined,
  column: { readonly name: string; readonly header: string },
): T | undefined {
  const names = [column.name, column.header].map(plain);
  return said && Object.entries(said).find(([name]) => names.includes(plain(name)))?.[1];
}

const plain = (name: string): string => name.replace(/\s+/g, " ").trim().toLowerCase();
