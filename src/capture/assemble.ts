// Recorded columns made a capture: times from its first sample on, units of the reading type, roles.

import { ProblemError } from "../problem.ts";
import { countOf, type Samples, type Series, type StampDoubt, type TimeBase, timeAt } from "../signal/series.ts";
import type { Hertz, Seconds } from "../signal/units.ts";
import type { Bank, Capture, Channel, Role } from "./capture.ts";
import { conversionOf, convertSamples, unitOfRole } from "./quantities.ts";
import type { ReadChoices } from "./reader.ts";
import type { RemarkBook } from "./remarks.ts";
import { type Part, partOf } from "./roles.ts";
import { type OrderedStamps, orderStamps, timeBaseOf, usualStep, type WrittenStamps } from "./stamps.ts";

/** One column as the file has it. Columns that share a `time` object share their times. */
export interface Recorded {
  /** Named by its place in the file, so that it stays the same however the file is read. */
  readonly id: string;
  readonly name: string;
  /** The name as the file writes it, unit and all: choices may use either. */
  readonly header: string;
  readonly fileUnit: string;
  readonly values: Samples;
  readonly time: WrittenStamps | { readonly rate: Hertz };
  readonly words?: Readonly<Record<number, string>>;
}

export interface Recording {
  readonly name: string;
  readonly format: string;
  /** One row per instant, without a stamp per channel. */
  readonly isRowLog: boolean;
  readonly rowsAreSimultaneous: boolean;
  /** Stamps carry their zone; else they are the recorder's own clock. */
  readonly hasZone: boolean;
  readonly columns: readonly Recorded[];
}

/**
 * Makes the capture.
 *
 * @throws ProblemError "no-numbers" without a value anywhere, "too-few-rows" with fewer than two.
 */
export function assemble(recording: Recording, choices: ReadChoices, remarks: RemarkBook): Capture {
  const columns = recording.columns.filter(({ values, header }) => header !== "" || hasValue(values));
  if (!columns.some(({ values }) => hasValue(values))) throw noNumbers(recording.name);
  const isRowLog = recording.isRowLog && !isOneAtATime(columns);
  const clocks = clocksOf(columns, { ...recording, isRowLog }, remarks);
  const origin = originOf(clocks, remarks);
  const sparse = sparseColumns(columns, recording, remarks);
  const parts = partsOf(columns, choices, remarks);
  const channels = columns.map((column, i) => {
    const clock = clocks.get(column.time)!;
    return channelOf(column, parts[i]!, {
      clock,
      origin: origin(clock),
      choices,
      remarks,
      isSparse: sparse.has(column),
    });
  });
  refuseStuckTime(columns, channels, recording.name);
  if (!channels.some(({ series }) => series.samples.length > 1))
    throw tooFewRows(recording.name, channels[0]?.series.samples.length ?? 0);
  remarkOnUse(channels, choices, columns, remarks);
  return {
    name: recording.name,
    format: recording.format,
    startedAt: startOf(clocks, recording),
    channels,
    remarks: remarks.list(),
  };
}

export function noNumbers(name: string): ProblemError {
  return new ProblemError({
    code: "no-numbers",
    what: `${name} holds no column of numbers.`,
    remedy:
      "Choose the file your recorder wrote, or export the recording as delimited text with one column per channel.",
    where: name,
  });
}

export function tooFewRows(name: string, rows: number): ProblemError {
  return new ProblemError({
    code: "too-few-rows",
    what: `${name} holds ${rows === 1 ? "only one row" : `${rows} rows`} of numbers; a trace needs at least two.`,
    remedy: "Record for longer, or check that the whole file was copied.",
    where: name,
  });
}

