// What is known of a channel that comes part by part, and whether the decisions of its first part still hold.

import type { Samples } from "../../signal/series/series.ts";
import { converted, picked } from "../meaning/assemble.ts";
import { assumedUnit, rangeOf } from "../meaning/assumed-unit.ts";
import { lookUp } from "../meaning/chosen-roles.ts";
import { type Conversion, conversionOf } from "../meaning/quantities.ts";
import type { Seen } from "../meaning/remarks-on-use.ts";
import { isSparse } from "../meaning/sparse.ts";
import type { Channel } from "../model/capture.ts";
import { MarkTally } from "../model/no-value-marks.ts";
import { NotInParts, type ReadChoices } from "../model/reader.ts";
import { hasValue, type Recorded } from "../time/recorded.ts";

/** Samples that are kept to show the range. */
const looked = 5000;

export class PartTally {
  private readonly channel: Channel;
  private readonly choices: ReadChoices;
  private readonly conversion: Conversion;
  /** Whether the numbers decided the unit. */
  private readonly isUnitGuessed: boolean;
  private readonly hadValue: boolean;
  private readonly stride: number;
  private readonly some: number[] = [];
  private readonly marks: MarkTally;
  private rows = 0;
  private holes = 0;
  private runs = 0;
  private isInHole = false;
  private hasAny = false;
  private low = Number.POSITIVE_INFINITY;
  private high = Number.NEGATIVE_INFINITY;

  /** @param channel  of the first part. */
  constructor(channel: Channel, column: Recorded, choices: ReadChoices, rowsInAll: number) {
    this.channel = channel;
    this.marks = new MarkTally(channel);
    this.choices = choices;
    this.conversion = conversionOf(channel.assumedUnit ?? channel.fileUnit);
    this.isUnitGuessed = column.fileUnit === "" && lookUp(choices.units, column) === undefined;
    this.hadValue = hasValue(column.values);
    this.stride = Math.max(1, Math.floor(rowsInAll / looked));
  }

  /**
   * The samples of the values of the next part.
   *
   * @param rows  those that are samples; null for all.
   * @param at  samples before it.
   * @throws NotInParts where the whole would be read otherwise than its first part.
   */
  take({ values, isFull = false }: Recorded, rows: Int32Array | null, at: number): Samples {
    const { missing } = this.choices;
    const present = picked(values, rows, missing);
    if (isFull) this.isInHole = false;
    else this.countHoles(values);
    this.rows += values.length;
    if (this.holes < this.rows !== this.hadValue) throw new NotInParts("values in a channel that had none");
    this.hasAny ||= (isFull && missing === undefined) || hasValue(present);
    const { role, assumedUnit: unit } = this.channel;
    if (this.isUnitGuessed && assumedUnit(role, () => this.widened(present)) !== unit)
      throw new NotInParts("numbers of another unit");
    const samples = converted(present, this.conversion);
    this.marks.add(samples);
    for (let i = (this.stride - (at % this.stride)) % this.stride; i < samples.length; i += this.stride)
      this.some.push(samples[i]!);
    return samples;
  }

  /** @throws NotInParts where it has values in some rows only. */
  seen(): Seen {
    if (isSparse(this.rows, this.holes, this.runs)) throw new NotInParts("values in some rows only");
    const some = Float64Array.from(this.some);
    return { hasValue: this.hasAny, some, mark: this.marks.mark() };
  }

  private countHoles(values: Samples): void {
    for (let i = 0; i < values.length; i++) {
      const isHole = Number.isNaN(values[i]!);
      if (isHole) this.holes++;
      if (isHole && !this.isInHole) this.runs++;
      this.isInHole = isHole;
    }
  }

  /** Range of this part and all before it. */
  private widened(values: Samples): readonly [low: number, high: number] {
    const [low, high] = rangeOf(values);
    this.low = Math.min(this.low, low);
    this.high = Math.max(this.high, high);
    return [this.low, this.high];
  }
}
