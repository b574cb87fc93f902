// Channels as delimited text: RFC 4180, units in the header, guarded against formulas, and read back the same.

import type { Samples } from "../../signal/series/series.ts";
import { groupByTime, headerOf, type Part, partOf, pieceRows, type Writable, type WriteSpan } from "./groups.ts";

/**
 * The text in pieces, each read when it is wanted. Channels with one time base share a time column; others get their own
 * before them. Missing samples are empty cells.
 *
 * @param onShare  told how much is written, before each piece.
 */
export function* csvPieces(
  channels: readonly Writable[],
  span: WriteSpan | null,
  onShare: (share: number) => void = () => {},
): Generator<string> {
  const groups = groupByTime(channels, span);
  yield csvRow(groups.flatMap((group) => ["Time [s]", ...group.channels.map(headerOf)]));
  const rows = Math.max(0, ...groups.map(({ from, to }) => to - from));
  const many = pieceRows(channels.length + groups.length);
  for (let start = 0; start < rows; start += many) {
    onShare(start / rows);
    const parts = groups.map((group) => partOf(group, start, start + many));
    let piece = "";
    for (let r = 0; r < Math.min(many, rows - start); r++)
      piece += `${parts.map((part) => cellsOf(part, r)).join(",")}\r\n`;
    yield piece;
  }
}

/** One row of text cells: quoted where needed, and never a formula for a spreadsheet. */
export function csvRow(cells: readonly string[]): string {
  return `${cells.map(csvCell).join(",")}\r\n`;
}

/** What a spreadsheet takes for the start of a formula, in full width too, as East Asian keyboards write it (common practice). */
const formulaSign = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/;

/** A text cell. What a spreadsheet would take for a formula gets an apostrophe in front. */
export function csvCell(text: string): string {
  const guarded = formulaSign.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

function cellsOf({ rows, isEven, stamp, samples }: Part, row: number): string {
  if (row >= rows) return ",".repeat(samples.length);
  const time = stamp(row);
  const cell = String(isEven ? Number(time.toPrecision(13)) : time);
  return `${cell},${samples.map((all) => numberCell(all, row)).join(",")}`;
}

/** Fewest digits that give the same number again; single precision needs at most nine. */
function numberCell(samples: Samples, i: number): string {
  const value = samples[i]!;
  if (Number.isNaN(value)) return "";
  if (Object.is(value, -0)) return "-0";
  if (samples instanceof Float64Array) return String(value);
  for (let digits = 6; digits < 9; digits++) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return String(short);
  }
  return String(Number(value.toPrecision(9)));
}
