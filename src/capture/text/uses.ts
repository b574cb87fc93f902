// What each column of a table is for: time, channel, name of a channel, status, or nothing.

import { conversionOf } from "../meaning/quantities.ts";
import { roleNamedBy, wordsOf } from "../meaning/roles.ts";
import { besideRows } from "./beside.ts";
import type { HeadColumn } from "./head-columns.ts";
import { kindOf } from "./kinds.ts";
import { isMissing } from "./numbers.ts";
import type { ColumnUse, Layout, TimePlan } from "./plan.ts";
import { statusIn, switchIn } from "./status.ts";
import { countsRows, goesOnAsTime, isCounterName, looksLikeTime } from "./time-column.ts";

/** How a table is laid out, and what each of its columns is for. */
export interface Uses {
  readonly layout: Layout;
  readonly uses: readonly ColumnUse[];
  /** For each column its own time column, where channels bring their own. */
  readonly own: readonly number[] | null;
}

export function usesOf(columns: readonly HeadColumn[], time: TimePlan): Uses {
  if (longForm(columns)) {
    const channel = channelColumn(columns);
    const uses = columns.map((column, i) => {
      if (isOfChannel(column, columns[channel]!)) return "ignored";
      const use = useOf(column, i, time, { channel, own: null });
      return use === "value" && partsTwins(column, columns, columns[channel]!) ? "key" : use;
    });
    if (uses.includes("value")) return { layout: "long", uses, own: null };
  }
  const own = ownTimes(columns, time);
  const beside = besideRows(columns);
  const uses = columns.map((column, i) => {
    const use = useOf(column, i, time, { channel: -1, own });
    return beside[i] && use !== "time" && use !== "date" ? "ignored" : use;
  });
  return { layout: own ? "time-per-channel" : "rows", uses, own };
}

function useOf(
  column: HeadColumn,
  i: number,
  time: TimePlan,
  { channel, own }: { readonly channel: number; readonly own: readonly number[] | null },
): ColumnUse {
  if (i === time.column || own?.includes(i)) return "time";
  if (i === time.parts?.column || (time.form.kind === "instant" && i === time.form.dateColumn)) return "date";
  if (time.form.kind === "fields" && time.form.fields.some((field) => field.column === i)) return "date";
  if (channel >= 0 && i !== channel && isKey(column)) return "key";
  if (channel >= 0 && column.kind === "text") return i === channel ? "channel" : isUnits(column) ? "unit" : "text";
  if (channel >= 0 && column.kind === "missing") return "ignored";
  if (isSwitch(column)) return "switch";
  if (column.kind === "text") return isStatus(column) ? "status" : "text";
  if (column.kind === "date" || column.kind === "clock" || column.kind === "instant") return "text";
  if ((column.kind === "number" && countsRows(column)) || isSpareTime(column, i, time) || isSettings(column))
    return "ignored";
  return "value";
}

/** Another clock beside the chosen one. */
export function isSpareTime(column: HeadColumn, i: number, time: TimePlan): boolean {
  return (
    i !== time.column &&
    time.column !== null &&
    looksLikeTime(column) &&
    /\b(time\w*|zeit\w*|epoch|unix|timestamp)\b/.test(wordsOf(column.title.name))
  );
}

/** Numbers beside the first rows only, without a name: settings. */
function isSettings({ title, kind, cells }: HeadColumn): boolean {
  return (
    kind === "number" && title.header === "" && cells.filter((cell) => cell.trim() !== "").length < 0.5 * cells.length
  );
}

/** Two words of one kind throughout, on and off. */
function isSwitch({ kind, cells }: HeadColumn): boolean {
  const filled = cells.filter((cell) => cell.trim() !== "");
  return (
    (kind === "text" || kind === "missing") && filled.length > 0 && filled.every((cell) => switchIn(cell) !== null)
  );
}

function isStatus({ title, cells }: HeadColumn): boolean {
  const filled = cells.filter((cell) => !isMissing(cell));
  const isNamed = roleNamedBy(title.name, title.fileUnit).role === "fuel-status";
  return isNamed && filled.some((cell) => statusIn(cell) !== null);
}

const saysChannel =
  /\b(channel|signal|name|pid|parameter|sensor|variable|series|kanal|messgrosse|grosse|canal|voie|senal|quantity|item|key|tag|label|measurement)\b/;

/** Column of channel names of the long form (one row per sample), or -1: that with most names we know, else the first that says so. */
function channelColumn(columns: readonly HeadColumn[]): number {
  const known = columns.map(({ kind, title, cells }) => {
    if (kind !== "text") return -1;
    const names = new Set(cells.filter((cell) => cell.trim() !== ""));
    if (names.size < 1 || names.size > Math.max(2, cells.length / 2)) return -1;
    const count = [...names].filter((name) => isRoleName(name)).length;
    return count > 0 || saysChannel.test(wordsOf(title.name)) ? count : -1;
  });
  return known.indexOf(Math.max(0, ...known));
}

