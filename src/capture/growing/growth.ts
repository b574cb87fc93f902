// Columns that grow while a file is read: shown now and again, and handed over in parts where memory should not hold them all.

import { ProblemError } from "../../problem.ts";
import { breathe } from "../bytes/breathe.ts";
import { PartialPace } from "../bytes/partial-pace.ts";
import { assemble, made } from "../meaning/assemble.ts";
import type { Capture } from "../model/capture.ts";
import type { Column } from "../model/columns.ts";
import type { ByteSource, ReadChoices, ReadReport } from "../model/reader.ts";
import { RemarkBook } from "../model/remarks.ts";
import type { Numbers, Recording } from "../time/recorded.ts";
import { InParts } from "./in-parts.ts";

export interface Growing {
  /** Rows that wait in the columns. */
  readonly rows: number;
  /** Bytes of columns to a row, and rows of the whole, about. */
  readonly width: number;
  readonly rowsInAll: number;
  /** The first `count` rows, not copied. */
  recording(count: number): Recording;
  /** Lets go of them. */
  drop(count: number): void;
}

export class Growth {
  readonly #growing: Growing;
  readonly #choices: ReadChoices;
  readonly #report: ReadReport;
  readonly #parts: InParts | null;
  readonly #pace = new PartialPace();

  constructor(growing: Growing, choices: ReadChoices, report: ReadReport) {
    this.#growing = growing;
    this.#choices = choices;
    this.#report = report;
    this.#parts = InParts.of(report, choices, growing);
  }

  /** Rows that the columns must have room for, about. */
  get room(): number {
    return this.#parts?.rows ?? this.#growing.rowsInAll;
  }

  /** Called now and again: more rows have come. @throws as `handOver`. */
  async grown(): Promise<void> {
    await this.handOver();
    const { partial } = this.#report;
    if (this.#parts?.isBegun || !partial) return;
    const { rows } = this.#growing;
    this.#pace.offer(rows, () => {
      const picture = this.#soFar(rows);
      if (picture) partial(picture);
    });
  }

  /** The same without a picture. @throws NotInParts; what the sink of parts throws. */
  async handOver(): Promise<void> {
    const due = this.#parts?.due(this.#growing.rows) ?? 0;
    if (due > 0) await this.#take(due, false);
  }

  /** The capture without its samples; null where no part was handed over, and the columns hold all rows. @throws as `handOver`. */
  async finish(remarks: RemarkBook): Promise<Capture | null> {
    if (!this.#parts?.isBegun) return null;
    const { rows } = this.#growing;
    if (rows > 0) await this.#take(rows, true);
    return this.#parts.finish(this.#growing.recording(0), remarks);
  }

  /** Null while what there is makes no capture: no value yet, say. */
  #soFar(rows: number): Capture | null {
    try {
      return made({ ...this.#growing.recording(rows), isPart: true }, this.#choices, new RemarkBook()).capture;
    } catch (error) {
      if (error instanceof ProblemError) return null;
      throw error;
    }
  }

  async #take(count: number, isLast: boolean): Promise<void> {
    this.#growing.drop(await this.#parts!.take(this.#growing.recording(count), isLast));
  }
}

/** Columns of a binary file, filled from front to back. */
export interface Filling {
  readonly source: ByteSource;
  /** All of one length. */
  readonly columns: readonly Column[];
  readonly rowsInAll: number;
  /** Rows that come at once, about. */
  readonly stride: number;
  /** What the first rows of the columns are. */
  recording(columns: readonly Numbers[]): Recording;
  /** Puts the next rows into the columns. @returns bytes of the source taken in so far; null behind the last row. */
  next(): Promise<number | null>;
}

/**
 * The columns as a capture, in parts where they are large.
 *
 * @throws ProblemError as `assemble`, "cancelled"; NotInParts; what `next` and the sink of parts throw
 */
export async function filledCapture(
  filling: Filling,
  choices: ReadChoices,
  report: ReadReport,
  remarks: RemarkBook,
): Promise<Capture> {
  const { source, columns, rowsInAll } = filling;
  const growth = new Growth(
    {
      width: columns.reduce((sum, { values }) => sum + values.BYTES_PER_ELEMENT, 0),
      rowsInAll,
      get rows() {
        return columns[0]?.length ?? 0;
      },
      recording: (rows) =>
        filling.recording(
          columns.map((column) => ({ values: column.soFar().subarray(0, rows), isFull: column.isFull })),
        ),
      drop(rows) {
        for (const column of columns) column.drop(rows);
      },
    },
    choices,
    report,
  );
  // A row takes a byte or more, whatever the file claims.
  const room = Math.min(rowsInAll, growth.room + filling.stride, source.size);
  for (const column of columns) column.reserve(room);
  for (let done = await filling.next(); done !== null; done = await filling.next()) {
    report.progress(done, source.size);
    await growth.grown();
    await breathe(report.signal, source.name);
  }
  const parted = await growth.finish(remarks);
  if (parted) return parted;
  const whole = columns.map((column) => ({ values: column.finish(), isFull: column.isFull }));
  return assemble(filling.recording(whole), choices, remarks);
}
