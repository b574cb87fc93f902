// Recorded columns made a capture: times from its first sample on, units of the reading type, roles.

import { ProblemError } from "../../problem.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { countOf, type Samples, type Series, timeAt } from "../../signal/series/series.ts";
import type { Capture, Channel } from "../model/capture.ts";
import { noValueMark } from "../model/no-value-marks.ts";
import type { ReadChoices } from "../model/reader.ts";
import { noNumbers, tooFewRows } from "../model/refusals.ts";
import { missingCells, type RemarkBook } from "../model/remarks.ts";
import { type Clock, clocksOf, originOf, shifted, startOf } from "../time/clocks.ts";
import { hasValue, type Recorded, type Recording } from "../time/recorded.ts";
import { assumedUnit, rangeOf } from "./assumed-unit.ts";
import { type ChosenRole, lookUp, rolesOf } from "./chosen-roles.ts";
import { isEquivalence, turnedOver } from "./equivalence.ts";
import { withoutFrozen } from "./frozen.ts";
import { cadencesOf, freshRows, rowsHeld } from "./held.ts";
import { withoutOddEnd } from "./odd-end.ts";
import { type Conversion, conversionOf, convertSamples } from "./quantities.ts";
import { remarkOnUse, usedOf } from "./remarks-on-use.ts";
import { withoutRepeatedBlocks } from "./repeated-blocks.ts";
import { filledRows, gathered, isOneAtATime, seriesAt, sparseColumns } from "./sparse.ts";

/**
 * Makes the capture.
 *
 * @throws ProblemError "no-numbers" without a value anywhere, "too-few-rows" with fewer than two.
 */
export function assemble(recording: Recording, choices: ReadChoices, remarks: RemarkBook): Capture {
  const { capture, columns } = made(recording, choices, remarks);
  remarkOnUse(usedOf(capture.channels, columns, choices), remarks);
  return { ...capture, remarks: remarks.list() };
}

/** The capture before anything is said of its channels, and the columns behind them. @throws as `assemble`. */
export function made(
  recording: Recording,
  choices: ReadChoices,
  remarks: RemarkBook,
): { readonly capture: Capture; readonly columns: readonly Recorded[] } {
  const written = recording.columns.filter(({ values, header }) => header !== "" || hasValue(values));
  const isWhole = recording.isRowLog && !recording.isPart;
  const columns = isWhole ? withoutRepeatedBlocks(withoutFrozen(written, remarks), remarks) : written;
  for (const { name } of recording.columns.filter((column) => !written.includes(column)))
    remarks.withdraw(missingCells, name);
  if (!columns.some(({ values }) => hasValue(values))) throw noNumbers(recording.name);
  const isRowLog = recording.isRowLog && !isOneAtATime(columns);
  const clocks = clocksOf(columns, { ...recording, isRowLog }, remarks, choices.disorder);
  const origin = originOf(clocks, remarks);
  const sparse = sparseColumns(columns, remarks);
  const roles = rolesOf(columns, choices, remarks);
  const tellsHeld = isRowLog && !recording.isPart;
  const cadences = tellsHeld ? cadencesOf(columns.map(({ values }, i) => ({ values, role: roles[i]!.role }))) : [];
  const channels = columns.map((asWritten, i) => {
    const column = isWhole ? withoutOddEnd(asWritten, roles[i]!.role, choices, remarks) : asWritten;
    const clock = clocks.get(column.time)!;
    return channelOf(column, roles[i]!, {
      clock,
      origin: origin(clock),
      choices,
      remarks,
      isSparse: sparse.has(column),
      tellsHeld,
      cadences,
    });
  });
  refuseStuckTime(columns, channels, recording.name);
  refuseEndlessTime(channels, recording.name);
  if (!channels.some(({ series }) => series.samples.length > 1))
    throw tooFewRows(recording.name, channels[0]?.series.samples.length ?? 0);
  const { name, format } = recording;
  const known = choices.missing === undefined ? channels.map((channel) => withoutMark(channel, remarks)) : channels;
  return { capture: { name, format, startedAt: startOf(clocks, recording), channels: known, remarks: [] }, columns };
}

