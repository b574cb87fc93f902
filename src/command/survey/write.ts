// Rows as a table: CSV (RFC 4180) or Parquet.

import { rename, writeFile } from "node:fs/promises";
import { csvCell, csvRow } from "../../capture/writing/write-csv.ts";
import { ProblemError } from "../../problem.ts";
import { type Cell, columns, type Row } from "./rows.ts";

/** A header, and one line for each row. What is not known is an empty cell. */
export function csvOf(rows: readonly Row[]): string {
  const lines = rows.map((row) => `${columns.map(({ name }) => cellText(row[name])).join(",")}\r\n`);
  return csvRow(columns.map(({ name }) => name)) + lines.join("");
}

/** A number stays one, whatever its sign; text is guarded against being taken for a formula. */
const cellText = (cell: Cell | undefined): string => (typeof cell === "number" ? String(cell) : csvCell(cell ?? ""));

/** One row group; numbers as doubles, text as UTF-8, what is not known as null. */
async function parquetOf(rows: readonly Row[]): Promise<Uint8Array> {
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columnData = columns.map(({ name, isNumber }) => ({
    name,
    data: rows.map((row) => row[name] ?? null),
    type: isNumber ? ("DOUBLE" as const) : ("STRING" as const),
    nullable: true,
  }));
  return new Uint8Array(parquetWriteBuffer({ columnData }));
}

/**
 * By the ending of the name. Written aside and put in place whole: a table that was there before stays until then.
 *
 * @throws ProblemError "unreadable" where it cannot be written.
 */
export async function writeTable(out: string, rows: readonly Row[]): Promise<void> {
  const content = /\.parquet$/i.test(out) ? await parquetOf(rows) : csvOf(rows);
  try {
    await writeFile(`${out}.new`, content);
    await rename(`${out}.new`, out);
  } catch (error) {
    throw notWritten(out, error as NodeJS.ErrnoException);
  }
}

export function notWritten(out: string, { code }: NodeJS.ErrnoException): ProblemError {
  return new ProblemError({
    code: "unreadable",
    what: `The table could not be written (${code}).`,
    remedy:
      "Name a place with room that you may write to. What was measured is kept: the next call goes on from there.",
    where: out,
  });
}
