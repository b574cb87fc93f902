// Names and values of what the engine computer told, as lines for people.

import type { ParameterValues } from "../../job/parameters/parameter-replies.ts";
import { fuelStatusInWords } from "../../job/parameters/parameter-text.ts";
import { type ParameterId, parameterIds, parameterOf } from "../../job/parameters/parameters.ts";
import { formatValue } from "../../signal/written/reading-text.ts";

const valueInWords = (id: ParameterId, value: number): string => {
  const { unit } = parameterOf(id);
  if (unit === "status") return fuelStatusInWords(value);
  if (id === "timeWithLamp" || id === "timeSinceClear") return formatValue(value / 60, "min", 1);
  return formatValue(value, unit);
};

/** In the order of the standard's table. */
export const valueLines = (values: ParameterValues): (readonly [ParameterId, string, string])[] =>
  parameterIds.flatMap((id) => {
    const value = values[id];
    const isAbsent = value === undefined || (id === "fuelStatus2" && value === 0);
    return isAbsent ? [] : [[id, parameterOf(id).name, valueInWords(id, value)] as const];
  });