/** A number that no sensor gives, again and again, is missing, and said to be. */
function withoutMark(channel: Channel, remarks: RemarkBook): Channel {
  const mark = noValueMark(channel);
  if (!mark) return channel;
  remarks.tally(
    `${channel.name}: ${mark.volts}\u00a0V cannot come from the sensor, and nothing like it stands beside: a mark for "no value", taken as missing (--missing on the command line names another)`,
    undefined,
    mark.count,
  );
  return { ...channel, series: { ...channel.series, samples: picked(channel.series.samples, null, mark.value) } };
}

const repeats = "values that are only repeated until the next one comes were not counted as samples";

/** A log may repeat a value until the next one comes: only where it is new it was sampled. */
function withoutRepeats(series: Series, held: number | null, say: () => void): Series {
  if (held === null) return series;
  say();
  return seriesAt(series, freshRows(series.samples, held));
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

/** A thousand years: no recording is longer, and on a longer axis nothing can be drawn. s */
const longestRecording = 3.2e10;

/** @throws ProblemError "no-time" where the stamps lie so far apart that they are no times. */
function refuseEndlessTime(channels: readonly Channel[], name: string): void {
  const lengths = channels.map(({ series: { time } }) => {
    const count = countOf(time);
    return count > 1 ? timeAt(time, count - 1) - timeAt(time, 0) : 0;
  });
  if (lengths.every((length) => length <= longestRecording)) return; // a length beyond all numbers is none of these
  throw new ProblemError({
    code: "no-time",
    what: `The time in ${name} runs over more than a thousand years: a stamp is garbled, or the column is not the time.`,
    remedy: "Name the column that holds the time, or take out the rows whose time is not one.",
    where: name,
  });
}

interface Making {
  readonly clock: Clock;
  readonly isSparse: boolean;
  /** Whether repeated values are looked for. */
  readonly tellsHeld: boolean;
  /** Rows for which channels of the log are held; see `cadencesOf`. */
  readonly cadences: readonly number[];
  readonly origin: Seconds;
  readonly choices: ReadChoices;
  readonly remarks: RemarkBook;
}

function channelOf(
  column: Recorded,
  { role, bank }: ChosenRole,
  { clock, origin, choices, remarks, isSparse, tellsHeld, cadences }: Making,
): Channel {
  const values = picked(column.values, clock.ordered?.rows ?? null, choices.missing);
  const said = lookUp(choices.units, column);
  const assumed = said ?? (column.fileUnit === "" ? assumedUnit(role, () => rangeOf(values)) : undefined);
  const written = conversionOf(assumed ?? column.fileUnit);
  if (written.over === 14.7)
    remarks.say(`${column.name}: air-fuel ratio divided by 14.7 (petrol, common practice) to give lambda`);
  const lambda = converted(values, written);
  const isTurned = role === "front-lambda" && isEquivalence(column.name, lambda);
  if (isTurned) remarks.say(`${column.name}: an equivalence ratio, rich above 1, turned over to give lambda`);
  const series = { time: shifted(clock, origin), samples: isTurned ? turnedOver(lambda) : lambda };
  return {
    id: column.id,
    name: column.name,
    unit: written.unit,
    fileUnit: column.fileUnit,
    ...(assumed === undefined ? {} : { assumedUnit: assumed }),
    role,
    bank,
    series: isSparse
      ? seriesAt(series, filledRows(series.samples))
      : withoutRepeats(series, tellsHeld ? rowsHeld(series.samples, role, cadences) : null, () =>
          remarks.tally(repeats, undefined, 1, column.name),
        ),
    polled: clock.isPolled,
    ...(column.words ? { words: column.words } : {}),
  };
}

/** The same samples where nothing changes. */
export function converted(values: Samples, from: Conversion): Samples {
  return from.times === from.over && from.zero === 0 ? values : convertSamples(values, from);
}

/** Values of some rows, or of all; the mark for "no value" made missing. */
export function picked(values: Samples, rows: Int32Array | null, missing: number | undefined): Samples {
  const out = rows ? gathered(values, rows) : values;
  if (missing === undefined) return out;
  const sentinel = out instanceof Float32Array ? Math.fround(missing) : missing;
  return out.map((value) => (value === sentinel ? Number.NaN : value)) as Samples;
}
