// A capture on its way into storage, part by part: samples go to the file, only bounds and times of blocks stay in memory.

import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import { Column } from "../../src/capture/model/columns.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf, type Samples, type TimeBase, timeAt } from "../../src/signal/series/series.ts";
import { StepTally } from "../../src/signal/stamps/step-tally.ts";
import { rangeOf } from "../body/body.ts";
import type { Bounds } from "../drawing/paged-trace.ts";
import { blockSize, coarser, Pyramid } from "../drawing/pyramid.ts";
import { rateOf } from "../drawing/rate.ts";
import {
  bytesOf,
  type KeptCapture,
  type KeptChannel,
  type Levels,
  layoutVersion,
  type Place,
  type Steps,
} from "./layout.ts";
import { type SyncHandle, storageProblem, writeAt } from "./private-files.ts";

type Labels = Pick<KeptCapture, "choices" | "arrays" | "fileSize">;

/** What can be seen of what was written. */
export interface Written {
  readonly kept: Omit<KeptCapture, "sum">;
  readonly bounds: ReadonlyMap<string, Bounds>;
}

export class PartWriter {
  private readonly handle: SyncHandle;
  private readonly signal: AbortSignal;
  private readonly columns: WrittenColumn[] = [];
  private readonly time = new WrittenTime();
  private end = 0;
  private labels: Capture | null = null;

  constructor(handle: SyncHandle, signal: AbortSignal) {
    this.handle = handle;
    this.signal = signal;
  }

  get rows(): number {
    return this.time.count;
  }

  /** Takes the samples that follow those taken before; see PartSink. */
  async take(part: Capture): Promise<void> {
    this.labels = part;
    const { time } = part.channels[0]!.series;
    const stamps = time.kind === "even" ? null : await this.put(time.stamps);
    this.time.take(time, stamps);
    for (const [i, { series }] of part.channels.entries()) {
      this.columns[i] ??= new WrittenColumn();
      this.columns[i].take(await this.put(series.samples), series.samples);
    }
  }

  /** All that was written so far, to be looked at while the writing goes on. */
  soFar(): Written {
    const { labels } = this;
    if (!labels) throw new RangeError("nothing was written yet");
    const nowhere: Place = { kind: "f32", at: 0, length: 0 };
    const levels: Levels = { fine: nowhere, coarse: nowhere };
    return this.written(labels, { choices: {}, arrays: "", fileSize: 0 }, () => levels);
  }

  /** Writes what stayed in memory. */
  async finish(capture: Capture, labels: Labels): Promise<Written> {
    const kept = new Map<Column, Levels>();
    const keep = async (column: Column, what: Parameters<typeof coarser>[1]) => {
      const fine = column.soFar();
      kept.set(column, { coarse: await this.put(coarser(fine, what)), fine: await this.put(fine) });
    };
    for (const { low, high } of this.columns) {
      await keep(low, "lowest");
      await keep(high, "highest");
    }
    if (!this.time.grid) await keep(this.time.blockTimes, "first");
    return this.written(capture, labels, (column) => kept.get(column)!);
  }

  private written(capture: Capture, labels: Labels, levelsOf: (column: Column) => Levels): Written {
    const { time } = this;
    const times = time.ofBlocks();
    const facts = { samples: time.count, from: time.start, to: time.last, rate: time.rate };
    const bounds = new Map<string, Bounds>();
    const channels = capture.channels.map(({ series: _, ...channel }: Channel, i): KeptChannel => {
      const column = this.columns[i]!;
      bounds.set(channel.id, {
        size: blockSize,
        times,
        pyramid: Pyramid.ofBlocks(column.low.soFar(), column.high.soFar()),
      });
      return {
        ...channel,
        facts: { ...facts, range: rangeOf(column.range) },
        low: levelsOf(column.low),
        high: levelsOf(column.high),
        samples: [...column.places],
        time: time.grid
          ? { ...time.grid, count: time.count }
          : { kind: "stamped", stamps: [...time.pieces], blockTimes: levelsOf(time.blockTimes), ...time.doubt },
        longestStep: time.grid || !Number.isFinite(time.longestStep) ? null : time.longestStep,
      };
    });
    return { kept: { ...capture, version: layoutVersion, ...labels, size: this.end, channels }, bounds };
  }

  private async put(array: Samples): Promise<Place> {
    const at = this.end;
    try {
      await writeAt(this.handle, bytesOf(array), at, this.signal);
    } catch (error) {
      throw storageProblem(error);
    }
    this.end = Math.ceil((at + array.byteLength) / 8) * 8;
    return { kind: array instanceof Float32Array ? "f32" : "f64", at, length: array.length };
  }
}

class WrittenColumn {
  readonly places: Place[] = [];
  readonly low = new Column("single");
  readonly high = new Column("single");
  /** Of all samples; +Infinity, -Infinity without any. */
  readonly range = Float64Array.of(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY);

  take(place: Place, samples: Samples): void {
    this.places.push(place);
    const blocks = new Pyramid(samples).blocks(samples);
    if (samples instanceof Float64Array) for (const column of [this.low, this.high]) column.widen();
    for (let block = 0; block < blocks.low.length; block++) {
      const [low, high] = [blocks.low[block]!, blocks.high[block]!];
      this.low.push(low);
      this.high.push(high);
      if (low < this.range[0]!) this.range[0] = low;
      if (high > this.range[1]!) this.range[1] = high;
    }
  }
}

/** One time for all channels: even while every part goes on in the steps of the first, stamped from the first other one on. */
class WrittenTime {
  readonly pieces: (Place | Steps)[] = [];
  readonly blockTimes = new Column("double");
  grid: Extract<TimeBase, { kind: "even" }> | null = null;
  count = 0;
  start: Seconds = 0;
  last: Seconds = 0;
  /** Of all parts alike. */
  doubt: Pick<TimeBase, "doubt"> = {};
  private readonly steps = new StepTally();

  isGoneOn(time: TimeBase): boolean {
    if (time.kind !== "even") return false;
    if (this.count === 0) return true;
    const { grid } = this;
    return grid !== null && time.step === grid.step && time.start === timeAt(grid, this.count);
  }

  /** @param stamps  where they were written; null for even ones. */
  take(time: TimeBase, stamps: Place | null): void {
    const count = countOf(time);
    if (count === 0) return;
    if (!this.isGoneOn(time)) this.grid = null;
    else if (time.kind === "even") this.grid ??= { ...time, count: 0 };
    if (this.count === 0) {
      this.start = timeAt(time, 0);
      if (time.doubt) this.doubt = { doubt: time.doubt };
    }
    if (time.kind === "even") this.pieces.push({ kind: "even", start: time.start, step: time.step, length: count });
    else this.pieces.push(stamps!);
    for (let i = 0; i < count; i += blockSize) this.blockTimes.push(timeAt(time, i));
    this.steps.take(time);
    this.count += count;
    this.last = timeAt(time, count - 1);
  }

  get longestStep(): Seconds {
    return this.steps.longest;
  }

  get rate() {
    return this.grid ? rateOf({ ...this.grid, count: this.count }) : this.steps.rate;
  }

  /** One entry a block: the time of its first sample. */
  ofBlocks(): TimeBase {
    const { grid, blockTimes } = this;
    if (!grid) return { kind: "stamped", stamps: blockTimes.soFar() as Float64Array };
    return { kind: "even", start: grid.start, step: grid.step * blockSize, count: blockTimes.length };
  }
}
