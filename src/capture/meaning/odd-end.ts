// A last row that was not written whole: a number there that nothing on a car gives.

import type { Role } from "../model/capture.ts";
import { usual } from "../model/no-value-marks.ts";
import type { ReadChoices } from "../model/reader.ts";
import type { RemarkBook } from "../model/remarks.ts";
import type { Recorded } from "../time/recorded.ts";
import { assumedUnit, rangeOf } from "./assumed-unit.ts";
import { lookUp } from "./chosen-roles.ts";
import { conversionOf, toCanonical, unitOfRole } from "./quantities.ts";

/** The least and the most that a car tells, in the reading units: SAE J1979, service $01, from memory; of a sensor what it gives. */
const told: Partial<Record<Role, readonly [least: number, most: number]>> = {
  "front-o2": [usual.least, usual.most],
  "rear-o2": [usual.least, usual.most],
  "engine-speed": [0, 16_383.75],
  "road-speed": [0, 255],
  throttle: [-5, 105],
  "air-flow": [-5, 655.35],
  "coolant-temp": [-40, 215],
  "short-trim": [-100, 100],
  "long-trim": [-100, 100],
};

/** Fewer rows do not show what is usual in a recording. */
const leastRows = 20;

/** The column, its last value missing where no car tells the like and no other row of it holds the like either. */
export function withoutOddEnd(column: Recorded, role: Role, choices: ReadChoices, remarks: RemarkBook): Recorded {
  const { values } = column;
  const limits = told[role];
  if (!limits || values.length < leastRows) return column;
  const last = values.length - 1;
  const before = values.subarray(0, last);
  const said = lookUp(choices.units, column) ?? (column.fileUnit || assumedUnit(role, () => rangeOf(before)));
  const conversion = conversionOf(said ?? "");
  if (conversion.unit !== unitOfRole(role)) return column;
  const isOdd = (written: number) => {
    const value = toCanonical(written, conversion);
    return value < limits[0] || value > limits[1];
  };
  if (!isOdd(values[last]!) || before.some(isOdd)) return column;
  remarks.tally(
    "a last value that no car tells and no other row holds, as of a row that was not written whole, was taken as missing",
    undefined,
    1,
    column.name,
  );
  const cleaned = values.slice();
  cleaned[last] = Number.NaN;
  return { ...column, values: cleaned, isFull: false };
}
