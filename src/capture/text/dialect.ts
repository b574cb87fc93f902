// How a text is delimited and which mark its decimals have, judged by how well the rows near the end of its head read.

import type { ReadChoices } from "../model/reader.ts";
import { kindOf, valueShare } from "./kinds.ts";
import type { DecimalMark } from "./numbers.ts";
import { type Delimiter, isBlankRow, splitRows } from "./split.ts";

export interface Dialect {
  readonly delimiter: Delimiter;
  readonly decimalMark: DecimalMark;
  /** Comma seems to be both delimiter and decimal mark: the one case that must be asked. */
  readonly isAmbiguous: boolean;
  /** Each value stands in two cells, "0,45" cut by its decimal comma; only where the user said that comma is both. */
  readonly joinPairs: boolean;
}

interface Scored {
  readonly delimiter: Delimiter;
  readonly decimalMark: DecimalMark;
  readonly share: number;
  readonly values: number;
}

const judged = 300; // rows are enough to tell a dialect
const judgedForTabs = 40;

export function dialectOf(text: string, choices: ReadChoices): Dialect {
  const hint = /^sep=(.)\s*$/im.exec(text.slice(0, 16))?.[1];
  const tail = lastLines(text, judged);
  const delimiters = delimitersToTry(choices.delimiter ?? hint, tail);
  const marks: readonly DecimalMark[] = choices.decimalMark ? [choices.decimalMark] : [".", ","];
  const scored = delimiters.flatMap((delimiter) => {
    const rows = splitRows(tail, delimiter).rows.filter((row) => !isBlankRow(row));
    return marks.map((mark) => score(rows, delimiter, mark));
  });
  const best = scored.reduce((a, b) => (isBetter(b, a) ? b : a));
  const bothAreCommas = choices.delimiter === "," && choices.decimalMark === ",";
  const looksBoth = best.delimiter === "," && commaIsBoth(text, tail);
  return {
    delimiter: best.delimiter,
    decimalMark: bothAreCommas && looksBoth ? "." : best.decimalMark,
    isAmbiguous: looksBoth && !(choices.delimiter && choices.decimalMark),
    joinPairs: looksBoth && bothAreCommas,
  };
}

/** One that stands nowhere leaves the rows whole, as none does; a tab counts as a blank too. */
function delimitersToTry(said: string | undefined, text: string): readonly Delimiter[] {
  if (said !== undefined) return [said];
  if (isRuledByColons(text)) return [":"];
  const blanks = isRuledByTabs(text) ? [] : [" "];
  const standing = ["\t", ";", ",", "|", ...blanks, "~", "^"].filter(
    (one) => text.includes(one) || (one === " " && text.includes("\t")),
  );
  return ["", ...standing];
}

/**
 * Lines hold nothing but numbers and colons, and what stands between those are numbers with decimals ahead of the last: no clock is
 * written so.
 */
function isRuledByColons(text: string): boolean {
  const lines = text.split("\n").filter((line) => line.trim() !== "");
  return lines.length > 2 && lines.filter(isNumbersBetweenColons).length >= 0.8 * lines.length;
}

/** What is longer is no number. Characters. */
const longestNumber = 64;

function isNumbersBetweenColons(line: string): boolean {
  const cells = line.trimEnd().split(":");
  const isNumber = (cell: string) => cell.length <= longestNumber && /^[+-]?\d*(?:[.,]\d*)?$/.test(cell);
  return cells.length > 1 && cells.every(isNumber) && cells.slice(0, -1).some((cell) => /[.,]/.test(cell));
}

/**
 * The lines near the end have as many tabs each, and nothing but values or nothing between them: there a blank stands inside a cell,
 * as between date and clock, and taken as a tab it would move what follows an empty cell into the column before.
 */
function isRuledByTabs(text: string): boolean {
  const { rows } = splitRows(lastLines(text, judgedForTabs), "\t");
  const ruled = rows.filter((row) => !isBlankRow(row));
  const width = ruled[ruled.length >> 1]?.length ?? 0;
  const isRuled = (row: readonly string[]) =>
    row.length === width && row.every((cell) => kindOf(cell, ".") !== "text" || kindOf(cell, ",") !== "text");
  return width > 1 && ruled.length > 2 && ruled.filter(isRuled).length >= 0.8 * ruled.length;
}

function score(rows: readonly string[][], delimiter: Delimiter, decimalMark: DecimalMark): Scored {
  let [share, values, counted] = [0, 0, 0];
  for (const row of rows) {
    const read = valueShare(row, decimalMark);
    if (read.share * 3 < 1) continue; // a header, a preamble
    share += read.share;
    values += read.values;
    counted++;
  }
  const all = Math.max(1, rows.length);
  return { delimiter, decimalMark, share: counted === 0 ? 0 : share / all, values: values / all };
}

/** Readable rows first, then more values a row; a tie keeps the earlier: point before comma. */
function isBetter(a: Scored, b: Scored): boolean {
  if (Math.abs(a.share - b.share) > 0.02) return a.share * Math.sqrt(a.values) > b.share * Math.sqrt(b.values);
  return a.values > b.values + 1e-9 || (a.values > b.values - 1e-9 && a.share > b.share + 1e-9);
}

/** Comma-delimited whole numbers, no point anywhere, and more of them than the header names, or fractions that begin with zeros. */
function commaIsBoth(text: string, tail: string): boolean {
  const rows = splitRows(tail, ",").rows.filter(
    (row) => row.length > 1 && row.every((cell) => /^\s*[+-]?\d*\s*$/.test(cell)),
  );
  const width = rows[rows.length - 1]?.length ?? 0;
  if (
    rows.length < 2 ||
    width % 2 !== 0 ||
    !rows.every((row) => row.length === width && row.every((cell) => cell.trim() !== ""))
  )
    return false;
  if (rows.some((row) => row.some((cell, i) => i % 2 === 1 && /^[+-]/.test(cell.trim())))) return false;
  const header = splitRows(text, ",").rows.findLast(
    (row) => row.length > 0 && row.every((cell) => /\p{L}/u.test(cell)),
  );
  if (header) return header.length * 2 === width;
  return rows.some((row) => row.some((cell, i) => i % 2 === 1 && /^0\d/.test(cell.trim())));
}

/** The last lines: what a long preamble leaves of the head. Bounded, as a line may be of any length. */
function lastLines(text: string, count: number): string {
  const tail = text.slice(-256 * 1024);
  const lines = tail.split("\n");
  const whole = text.length > tail.length ? lines.slice(1).filter((line) => line !== "") : lines;
  return (whole.length > 0 ? whole : lines).slice(-count).join("\n");
}
