// Columns of numbers from a binary format made a capture: the time column is found by name or by its rise, as in text.

import type { Samples } from "../../signal/series/series.ts";
import { assemble } from "../meaning/assemble.ts";
import type { Capture } from "../model/capture.ts";
import type { ReadChoices } from "../model/reader.ts";
import { noTime, tooFewRows } from "../model/refusals.ts";
import type { RemarkBook } from "../model/remarks.ts";
import { clockIn } from "../text/clock.ts";
import type { HeadColumn } from "../text/head-columns.ts";
import type { TimePlan } from "../text/plan.ts";
import { hasZone, padded } from "../text/time-cells.ts";
import { timeOf } from "../text/time-column.ts";
import { fieldsIn, wrapOf } from "../text/time-fields.ts";
import { titleOf } from "../text/titles.ts";
import type { Numbers, Recorded, Recording } from "../time/recorded.ts";

export interface NumberColumn {
  /** Name and unit as the file writes them; "" where it has none. */
  readonly header: string;
  readonly values: Samples;
  /** Seconds in one unit of the values where the format itself says that this is a time. */
  readonly timeUnit?: number;
}

const judged = 400; // values from which time and unit are told

/**
 * @param columns  equal in length.
 * @throws ProblemError "no-time", "too-few-rows", "no-numbers"
 */
export function numberTable(
  file: NumberFile,
  columns: readonly NumberColumn[],
  choices: ReadChoices,
  remarks: RemarkBook,
): Capture {
  const rows = columns[0]?.values.length ?? 0;
  if (rows < 2) throw tooFewRows(file.name, rows);
  return assemble(numberRecording(file, columns, choices, remarks)(columns), choices, remarks);
}

export interface NumberFile {
  readonly name: string;
  readonly format: string;
}

/**
 * What becomes of any rows of the columns.
 *
 * @param columns  the first rows; time and units are told from them alone.
 * @throws ProblemError "no-time"
 */
export function numberRecording(
  file: NumberFile,
  columns: readonly NumberColumn[],
  choices: ReadChoices,
  remarks: RemarkBook,
): (numbers: readonly Numbers[]) => Recording {
  const heads = columns.map(headOf);
  const time = timeIn(columns, heads, choices);
  if (time.form.kind === "none") throw noTime(file.name, 1, time.nearly);
  if (time.assumed) remarks.say(time.assumed);
  return (numbers) => {
    const stamps = stampsOf(numbers, time);
    const all = numbers.map(({ values, isFull = false }, i): Recorded => {
      const { name, header, fileUnit } = heads[i]!.title;
      return { id: `c${i + 1}`, name, header: header || name, fileUnit, values, isFull, time: stamps };
    });
    return {
      ...file,
      isRowLog: true,
      rowsAreSimultaneous: choices.rowsAreSimultaneous ?? false,
      hasZone: hasZone({ time }),
      columns: all.filter((_, i) => !isOfTime(time, i)),
    };
  };
}

function headOf({ header, values }: NumberColumn, i: number): HeadColumn {
  const title = titleOf(header);
  const cells = Array.from(values.subarray(0, judged), (value) => (Number.isNaN(value) ? "" : String(value)));
  return { title: { ...title, name: title.name || `Column ${i + 1}`, header }, kind: "number", mark: ".", cells };
}

function timeIn(columns: readonly NumberColumn[], heads: readonly HeadColumn[], choices: ReadChoices): TimePlan {
  const typed = choices.timeColumn === undefined ? columns.findIndex(({ timeUnit }) => timeUnit !== undefined) : -1;
  if (typed < 0) return timeOf(heads, "", choices);
  const unit = columns[typed]!.timeUnit!;
  const first = columns[typed]!.values[0]! * unit;
  return {
    column: typed,
    form: { kind: "number", unit, isEpoch: first > 8e8 && first < 5e9, zero: 0 },
    resolution: unit,
    sure: true,
  };
}

function isOfTime({ column, form }: TimePlan, i: number): boolean {
  return i === column || (form.kind === "fields" && form.fields.some((field) => field.column === i));
}

function stampsOf(columns: readonly Numbers[], { column, form, resolution }: TimePlan): Recorded["time"] {
  if (form.kind === "fields") {
    const { fields, isAbsolute } = form;
    const rowTime = (_: number, row: number) => fieldsIn(fields, (i) => columns[i]!.values[row]!);
    const seconds = Float64Array.from(columns[column!]!.values, rowTime);
    return { seconds, resolution, isAbsolute, wrap: wrapOf(fields) };
  }
  if (column !== null && form.kind === "clock") {
    const seconds = Float64Array.from(
      columns[column]!.values,
      (value) => clockIn(padded(String(value)))?.seconds ?? NaN,
    );
    return { seconds, resolution, isAbsolute: false, wrap: 86_400, isWallClock: true };
  }
  if (column === null || form.kind !== "number") return { rate: form.kind === "rate" ? form.rate : 1 };
  const parts = Math.round(1 / form.unit);
  const seconds = Float64Array.from(columns[column]!.values, (value) =>
    form.unit < 1 ? (value - form.zero) / parts : (value - form.zero) * form.unit,
  );
  return { seconds, resolution, isAbsolute: form.isEpoch, wrap: 0 };
}