/** @throws ProblemError "no-time" where all rows bear the same time. */
function refuseStuckTime(columns: readonly Recorded[], channels: readonly Channel[], name: string): void {
  const rows = Math.max(0, ...columns.map(({ values }) => values.length));
  if (
    rows < 2 ||
    channels.some(({ series }) => series.samples.length > 1) ||
    columns.some(({ time }) => "rate" in time)
  )
    return;
  throw new ProblemError({
    code: "no-time",
    what: `The time in ${name} does not move: all ${rows} rows bear the same time, or none.`,
    remedy:
      "Name the column that holds the time, or state the sampling rate in samples per second (--rate HZ on the command line).",
    where: name,
  });
}

interface Clock {
  readonly ordered: OrderedStamps | null;
  readonly isAbsolute: boolean;
  /** From its own first stamp on. */
  readonly base: TimeBase;
  /** The first stamp as the file has it. */
  readonly start: Seconds;
  readonly isPolled: boolean;
  /** Finest step of the stamps; 0 where they lie on no decimal grid. */
  readonly grid: Seconds;
}

function clocksOf(
  columns: readonly Recorded[],
  recording: Recording,
  remarks: RemarkBook,
): Map<Recorded["time"], Clock> {
  const clocks = new Map<Recorded["time"], Clock>();
  for (const { time, values } of columns) {
    if (!clocks.has(time)) clocks.set(time, clockOf(time, values.length, recording, remarks));
  }
  return clocks;
}

const polledBelow = 20; // rows a second: scopes are faster, requests over the diagnostic bus are slower (common practice)

function clockOf(time: Recorded["time"], count: number, recording: Recording, remarks: RemarkBook): Clock {
  if ("rate" in time) {
    const isPolled = recording.isRowLog && time.rate < polledBelow;
    const base: TimeBase = { kind: "even", start: 0, step: 1 / time.rate, count };
    return {
      ordered: null,
      isAbsolute: false,
      base: withDoubt(base, isPolled, recording, null),
      isPolled,
      grid: 0,
      start: 0,
    };
  }
  const ordered = orderStamps(time);
  remarks.add(ordered.remarks);
  const grid = ordered.doubt ? 0 : time.resolution;
  const start = ordered.seconds[0] ?? 0;
  const base = timeBaseOf(fromStart(ordered.seconds, start, grid), ordered.doubt ? 1e-9 : time.resolution);
  const isPolled = recording.isRowLog && usualStep(base) > 1 / polledBelow;
  const doubted = withDoubt(base, isPolled, recording, ordered.doubt);
  return { ordered, isAbsolute: time.isAbsolute, base: doubted, start, isPolled, grid };
}

function withDoubt(base: TimeBase, isPolled: boolean, recording: Recording, stamps: StampDoubt | null): TimeBase {
  const row = isPolled && !recording.rowsAreSimultaneous ? usualStep(base) : 0;
  const doubt = { early: row + (stamps?.early ?? 0), late: stamps?.late ?? 0 };
  return doubt.early + doubt.late > 0 ? { ...base, doubt } : base;
}

/** Where a clock's zero lies: the earliest stamp of all; clocks of different kinds each begin at their own. */
function originOf(clocks: ReadonlyMap<unknown, Clock>, remarks: RemarkBook): (clock: Clock) => Seconds {
  const all = [...clocks.values()].filter(({ base }) => countOf(base) > 0);
  const isMixed = new Set(all.map(({ isAbsolute }) => isAbsolute)).size > 1;
  if (isMixed) remarks.say("some channels have a date and some have not; each begins at 0");
  const first = Math.min(...all.map(({ start }) => start));
  return (clock) => (isMixed ? clock.start : first);
}

/** Times from the first on, put back on the grid of their decimals: large epochs leave rounding errors behind. */
function fromStart(seconds: Float64Array, start: Seconds, grid: Seconds): Float64Array {
  return start === 0 ? seconds : seconds.map((second) => onGrid(second - start, grid));
}

function shifted({ base, start, grid }: Clock, origin: Seconds): TimeBase {
  const shift = onGrid(start - origin, grid);
  if (shift === 0 || Number.isNaN(shift)) return base;
  if (base.kind === "even") return { ...base, start: base.start + shift };
  return { ...base, stamps: base.stamps.map((stamp) => onGrid(stamp + shift, grid)) };
}

