// A recording larger than memory should hold, handed over part by part while it is read.

import type { Seconds } from "../../signal/numbers/units.ts";
import { type Samples, type TimeBase, timeAt } from "../../signal/series/series.ts";
import { StepTally } from "../../signal/stamps/step-tally.ts";
import { firstPictureRows } from "../bytes/partial-pace.ts";
import { made } from "../meaning/assemble.ts";
import { remarkOnUse } from "../meaning/remarks-on-use.ts";
import { gathered } from "../meaning/sparse.ts";
import type { Capture, Channel } from "../model/capture.ts";
import { NotInParts, type PartSink, partGrain, type ReadChoices, type ReadReport } from "../model/reader.ts";
import { missingCells, RemarkBook } from "../model/remarks.ts";
import { fromStart, longestUnpolled } from "../time/clocks.ts";
import { PartStamps } from "../time/part-stamps.ts";
import { hasValue, type Recorded, type Recording } from "../time/recorded.ts";
import { digitsOf, isEven, timeBaseOf } from "../time/stamps.ts";
import { PartTally } from "./part-tally.ts";

/** How much there will be, about. */
interface Whole {
  readonly rowsInAll: number;
  /** Bytes of columns to a row. */
  readonly width: number;
}

/** What is the same for all parts: decided with the first one. */
interface Decided {
  /** Of the first part, without remarks. */
  readonly capture: Capture;
  /** How many columns the recording has, and which of them are channels. */
  readonly width: number;
  readonly columns: readonly number[];
  readonly tallies: readonly PartTally[];
  readonly remarks: RemarkBook;
}

/**
 * Units, roles, the zero of time and all else that `assemble` decides of a whole recording is decided with the first part,
 * and looked at again with each further one. Where the whole would have been taken for something else, or where it needs all
 * rows at once (time that runs from late to early, a clock for each channel, polled logs, channels written in some rows only),
 * the recording cannot be read in parts.
 *
 * Even steps are told from the first part; where a later part leaves its grid, that part gets stamps or a grid of its own,
 * and the whole is stamped. Each stamp is then within the resolution of the file's stamps of what it is in memory.
 */
export class InParts {
  /** Rows of a part, about. */
  readonly rows: number;
  readonly #sink: PartSink;
  readonly #choices: ReadChoices;
  readonly #stamps = new PartStamps();
  readonly #steps = new StepTally();
  readonly #rowsInAll: number;
  #decided: Decided | null = null;
  /** Of the first part; null once a later one left its grid. */
  #time: TimeBase | null = null;
  /** The first stamp as the file has it. */
  #start: Seconds = 0;
  /** Samples of a channel so far. */
  #taken = 0;

  /** Null where the recording is to be read as a whole. */
  static of({ parts }: ReadReport, choices: ReadChoices, whole: Whole): InParts | null {
    return parts?.wants(whole.rowsInAll * whole.width) ? new InParts(parts, choices, whole) : null;
  }

  private constructor(sink: PartSink, choices: ReadChoices, { rowsInAll, width }: Whole) {
    this.#sink = sink;
    this.#choices = choices;
    this.#rowsInAll = rowsInAll;
    const wanted = Math.max(firstPictureRows, sink.bytes / width);
    this.rows = Math.ceil(wanted / partGrain) * partGrain;
  }

  /** Whether a part was taken: from then on the columns hold only what comes after it. */
  get isBegun(): boolean {
    return this.#decided !== null;
  }

  /** How many of the `rows` that wait are to be handed over. */
  due(rows: number): number {
    return rows < this.rows ? 0 : rows - (rows % partGrain);
  }

