// Values out of text as people write and paste it: "Engine speed: 2,000 rpm", "coolant 181 °F", "75 km/h".

import { conversionOf, isUnit, toCanonical } from "../../capture/meaning/quantities.ts";
import { shownAs } from "../../signal/written/writing.ts";
import { codesInText, withoutCodes } from "../codes/code-text.ts";
import { numberAsTyped } from "../units/typed-number.ts";
import type { ParameterValues } from "./parameter-replies.ts";
import { fuelStatuses, type ParameterId, parameterOf } from "./parameters.ts";
import { piecesOf } from "./text-pieces.ts";

export interface ParameterText {
  readonly values: ParameterValues;
  /** The first code that is named, which a freeze frame may have been stored by; null where none is. */
  readonly code: string | null;
  /** Lines that hold a number and were not understood. */
  readonly unread: readonly { readonly line: number; readonly says: string }[];
}

/** In order: the first that fits a line names it. Own list of usual words. */
const names: readonly (readonly [ParameterId, RegExp])[] = [
  ["shortTrim2", /short.*(bank\s*2|b2)|(bank\s*2|b2).*(short|stft)|stft\D?\s?2/i],
  ["longTrim2", /long.*(bank\s*2|b2)|(bank\s*2|b2).*(long|ltft)|ltft\D?\s?2/i],
  ["shortTrim1", /short.*trim|stft|short term/i],
  ["longTrim1", /long.*trim|ltft|long term/i],
  ["catalystTemperature2", /cat.*temp.*(bank\s*2|b2)|(bank\s*2|b2).*cat.*temp/i],
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
    const rest = (named === null ? line : withoutCodes(line)).replace(/[ \t]{2,}/g, " ");
    for (const piece of piecesOf(rest.replace(/\b1\/min\b|\bmin-1\b/gi, "rpm"), isWhole, begins)) {
      const found = valueIn(piece);
      if (typeof found !== "string") values[found.id] ??= found.value;
      else if (statusIn(piece) === null && !(named && isOfCode(piece))) unread.push({ line: i + 1, says: found });
    }
  });
  return { values, code, unread };
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
  if (!/fuel (system|sys|loop|status)|\bloop\b/i.test(line)) return null;
  if (/closed|\bCL\b/i.test(line)) return /fault/i.test(line) ? 16 : 2;
  if (!/open|\bOL\b/i.test(line)) return null;
  return /fault/i.test(line) ? 8 : /load|overrun|decel/i.test(line) ? 4 : 1;
}

/** "Short trim bank 1": the number is no value. */
const endsInPlace = /\b(bank|sensor|b|s)\s?\d\s*$/i;

function valueIn(line: string): { id: ParameterId; value: number } | string {
  const id = names.find(([, says]) => says.test(line))?.[0];
  if (!id) return `Not understood: “${line.trim()}”. Name the quantity, as in “engine speed 2000 rpm”.`;
  // Names may hold digits ("bank 1"): the value is the last number of the line.
  const match = /([-+−]?\d[\d.,'\u00a0\u202f]*)\s*([^\d\s.,;:]*[^\d.,;:]*?)\s*$/u.exec(line);
  const value = match && !endsInPlace.test(line) ? numberAsTyped(match[1]!) : null;
  if (!match || value === null) return `No number that can be read: “${line.trim()}”.`;
  const { unit, bytes } = parameterOf(id);
  const written = match[2]!.trim();
  const isInMinutes = written === "" && (id === "timeWithLamp" || id === "timeSinceClear");
  const said = isInMinutes ? "min" : written;
  const converted = inUnit(value, said, unit) ?? inUnit(value, said.split(/\s/)[0]!, unit);
  return converted === null
    ? `${parameterOf(id).name} is not told in “${written}”; write it in ${unit}.`
    : { id, value: bytes > 0 ? converted : value };
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