const saysKey =
  /\b(site|place|device|logger|bank|node|ecu|source|module|vehicle|car|run|session|trip|lap|cylinder|addr\w*|port|group|id)\b/;
const saysNoKey = /\b(status|state|quality|flag|valid\w*|ok|comment|remark|note|message|error|type)\b/;
/** More different ones among the first rows are no key. */
const mostKeys = 12;

/** What tells, besides its name, which channel a value of the long form belongs to: a site, a device, a bank. */
function isKey(column: HeadColumn): boolean {
  const { title, kind, cells } = column;
  const words = wordsOf(title.name);
  const values = new Set(cells.map((cell) => cell.trim()));
  if (values.has("") || values.size > mostKeys || saysNoKey.test(words)) return false;
  if (kind === "text") return saysKey.test(words) || !(isUnits(column) || isStatus(column) || isSwitch(column));
  // Addresses of control units are hexadecimal, and "7E8" a number as well.
  return kind === "number" && saysKey.test(words) && [...values].every((value) => /^[\da-f]{1,8}$/i.test(value));
}

/** Stamps that are looked at to find a key without a name that says so. */
const leastTwins = 5;

/**
 * Whole numbers by which rows of one stamp and one channel differ, and the same ones at each stamp: which of several things that were
 * recorded alike, whatever the column is called.
 */
function partsTwins(column: HeadColumn, columns: readonly HeadColumn[], channel: HeadColumn): boolean {
  const time = columns.find((one) => one !== column && looksLikeTime(one));
  if (!time || column.kind !== "number" || !column.cells.every((cell) => /^\s*\d{1,6}\s*$/.test(cell))) return false;
  const groups = new Map<string, string[]>();
  column.cells.forEach((cell, row) => {
    if (time.cells[row] === time.cells.at(-1)) return; // may be cut short
    const id = `${time.cells[row]}\u001f${channel.cells[row]}`;
    groups.set(id, [...(groups.get(id) ?? []), cell.trim()]);
  });
  const sets = [...groups.values()].map((group) => group.sort().join());
  const [first = ""] = sets;
  const members = first.split(",");
  const isEach = members.length > 1 && members.length <= mostKeys && new Set(members).size === members.length;
  return isEach && sets.length >= leastTwins && sets.every((one) => one === first);
}

function isRoleName(name: string): boolean {
  const { role } = roleNamedBy(name, "");
  return role !== "other" && role !== "fuel-status" && statusIn(name) === null;
}

const isUnits = ({ cells }: HeadColumn): boolean => {
  const filled = cells.filter((cell) => cell.trim() !== "");
  return filled.length > 0 && filled.filter((cell) => conversionOf(cell).known).length * 2 > filled.length;
};

/** A number that belongs to the channel and not to the instant, as the code it is asked for by: one for each of several names. */
function isOfChannel({ kind, cells }: HeadColumn, channel: HeadColumn): boolean {
  const codes = new Map<string, Set<string>>();
  channel.cells.forEach((name, row) => {
    codes.set(name, (codes.get(name) ?? new Set()).add(cells[row] ?? ""));
  });
  const all = new Set([...codes.values()].flatMap((one) => [...one]));
  return (
    kind === "number" &&
    codes.size > 1 &&
    all.size === codes.size &&
    [...codes.values()].every(({ size }) => size === 1)
  );
}

/** One channel name, one value and a time a row. */
function longForm(columns: readonly HeadColumn[]): boolean {
  const channel = channelColumn(columns);
  if (channel < 0) return false;
  const values = columns.filter(
    (column) =>
      column.kind === "number" &&
      !looksLikeTime(column) &&
      !isCounterName(column.title.name) &&
      !isKey(column) &&
      !partsTwins(column, columns, columns[channel]!) &&
      !isOfChannel(column, columns[channel]!),
  );
  return values.length === 1;
}

/** For each column the time column at its left, where several channels bring their own; null for one common time. */
function ownTimes(columns: readonly HeadColumn[], time: TimePlan): number[] | null {
  if (time.form.kind === "none" || time.form.kind === "rate" || time.form.kind === "fields") return null;
  const times = columns.map((column, i) => (goesOnAsTime(column) ? i : -1)).filter((i) => i >= 0);
  const runs = times.filter((i) => !times.includes(i + 1) && i + 1 < columns.length);
  if (runs.length < 2 || times[0] !== 0 || times.length !== runs.length) return null;
  const kinds = new Set(runs.map((i) => columns[i]!.kind));
  const starts = runs.map((i) => Number(columns[i]!.cells.find((cell) => !isMissing(cell))?.replace(",", ".") ?? 0));
  if (kinds.size > 1 || (columns[runs[0]!]!.kind === "number" && spreadOf(starts) > 3600)) return null;
  if (runs.some((i) => columns[i]!.cells.some((cell) => !isMissing(cell) && kindOf(cell, columns[i]!.mark) === "text")))
    return null;
  return columns.map((_, i) => Math.max(...times.filter((at) => at <= i)));
}

const spreadOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
