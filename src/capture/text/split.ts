// Text into rows of cells. Papa Parse is the judge of quoting.

import Papa from "papaparse";
import { isMissing } from "./numbers.ts";

/** "" is one column, " " runs of blanks and tabs. */
export type Delimiter = "," | ";" | "\t" | "|" | " " | "" | (string & {});

export interface Split {
  readonly rows: string[][];
  /** Characters taken in; less than all when the last row was left for more text to come. */
  readonly taken: number;
}

// Papa Parse falls back to commas when it gets no delimiter: this one does not occur in text.
const noDelimiter = "\u001f";

/**
 * Cells of the rows in `text`, whose line ends are "\n".
 *
 * @param keepLast  false leaves a last row that may be cut off.
 * @param quotes    false takes quote marks as plain characters.
 */
export function splitRows(text: string, delimiter: Delimiter, keepLast = true, quotes = true): Split {
  const blanks = delimiter === " ";
  const input = blanks && text.includes("\t") ? text.replace(/\t/g, " ") : text;
  const config = { delimiter: delimiter === "" ? noDelimiter : delimiter, newline: "\n", quoteChar: '"' } as const;
  const parser = new Papa.Parser(quotes ? config : { ...config, fastMode: true });
  const { data, meta } = parser.parse(input, 0, !keepLast) as { data: string[][]; meta: { cursor: number } };
  const cells = input.includes("'") ? data.map((row) => row.map(unquoted)) : data;
  const rows = blanks ? cells.map((row) => row.filter((cell) => cell !== "")) : cells;
  return { rows, taken: keepLast ? text.length : meta.cursor };
}

/** Some programs put names and clocks between apostrophes. */
function unquoted(cell: string): string {
  return /^\s*'.*'\s*$/s.test(cell) ? cell.trim().slice(1, -1) : cell;
}

/** A row that holds nothing. */
export function isBlankRow(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === "");
}

/** A comment line inside or before the numbers. */
export function isComment(row: readonly string[]): boolean {
  return /^\s*(#|%|\/\/|!)/.test(row[0] ?? "") && !isMissing(row[0]!);
}
