// Columns that do not bring a new sample with every row.

import { type Samples, type Series, timeAt } from "../../signal/series/series.ts";
import { missingCells, type RemarkBook } from "../model/remarks.ts";
import { hasValue, type Recorded } from "../time/recorded.ts";

/** Columns that have a value in some rows only, as when a log writes a row for each answer: a hole there is no missing sample. */
export function sparseColumns(columns: readonly Recorded[], remarks: RemarkBook): Set<Recorded> {
  const sparse = new Set(columns.filter(isRegularlyEmpty));
  for (const { name } of sparse) {
    remarks.withdraw(missingCells, name);
    remarks.tally("channels written in some rows only, and stamped by those rows", undefined, 1, name);
  }
  return sparse;
}

/** Each row holds the answer of one channel: its stamp is that channel's own. */
export function isOneAtATime(columns: readonly Recorded[]): boolean {
  const rows = columns[0]?.values.length ?? 0;
  if (columns.length < 2 || rows < 4 || columns.some(({ time }) => time !== columns[0]!.time)) return false;
  let filled = 0;
  for (const { values, isFull } of columns) {
    if (filled > 1.1 * rows) return false;
    if (isFull) filled += values.length;
    else for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]!)) filled++;
  }
  return filled <= 1.1 * rows && columns.every((column) => isRegularlyEmpty(column) || !hasValue(column.values));
}

/**
 * Whether it has a quarter of the rows or more empty, in at least four short runs: most holes, or most values, stand alone or in pairs.
 * With half of the rows empty one run is enough to begin with: so short a log has no room for more.
 */
function isRegularlyEmpty({ values, isFull }: Recorded): boolean {
  if (isFull) return false;
  let holes = 0;
  let runs = 0;
  const most = 0.75 * values.length;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!)) {
      if (i - holes >= most) return false; // less than a quarter is left to be empty
      continue;
    }
    holes++;
    if (i === 0 || !Number.isNaN(values[i - 1]!)) runs++;
  }
  return isSparse(values.length, holes, runs);
}

/** @param runs  holes that follow each other count as one. */
export function isSparse(rows: number, holes: number, runs: number): boolean {
  const filled = rows - holes;
  const isOften = holes * 2 >= rows || (runs >= 4 && holes * 4 >= rows);
  return filled > 2 && isOften && runs * 5 > 2 * Math.min(filled, holes);
}

/** Rows that hold a value. */
export function filledRows(samples: Samples): Int32Array {
  return Int32Array.from(samples.keys()).filter((i) => !Number.isNaN(samples[i]!));
}

/** Only the samples of some rows, each with its stamp. */
export function seriesAt({ time, samples }: Series, rows: Int32Array): Series {
  const doubt = time.doubt ? { doubt: time.doubt } : {};
  const stamps = Float64Array.from(rows, (row) => timeAt(time, row));
  return { time: { kind: "stamped", stamps, ...doubt }, samples: gathered(samples, rows) };
}

export function gathered(values: Samples, rows: Int32Array): Samples {
  const out = values instanceof Float32Array ? new Float32Array(rows.length) : new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) out[i] = values[rows[i]!]!;
  return out;
}
