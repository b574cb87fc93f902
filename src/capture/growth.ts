// Columns that grow while a file is read: shown now and again, and handed over in parts where memory should not hold them all.

import { ProblemError } from "../problem.ts";
import { assemble } from "./assemble.ts";
import type { Capture } from "./capture.ts";
import { InParts } from "./in-parts.ts";
import { PartialPace } from "./partial-pace.ts";
import type { ReadChoices, ReadReport } from "./reader.ts";
import type { Recording } from "./recorded.ts";
import { RemarkBook } from "./remarks.ts";

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
    if (due > 0) await this.#take(due);
  }

  /** The capture without its samples; null where no part was handed over, and the columns hold all rows. @throws as `handOver`. */
  async finish(remarks: RemarkBook): Promise<Capture | null> {
    if (!this.#parts?.isBegun) return null;
    const { rows } = this.#growing;
    if (rows > 0) await this.#take(rows);
    return this.#parts.finish(this.#growing.recording(0), remarks);
  }

  /** Null while what there is makes no capture: no value yet, say. */
  #soFar(rows: number): Capture | null {
    try {
      return assemble({ ...this.#growing.recording(rows), isPart: true }, this.#choices, new RemarkBook());
    } catch (error) {
      if (error instanceof ProblemError) return null;
      throw error;
    }
  }

  async #take(count: number): Promise<void> {
    await this.#parts!.take(this.#growing.recording(count));
    this.#growing.drop(count);
  }
}
