// Values out of text as people write and paste it: "Engine speed: 2,000 rpm", "coolant 181 °F", "75 km/h".

import { conversionOf, isUnit, toCanonical } from "../../capture/meaning/quantities.ts";
import { formatRange, formatValue } from "../../signal/written/reading-text.ts";
import { shownAs } from "../../signal/written/writing.ts";
import { codesInText, withoutCodes } from "../codes/code-text.ts";
import { numberAsTyped } from "../units/typed-number.ts";
import type { ParameterValues } from "./parameter-replies.ts";
import { fuelStatuses, type ParameterId, parameterOf, reachOf } from "./parameters.ts";
import { piecesOf } from "./text-pieces.ts";

export interface ParameterText {
  readonly values: ParameterValues;
  /** The first code that is named, which a freeze frame may have been stored by; null where none is. */
  readonly code: string | null;
  /** Lines that hold a number and were not understood. */
  readonly unread: readonly { readonly line: number; readonly says: string }[];
}

/**
 * In order: the first that fits a line names it. Own list of usual words, and the labels that the standard gives its items
 * ("SHRTFT1", "LOAD_PCT"; from memory), with blanks for their bars.
 */
const names: readonly (readonly [ParameterId, RegExp])[] = [
  ["shortTrim2", /(short|shrt).*(bank\s*2|b2)|(bank\s*2|b2).*(short|stft)|(stft|\b(short|shrt)\s?ft)\D?\s?2/i],
  ["longTrim2", /long.*(bank\s*2|b2)|(bank\s*2|b2).*(long|ltft)|(ltft|\blong\s?ft)\D?\s?2/i],
  ["shortTrim1", /short.*trim|trim.*short|stft|short term|\b(short|shrt)\s?ft/i],
  ["longTrim1", /long.*trim|trim.*long|ltft|long term|\blong\s?ft/i],
  ["catalystTemperature2", /cat.*temp.*(bank\s*2|b2)|(bank\s*2|b2).*cat.*temp|\bcatemp\s?21/i],
  ["catalystTemperature1", /cat.*temp/i],
  ["intakeTemperature", /intake.*temp|air temp|\biat\b/i],
  ["coolant", /coolant|\bect\b|\bclt\b|engine temp/i],
  ["manifoldPressure", /manifold|\bmap\b/i],
  ["barometer", /baro/i],
  ["airFlow", /air\s?flow|\bmaf\b|mass air/i],
  ["absoluteLoad", /absolute.*load|\bload abs\b/i],
  ["load", /\bload\b/i],
  ["throttle", /throttle|\btps?\b/i],
  ["timing", /timing|spark|ignition advance/i],
  ["runTime", /run\s?time|\bruntm\b|time since (engine )?start/i],
  ["distanceWithLamp", /distance.*(lamp|mil\b)|\bmil dist\b/i],
  ["timeWithLamp", /time.*(lamp|mil\b)|\bmil time\b/i],
  ["distanceSinceClear", /distance.*clear|\bclr dist\b/i],
  ["timeSinceClear", /time.*clear|\bclr time\b/i],
  ["warmUps", /warm[\s-]?ups?/i],
  ["purge", /purge|\bevap pct\b/i],
  ["moduleVoltage", /(supply|module|battery|control).*volt|\bvpwr\b/i],
  ["wantedLambda", /lambda|equivalence|\beq rat\b/i],
  ["engineSpeed", /engine (speed|spd)|(?<![a-z])rpm\b|1\/min/i],
  ["roadSpeed", /(road|vehicle|car) (speed|spd)|\bvss\b|\bspeed\b|km\/h|kph|mph/i],
];

/** Never throws. A unit that is not of the quantity's kind leaves its value unread. */
export function parametersInText(text: string): ParameterText {
  const values: Partial<Record<ParameterId, number>> = {};
  const unread: { line: number; says: string }[] = [];
  let code: string | null = null;
  text.split(/\r\n|\r|\n/).forEach((line, i) => {
    const status = statusIn(line);
    if (status !== null) values.fuelStatus1 ??= status;
    const named = codesInText(line)[0]?.code ?? null;
    code ??= named;
    for (const piece of piecesOf(evened(named === null ? line : withoutCodes(line)), isWhole, begins)) {
      const found = valueIn(piece);
      if (typeof found !== "string") values[found.id] ??= found.value;
      else if (statusIn(piece) === null && !(named && isOfCode(piece))) unread.push({ line: i + 1, says: found });
    }
  });
  return { values, code, unread };
}

/** One way to write blanks, units of engine speed and the bars of labels; "2 000 rpm" and "12 300 km" are one number each. */
function evened(line: string): string {
  const plain = line
    .replace(/[ \t]{2,}/g, " ")
    .replace(/(?<=[a-z])_(?=[a-z])/gi, " ")
    .replace(/\b1\/min\b|\bmin-1\b/gi, "rpm");
  const isOfSpeed = /\brpm\b|engine (speed|spd)/i.test(plain);
  const joined = isOfSpeed
    ? plain.replace(/(?<!\b(bank|sensor|b|s) ?|[\d.,:])([1-9]) (\d{3})(?![\d.,])/gi, "$2$3")
    : plain;
  return joined.replace(/(?<![\d.,:])(\d{1,3}) (\d{3})(?= ?(km|mi|miles)\b(?!\/h))/gi, "$1$2");
}

