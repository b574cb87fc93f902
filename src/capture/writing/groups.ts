// What is written side by side: channels of one time base, a part of them in memory at once.

import type { Seconds } from "../../signal/numbers/units.ts";
import { samplesOver } from "../../signal/series/reel.ts";
import { type AnySeries, type AnyTime, countOf, indexAt, type Samples, timeAt } from "../../signal/series/series.ts";
import type { Channel } from "../model/capture.ts";

/** Half-open span of time. */
export interface WriteSpan {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** A channel in memory, or read part by part. */
export interface Writable extends Pick<Channel, "name" | "unit"> {
  readonly series: AnySeries;
}

/** Channels with one time base, and which of its samples. */
export interface TimeGroup {
  readonly time: AnyTime;
  readonly channels: readonly Writable[];
  readonly from: number;
  readonly to: number;
}

/** Some rows of a group, in memory. */
export interface Part {
  readonly rows: number;
  readonly isEven: boolean;
  /** Of a row of the part, s. */
  stamp(row: number): Seconds;
  /** One for each channel, `rows` long. */
  readonly samples: readonly Samples[];
}

/** Cells that are made at once: some ten milliseconds of work. */
const cellsAPiece = 50_000;

/** Rows that are made at once. */
export const pieceRows = (columns: number): number => Math.max(1, Math.ceil(cellsAPiece / Math.max(1, columns)));

/** Name and unit as the readers take them apart again. */
export function headerOf({ name, unit }: Writable): string {
  return unit === "" ? name : `${name} [${unit}]`;
}

/** Channels by equal time bases, cut to the span. */
export function groupByTime(channels: readonly Writable[], span: WriteSpan | null): TimeGroup[] {
  const groups: { time: AnyTime; channels: Writable[] }[] = [];
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

/** Rows [first, end) of the group, as far as there are any. */
export function partOf({ time, channels, from, to }: TimeGroup, first: number, end: number): Part {
  const [low, high] = [Math.min(to, from + first), Math.min(to, from + end)];
  const stamps = time.kind === "paged" ? time.read(low, high) : null;
  return {
    rows: high - low,
    isEven: time.kind === "even",
    stamp: (row) => (stamps ? stamps[row]! : timeAt(time, low + row)),
    samples: channels.map(({ series }) => samplesOver(series.samples, low, high)),
  };
}

/** Stamps that are read part by part are the same where they are the same object. */
function isSameTime(a: AnyTime, b: AnyTime): boolean {
  if (a === b) return true;
  if (a.kind === "even") return b.kind === "even" && a.start === b.start && a.step === b.step && a.count === b.count;
  if (a.kind === "paged" || b.kind !== "stamped" || a.stamps.length !== b.stamps.length) return false;
  return a.stamps === b.stamps || a.stamps.every((stamp, i) => stamp === b.stamps[i]);
}