function onGrid(time: Seconds, grid: Seconds): Seconds {
  const parts = Math.round(1 / grid);
  return grid >= 1e-9 && grid < 1 && Math.abs(parts * grid - 1) < 1e-9 ? Math.round(time * parts) / parts : time;
}

function startOf(clocks: ReadonlyMap<unknown, Clock>, { hasZone }: Recording): string | null {
  const starts = [...clocks.values()].filter(({ isAbsolute }) => isAbsolute).map(({ start }) => start);
  const first = Math.min(...starts);
  if (!Number.isFinite(first) || Math.abs(first) > 8e12) return null;
  const text = new Date(first * 1000).toISOString();
  return hasZone ? text : text.slice(0, -1);
}

interface Chosen extends Part {
  readonly bank: Bank;
  readonly isSaid: boolean;
}

/** Roles of all columns: what the user said, else what the name says; the first of a kind has it, the others are "other". */
function partsOf(columns: readonly Recorded[], choices: ReadChoices, remarks: RemarkBook): Chosen[] {
  const taken = new Set<string>();
  const chosen: (Chosen | null)[] = columns.map((column) => {
    const role = lookUp(choices.roles, column);
    if (role === undefined) return null;
    const bank = partOf(column.name, "").bank ?? choices.bank ?? 1;
    taken.add(`${role} ${bank}`);
    return { role, bank, isSaid: true };
  });
  return columns.map((column, i) => chosen[i] ?? guessed(column, choices, taken, remarks));
}

function guessed(column: Recorded, choices: ReadChoices, taken: Set<string>, remarks: RemarkBook): Chosen {
  const said = partOf(column.name, lookUp(choices.units, column) ?? column.fileUnit);
  const bank = said.bank ?? choices.bank ?? 1;
  const role = hasValue(column.values) ? said.role : "other";
  if (role === "other") return { role, bank, isSaid: false };
  if (taken.has(`${role} ${bank}`)) {
    remarks.say(`${column.name} could be ${role} as well; the first such channel was taken`);
    return { role: "other", bank, isSaid: false };
  }
  taken.add(`${role} ${bank}`);
  return { role, bank, isSaid: false };
}

/** What was said of a column under its name or its header, letter case aside. */
function lookUp<T>(
  said: Readonly<Record<string, T>> | undefined,
  column: { readonly name: string; readonly header: string },
): T | undefined {
  const names = [column.name, column.header].map(plain);
  return said && Object.entries(said).find(([name]) => names.includes(plain(name)))?.[1];
}

const plain = (name: string): string => name.replace(/\s+/g, " ").trim().toLowerCase();

interface Making {
  readonly clock: Clock;
  readonly isSparse: boolean;
  readonly origin: Seconds;
  readonly choices: ReadChoices;
  readonly remarks: RemarkBook;
}

function channelOf(
  column: Recorded,
  { role, bank }: Chosen,
  { clock, origin, choices, remarks, isSparse }: Making,
): Channel {
  const values = picked(column.values, clock.ordered?.rows ?? null, choices.missing);
  const said = lookUp(choices.units, column);
  const assumed = said ?? (column.fileUnit === "" ? assumedUnit(role, values) : undefined);
  const written = conversionOf(assumed ?? column.fileUnit);
  if (said === undefined && assumed && assumed !== "1") remarks.say(`${column.name} has no unit; read as ${assumed}`);
  const isPlain = written.times === written.over && written.zero === 0;
  if (written.over === 14.7)
    remarks.say(`${column.name}: air-fuel ratio divided by 14.7 (petrol, common practice) to give lambda`);
  const series = { time: shifted(clock, origin), samples: isPlain ? values : convertSamples(values, written) };
  return {
    id: column.id,
    name: column.name,
    unit: written.unit,
    fileUnit: column.fileUnit,
    ...(assumed === undefined ? {} : { assumedUnit: assumed }),
    role,
    bank,
    series: isSparse ? withoutHoles(series) : series,
    polled: clock.isPolled,
    ...(column.words ? { words: column.words } : {}),
  };
}