/** Beside a code: its number in a list, or that of a frame, a bank or a sensor, and no value. */
function isOfCode(piece: string): boolean {
  const rest = piece.replace(
    /^\W*\d{1,2}(\W*$|[.):]\s)|#\d{1,2}\b|\b(dtc|codes?|faults?|frames?|no|nr|bank|sensor|cylinder)\W*\d{1,2}\b/gi,
    "",
  );
  return !/\d/.test(rest) && !names.some(([, says]) => says.test(piece));
}

/** A quantity with its value, or one that has a bank for all that is said of it. */
const isWhole = (piece: string): boolean =>
  typeof valueIn(piece) !== "string" || (endsInPlace.test(piece) && names.some(([, says]) => says.test(piece)));
/** A unit may be told like a quantity ("rpm", "km/h"): it begins nothing, but with its number it stands for one. */
const begins = (text: string): boolean =>
  /^\d[\d.,]*\s?(rpm|km\/h|kph|mph)\b/i.test(text) ||
  (!isUnit(text.split(" ")[0]!) && names.some(([, says]) => says.exec(text)?.index === 0));

function statusIn(line: string): number | null {
  if (!/fuel ?(system|sys|loop|status)|\bloop\b/i.test(line)) return null;
  if (/closed|\bCL\b/i.test(line)) return /fault/i.test(line) ? 16 : 2;
  if (!/open|\bOL\b/i.test(line)) return null;
  return /fault/i.test(line) ? 8 : /load|overrun|decel/i.test(line) ? 4 : 1;
}

/** "Short trim bank 1": the number is no value. */
const endsInPlace = /\b(bank|sensor|b|s)\s?\d\s*$/i;

function valueIn(line: string): { id: ParameterId; value: number } | string {
  const id = names.find(([, says]) => says.test(line))?.[0];
  if (!id) return `Not understood: “${line.trim()}”. Name the quantity, as in “engine speed 2000 rpm”.`;
  const clock = parameterOf(id).unit === "s" ? /\b\d+(:\d\d)+\s*(h|hours|min|s)?\s*$/i.exec(line) : null;
  if (clock) return clockIn(id, clock[0]);
  // Names may hold digits ("bank 1"): the value is the last number of the line.
  const match = /([-+−]?\d[\d.,'\u00a0\u202f]*)\s*([^\d\s.,;:]*[^\d.,;:]*?)\s*$/u.exec(line);
  const value = match && !endsInPlace.test(line) ? numberAsTyped(match[1]!) : null;
  if (!match || value === null) return `No number that can be read: “${line.trim()}”.`;
  const { unit, bytes } = parameterOf(id);
  const written = match[2]!.trim();
  const isInMinutes = written === "" && (id === "timeWithLamp" || id === "timeSinceClear");
  const said = isInMinutes ? "min" : written;
  const converted = inUnit(value, said, unit) ?? inUnit(value, said.split(/\s/)[0]!, unit);
  if (converted === null) return `${parameterOf(id).name} is not told in “${written}”; write it in ${unit}.`;
  return withinReach(id, bytes > 0 ? converted : value);
}

/** "0:12:30"; what may be minutes or hours is no time. */
function clockIn(id: ParameterId, clock: string): { id: ParameterId; value: number } | string {
  const parts = /^(\d+):(\d\d):(\d\d)/.exec(clock);
  if (!parts)
    return `“${clock.trim()}” may be minutes or hours: write ${parameterOf(id).name.toLowerCase()} as in “12 min”.`;
  return { id, value: 3600 * Number(parts[1]) + 60 * Number(parts[2]) + Number(parts[3]) };
}

/** What no reply could hold is a slip of the hand. */
function withinReach(id: ParameterId, value: number): { id: ParameterId; value: number } | string {
  const { name, unit } = parameterOf(id);
  const reach = reachOf(id);
  const slack = 0.001 * (reach[1] - reach[0]);
  if (value >= reach[0] - slack && value <= reach[1] + slack) return { id, value };
  return `${name} cannot be ${formatValue(value, unit)}: a car tells ${formatRange(reach, unit)}.`;
}

/** Null where the unit is of another kind. Without a unit it is the one in which such values are shown. */
function inUnit(value: number, written: string, unit: string): number | null {
  if (unit === "deg" || unit === "status") return value;
  if (written === "") {
    const { times, plus } = shownAs(unit);
    return (value - plus) / times;
  }
  if (unit === "km") return /^mi/i.test(written) ? value * 1.609344 : /^km/i.test(written) ? value : null;
  const by = conversionOf(written);
  if (!by.known) return null;
  return by.unit === unit ? toCanonical(value, by) : null;
}

/** "closed loop"; the number where it is none of the standard's. */
export const fuelStatusInWords = (status: number): string => fuelStatuses[status] ?? `status ${status}`;
