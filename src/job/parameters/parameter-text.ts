// Values out of text as people write and paste it: "Engine speed: 2,000 rpm", "coolant 181 °F", "75 km/h".

import { conversionOf, toCanonical } from "../../capture/meaning/quantities.ts";
import { numberAsTyped } from "../units/typed-number.ts";
import type { ParameterValues } from "./parameter-replies.ts";
import { fuelStatuses, type ParameterId, parameterOf } from "./parameters.ts";

export interface ParameterText {
  readonly values: ParameterValues;
  /** Lines that hold a number and were not understood. */
  readonly unread: readonly { readonly line: number; readonly says: string }[];
}

/** In order: the first that fits a line names it. Own list of usual words. */
const names: readonly (readonly [ParameterId, RegExp])[] = [
  ["shortTrim2", /short.*(bank\s*2|b2)|stft\D?\s?2/i],
  ["longTrim2", /long.*(bank\s*2|b2)|ltft\D?\s?2/i],
  ["shortTrim1", /short.*trim|stft|short term/i],
  ["longTrim1", /long.*trim|ltft|long term/i],
  ["catalystTemperature2", /cat.*temp.*(bank\s*2|b2)/i],
  ["catalystTemperature1", /cat.*temp/i],
  ["intakeTemperature", /intake.*temp|air temp|\biat\b/i],
  ["coolant", /coolant|\bect\b|\bclt\b|engine temp/i],
  ["manifoldPressure", /manifold|\bmap\b/i],
  ["barometer", /baro/i],
  ["airFlow", /air\s?flow|\bmaf\b|mass air/i],
  ["absoluteLoad", /absolute.*load/i],
  ["load", /\bload\b/i],
  ["throttle", /throttle|\btps\b/i],
  ["timing", /timing|spark|ignition advance/i],
  ["runTime", /run\s?time|time since (engine )?start/i],
  ["distanceWithLamp", /distance.*(lamp|mil\b)/i],
  ["timeWithLamp", /time.*(lamp|mil\b)/i],
  ["distanceSinceClear", /distance.*clear/i],
  ["timeSinceClear", /time.*clear/i],
  ["warmUps", /warm[\s-]?ups?/i],
  ["purge", /purge/i],
  ["moduleVoltage", /(supply|module|battery|control).*volt/i],
  ["wantedLambda", /lambda|equivalence/i],
  ["engineSpeed", /engine speed|\brpm\b|1\/min/i],
  ["roadSpeed", /(road|vehicle|car) speed|\bvss\b|\bspeed\b|km\/h|kph|mph/i],
];

/** Never throws. A unit that is not of the quantity's kind leaves the line unread. */
export function parametersInText(text: string): ParameterText {
  const values: Partial<Record<ParameterId, number>> = {};
  const unread: { line: number; says: string }[] = [];
  text.split(/\r\n|\r|\n|;/).forEach((line, i) => {
    const status = statusIn(line);
    if (status !== null) {
      values.fuelStatus1 ??= status;
      return;
    }
    if (!/\d/.test(line)) return;
    const found = valueIn(line);
    if (typeof found === "string") unread.push({ line: i + 1, says: found });
    else values[found.id] ??= found.value;
  });
  return { values, unread };
}

function statusIn(line: string): number | null {
  if (!/fuel (system|sys|loop|status)|\bloop\b/i.test(line)) return null;
  if (/closed/i.test(line)) return /fault/i.test(line) ? 16 : 2;
  if (!/open/i.test(line)) return null;
  return /fault/i.test(line) ? 8 : /load|overrun|decel/i.test(line) ? 4 : 1;
}

function valueIn(line: string): { id: ParameterId; value: number } | string {
  const id = names.find(([, says]) => says.test(line))?.[0];
  if (!id) return `Not understood: “${line.trim()}”. Name the quantity, as in “engine speed 2000 rpm”.`;
  // Names may hold digits ("bank 1"): the value is the last number of the line.
  const match = /([-+−]?\d[\d.,'\u00a0\u202f]*)\s*([^\d\s.,;:]*[^\d.,;:]*?)\s*$/u.exec(line);
  const value = match ? numberAsTyped(match[1]!) : null;
  if (!match || value === null) return `No number that can be read: “${line.trim()}”.`;
  const { unit, bytes } = parameterOf(id);
  const converted = inUnit(value, match[2]!.trim(), unit);
  return converted === null
    ? `${parameterOf(id).name} is not told in “${match[2]!.trim()}”; write it in ${unit}.`
    : { id, value: bytes > 0 ? converted : value };
}

/** Null where the unit is of another kind. Without a unit, or with words behind the number, it is as the table has it. */
function inUnit(value: number, written: string, unit: string): number | null {
  if (written === "" || unit === "deg" || unit === "status") return value;
  if (unit === "km") return /^mi/i.test(written) ? value * 1.609344 : /^km/i.test(written) ? value : null;
  const by = conversionOf(written);
  if (!by.known) return null;
  return by.unit === unit ? toCanonical(value, by) : null;
}

/** "closed loop"; the number where it is none of the standard's. */
export const fuelStatusInWords = (status: number): string => fuelStatuses[status] ?? `status ${status}`;