/** Columns that have a value in some rows only, as when a log writes a row for each answer: a hole there is no missing sample. */
function sparseColumns(columns: readonly Recorded[], { isRowLog }: Recording, remarks: RemarkBook): Set<Recorded> {
  const sparse = new Set(isRowLog ? columns.filter(({ values }) => isRegularlyEmpty(values)) : []);
  if (sparse.size > 0) {
    const names = [...sparse]
      .map(({ name }) => name)
      .slice(0, 8)
      .join(", ");
    remarks.tally(`channels written in some rows only were stamped by those rows: ${names}`, undefined, sparse.size);
  }
  return sparse;
}

/** Each row holds the answer of one channel: its stamp is that channel's own. */
function isOneAtATime(columns: readonly Recorded[]): boolean {
  const rows = columns[0]?.values.length ?? 0;
  if (columns.length < 2 || rows < 4 || columns.some(({ time }) => time !== columns[0]!.time)) return false;
  let filled = 0;
  for (const { values } of columns) for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]!)) filled++;
  return filled <= 1.1 * rows && columns.every(({ values }) => isRegularlyEmpty(values) || !hasValue(values));
}

/** More than half of the rows empty, in many short runs. */
function isRegularlyEmpty(values: Samples): boolean {
  let [holes, runs] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!)) continue;
    holes++;
    if (i === 0 || !Number.isNaN(values[i - 1]!)) runs++;
  }
  const filled = values.length - holes;
  return filled > 2 && holes * 2 >= values.length && runs * 5 > filled * 3;
}

/** Only the samples that are there, each with its stamp. */
function withoutHoles({ time, samples }: Series): Series {
  const kept = Array.from(samples.keys()).filter((i) => !Number.isNaN(samples[i]!));
  const stamps = Float64Array.from(kept, (i) => timeAt(time, i));
  const doubt = time.doubt ? { doubt: time.doubt } : {};
  return { time: { kind: "stamped", stamps, ...doubt }, samples: gathered(samples, Int32Array.from(kept)) };
}

function picked(values: Samples, rows: Int32Array | null, missing: number | undefined): Samples {
  const out = rows ? gathered(values, rows) : values;
  if (missing === undefined) return out;
  const sentinel = out instanceof Float32Array ? Math.fround(missing) : missing;
  return out.map((value) => (value === sentinel ? Number.NaN : value)) as Samples;
}

function gathered(values: Samples, rows: Int32Array): Samples {
  const out = values instanceof Float32Array ? new Float32Array(rows.length) : new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) out[i] = values[rows[i]!]!;
  return out;
}

/** Unit of a known quantity whose column names none, told from how large its numbers are. */
function assumedUnit(role: Role, values: Samples): string | undefined {
  if (role === "other") return undefined;
  const [low, high] = rangeOf(values);
  if ((role === "front-o2" || role === "rear-o2") && high > 20) return "mV";
  if (role === "front-lambda" && low > 5) return "AFR";
  if (role === "coolant-temp" && high > 150 && high < 300) return "degF";
  if (role === "manifold-pressure" && high > 0 && high < 5) return "bar";
  return unitOfRole(role);
}

function rangeOf(values: Samples): readonly [low: number, high: number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}

function hasValue(values: Samples): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]!)) return true;
  return false;
}

function remarkOnUse(
  channels: readonly Channel[],
  choices: ReadChoices,
  columns: readonly Recorded[],
  remarks: RemarkBook,
): void {
  for (const { name, series } of channels)
    if (!hasValue(series.samples)) remarks.tally(`${name} never holds a value`, undefined, series.samples.length);
  if (channels.some(({ polled }) => polled)) {
    remarks.say("polled log: each value may be up to one row older than its stamp");
  }
  for (const name of Object.keys({ ...choices.roles, ...choices.units })) {
    if (!columns.some((column) => lookUp({ [name]: true }, column))) remarks.say(`no column is named ${name}`);
  }
}