  /**
   * Hands over rows of `recording`, which follow those handed over before.
   *
   * @param isLast  whether no more will follow.
   * @returns how many of them, from the first on: the others must come again.
   * @throws NotInParts; what the sink throws.
   */
  async take(recording: Recording, isLast: boolean): Promise<number> {
    const { rows, taken, ordered } = this.#inOrder(recording, isLast);
    const count = ordered.columns[0]!.values.length;
    if (taken === 0 || (count === 0 && !this.#decided)) {
      if (isLast || recording.columns[0]!.values.length > 2 * this.rows) throw new NotInParts("rows without a time");
      return 0;
    }
    this.#decided ??= decided(ordered, recording, this.#choices, this.#rowsInAll);
    const { capture, columns, tallies } = this.#decided;
    refuseNew(recording, this.#decided);
    const time = count > 0 ? this.#timeOf(ordered) : null;
    const samples = columns.map((column, i) => {
      const recorded = recording.columns[column]!;
      return tallies[i]!.take({ ...recorded, values: recorded.values.subarray(0, taken) }, rows, this.#taken);
    });
    if (!time) return taken;
    this.#steps.take(time);
    this.#taken += count;
    const channels = capture.channels.map((channel, i) => ({ ...channel, series: { time, samples: samples[i]! } }));
    await this.#sink.take({ ...capture, channels });
    return taken;
  }

  /** The rows that can be told, with rising stamps. */
  #inOrder(recording: Recording, isLast: boolean) {
    const { columns } = recording;
    const { time, values } = columns[0]!;
    if (columns.some((column) => column.time !== time)) throw new NotInParts("more than one clock");
    if (columns.some((column) => column.values.length !== values.length)) throw new NotInParts("rows of unlike length");
    if ("rate" in time) return { rows: null, taken: values.length, ordered: recording };
    const { stamps, rows, taken } = this.#stamps.take(time, isLast);
    if (!rows) return { rows, taken, ordered: recording };
    const ordered = columns.map((column) => ({ ...column, values: gathered(column.values, rows), time: stamps }));
    return { rows, taken, ordered: { ...recording, columns: ordered } };
  }

  /**
   * The capture without samples, when all parts were taken.
   *
   * @param recording  its columns hold nothing any more.
   * @throws NotInParts
   */
  finish(recording: Recording, remarks: RemarkBook): Capture {
    const { capture, columns, tallies, ...first } = this.#decided!;
    this.#stamps.finish();
    const isEvenWhole = this.#grid() !== null;
    if (recording.isRowLog && !isEvenWhole && this.#steps.usual > longestUnpolled) throw new NotInParts("a polled log");
    const seen = tallies.map((tally) => tally.seen());
    if (this.#choices.missing === undefined && seen.some(({ mark }) => mark !== null))
      throw new NotInParts("a mark for no value");
    const read = columns.map((column) => recording.columns[column]!);
    for (const { name } of recording.columns.filter((column) => !read.includes(column)))
      remarks.withdraw(missingCells, name);
    const channels = capture.channels.map((channel, i) => withoutSamples(channel, read[i]!));
    remarks.add(this.#stamps.remarks());
    remarks.add(first.remarks.list());
    remarkOnUse(
      {
        channels,
        columns: read,
        seen,
        holes: isEvenWhole ? [] : [this.#steps.holes],
        choices: this.#choices,
      },
      remarks,
    );
    return { ...capture, channels, remarks: remarks.list() };
  }

  /** Time of a part, from the first part's first sample on. */
  #timeOf({ columns: [first] }: Recording): TimeBase {
    const { time, values } = first!;
    const grid = this.#grid();
    if ("rate" in time) {
      this.#time ??= { kind: "even", start: 0, step: 1 / time.rate, count: 0 };
      return this.#goneOn(grid ?? { start: 0, step: 1 / time.rate }, values.length);
    }
    const { seconds, doubt } = time;
    if (this.#taken === 0) {
      this.#start = seconds[0]!;
      this.#time = this.#decided!.capture.channels[0]!.series.time;
      return this.#time;
    }
    const { resolution, grid: digits } = digitsOf(time.resolution, doubt);
    const relative = fromStart(seconds, this.#start, digits);
    if (grid) {
      const goneOn = this.#goneOn(grid, relative.length);
      const slack = resolution > grid.step / 2 ? 0 : resolution * 1.01;
      if (isEven(relative, timeAt(goneOn, 0), grid.step, slack)) return goneOn;
      this.#time = null;
    }
    return { ...timeBaseOf(relative, resolution), ...(doubt ? { doubt } : {}) };
  }

  /** The even steps that all parts so far have in common. */
  #grid(): EvenSteps | null {
    return this.#time?.kind === "even" ? this.#time : null;
  }

  #goneOn({ start, step, doubt }: EvenSteps, count: number): TimeBase {
    return { kind: "even", start: start + this.#taken * step, step, count, ...(doubt ? { doubt } : {}) };
  }
}

type EvenSteps = Pick<Extract<TimeBase, { kind: "even" }>, "start" | "step" | "doubt">;

/** @param recording  as written, before its rows were put in order. */
function decided(ordered: Recording, written: Recording, choices: ReadChoices, rowsInAll: number): Decided {
  const { columns } = ordered;
  const remarks = new RemarkBook();
  const first = madeOf(ordered, choices, remarks);
  const { channels } = first.capture;
  if (channels.some(({ polled, series }) => polled || series.samples.length !== columns[0]!.values.length))
    throw new NotInParts("rows that are no samples");
  const places = first.columns.map((column) => columns.indexOf(column));
  return {
    capture: first.capture,
    width: columns.length,
    columns: places,
    tallies: channels.map((channel, i) => new PartTally(channel, written.columns[places[i]!]!, choices, rowsInAll)),
    remarks,
  };
}

/** What is wrong with the first part may be right with the whole: the usual way tells it. */
function madeOf(...given: Parameters<typeof made>): ReturnType<typeof made> {
  try {
    return made(...given);
  } catch {
    throw new NotInParts("a first part that is no recording");
  }
}

/** A nameless column that held nothing is no channel: then it must stay so. */
function refuseNew({ columns }: Recording, { columns: known, width }: Decided): void {
  if (columns.length !== width) throw new NotInParts("a late column");
  if (columns.some(({ values }, i) => !known.includes(i) && hasValue(values))) throw new NotInParts("a late channel");
}

const nothing: Samples = new Float64Array(0);

function withoutSamples(channel: Channel, { words }: Recorded): Channel {
  const series = { time: { kind: "even", start: 0, step: 1, count: 0 } as const, samples: nothing };
  return { ...channel, series, ...(words ? { words } : {}) };
}
