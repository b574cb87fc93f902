// Channels as delimited text: RFC 4180, units in the header, guarded against formulas, and read back the same.

import type { Seconds } from "../../signal/numbers/units.ts";
import { countOf, indexAt, type Samples, type TimeBase, timeAt } from "../../signal/series/series.ts";
import type { Channel } from "../model/capture.ts";

/** Half-open span of time. */
export interface WriteSpan {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** Channels with one time base, and which of its samples. */
export interface TimeGroup {
  readonly time: TimeBase;
  readonly channels: readonly Channel[];
  readonly from: number;
  readonly to: number;
}

const rowsAPiece = 10_000;

/**
 * The text in pieces of some thousand rows, for a Blob or a stream. Channels with one time base share a time column;
 * others get their own before them. Missing samples are empty cells.
 */
export function* csvPieces(channels: readonly Channel[], span: WriteSpan | null): Generator<string> {
  const groups = groupByTime(channels, span);
  yield csvRow(groups.flatMap((group) => ["Time [s]", ...group.channels.map(headerOf)]));
  const rows = Math.max(0, ...groups.map(({ from, to }) => to - from));
  for (let start = 0; start < rows; start += rowsAPiece) {
    let piece = "";
    for (let r = start; r < Math.min(rows, start + rowsAPiece); r++)
      piece += `${groups.map((group) => cellsOf(group, r)).join(",")}\r\n`;
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

/** Name and unit as the readers take them apart again. */
export function headerOf({ name, unit }: Channel): string {
  return unit === "" ? name : `${name} [${unit}]`;
}

/** Channels by equal time bases, cut to the span. */
export function groupByTime(channels: readonly Channel[], span: WriteSpan | null): TimeGroup[] {
  const groups: { time: TimeBase; channels: Channel[] }[] = [];
  for (const channel of channels) {
    const group = groups.find(({ time }) => isSameTime(time, channel.series.time));
    if (group) group.channels.push(channel);
    else groups.push({ time: channel.series.time, channels: [channel] });
  }
  return groups.map((group) => ({
    ...group,
    from: span ? indexAt(group.time, span.from) : 0,
    to: span ? indexAt(group.time, span.to) : countOf(group.time),
  }));
}

function isSameTime(a: TimeBase, b: TimeBase): boolean {
  if (a.kind === "even") return b.kind === "even" && a.start === b.start && a.step === b.step && a.count === b.count;
  if (b.kind === "even" || a.stamps.length !== b.stamps.length) return false;
  return a.stamps === b.stamps || a.stamps.every((stamp, i) => stamp === b.stamps[i]);
}

function cellsOf({ time, channels, from, to }: TimeGroup, row: number): string {
  const i = from + row;
  if (i >= to) return ",".repeat(channels.length);
  const stamp = time.kind === "even" ? String(Number(timeAt(time, i).toPrecision(13))) : String(timeAt(time, i));
  return `${stamp},${channels.map(({ series }) => numberCell(series.samples, i)).join(",")}`;
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
