// A capture out of storage: its first picture needs no samples, and what is looked at closely is fetched.

import type { Capture, Remark } from "../src/capture/capture.ts";
import type { Span } from "../src/exhaust/analysis.ts";
import { type Samples, type Series, type TimeBase, timeAt } from "../src/signal/series.ts";
import type { Body, BodyChannel, Correction } from "./body.ts";
import { MemoryBody } from "./memory-body.ts";
import { fetched, type PagedTrace, pagedWindow } from "./paged-trace.ts";
import { firstFrom } from "./places.ts";
import { blockSize, Pyramid } from "./pyramid.ts";
import type { KeptFile } from "./store/capture-store.ts";
import { bytesOf, type KeptChannel, type KeptTime, type Place, slot } from "./store/layout.ts";
import type { SyncHandle } from "./store/private-files.ts";
import type { Points, Trace } from "./window.ts";

/** Bytes read at once while other work may go on between. */
const pieceSize = 8 << 20;

export class KeptBody implements Body {
  readonly name: string;
  readonly format: string;
  readonly startedAt: string | null;
  readonly remarks: readonly Remark[];
  readonly channels: readonly BodyChannel[];
  /** Bytes of all columns. */
  readonly size: number;
  private readonly handle: SyncHandle;
  private readonly kept: readonly KeptChannel[];
  private readonly traces = new Map<string, Omit<PagedTrace, keyof Correction>>();
  private readonly fronts = new Map<number, Samples>();

  constructor({ kept, handle }: KeptFile) {
    const { name, format, startedAt, remarks, channels, size } = kept;
    this.name = name;
    this.format = format;
    this.startedAt = startedAt;
    this.remarks = remarks;
    this.channels = channels;
    this.size = size;
    this.kept = channels;
    this.handle = handle;
  }

  window(channelId: string, correction: Correction, span: Span, width: number): Points {
    return pagedWindow({ ...this.trace(channelId), ...correction }, span, width);
  }

  over(channelId: string, correction: Correction, span: Span): Trace {
    return fetched({ ...this.trace(channelId), ...correction }, span);
  }

  async capture(span?: Span, channelIds?: readonly string[]): Promise<Capture> {
    const shared = new Map<number, Promise<Samples>>();
    const { name, format, startedAt, remarks } = this;
    const wanted = this.kept.filter(({ id }) => channelIds?.includes(id) ?? true);
    const channels = wanted.map(async (channel) => {
      const { facts: _, time: __, samples: ___, low, high, longestStep, ...labels } = channel;
      return { ...labels, series: await this.series(channel, span, shared) };
    });
    return { name, format, startedAt, remarks, channels: await Promise.all(channels) };
  }

  /** The same in memory, with what is known of it already. */
  async inMemory(): Promise<MemoryBody> {
    const pyramids = this.channels.map(({ id }) => [id, this.trace(id).pyramid] as const);
    return new MemoryBody(await this.capture(), new Map(pyramids));
  }

  close(): void {
    this.handle.close();
  }

  private async series(
    channel: KeptChannel,
    span: Span | undefined,
    shared: Map<number, Promise<Samples>>,
  ): Promise<Series> {
    const [from, to] = span ? this.places(channel, span) : [0, channel.facts.samples];
    const stamps = async (place: Place) => {
      const known = shared.get(place.at) ?? this.readSlowly(place, from, to);
      shared.set(place.at, known);
      return (await known) as Float64Array;
    };
    const { time } = channel;
    const samples = await this.readSlowly(channel.samples, from, to);
    return { time: time.kind === "even" ? part(time, from, to) : stamped(time, await stamps(time.stamps)), samples };
  }

  /** Samples of whole blocks that hold `span`. */
  private places(channel: KeptChannel, span: Span): readonly [from: number, to: number] {
    const { blockTimes, count } = this.trace(channel.id);
    const from = Math.max(0, firstFrom(blockTimes, span.from) - 1) * blockSize;
    return [from, Math.min(count, (firstFrom(blockTimes, span.to) + 1) * blockSize)];
  }

  private trace(channelId: string): Omit<PagedTrace, keyof Correction> {
    const known = this.traces.get(channelId);
    if (known) return known;
    const channel = this.kept.find(({ id }) => id === channelId);
    if (!channel) throw new RangeError(`no channel ${channelId}`);
    const trace = {
      blockTimes: this.blockTimes(channel),
      count: channel.facts.samples,
      pyramid: Pyramid.ofBlocks(this.read(channel.low), this.read(channel.high)),
      longestStep: channel.longestStep ?? Number.POSITIVE_INFINITY,
      fetch: (from: number, to: number) => this.fetch(channel, from, to),
    };
    this.traces.set(channelId, trace);
    return trace;
  }

  private blockTimes({ time, facts }: KeptChannel): TimeBase {
    const count = Math.ceil(facts.samples / blockSize);
    if (time.kind === "even") return { kind: "even", start: time.start, step: time.step * blockSize, count };
    const stamps = this.fronts.get(time.blockTimes.at) ?? this.read(time.blockTimes);
    this.fronts.set(time.blockTimes.at, stamps);
    return { kind: "stamped", stamps: stamps as Float64Array };
  }

  private fetch(channel: KeptChannel, from: number, to: number): Series {
    const { time } = channel;
    // Stamps, so that each sample has the very time it has in the whole.
    const base =
      time.kind === "even" ? stampsOf(time, from, to) : stamped(time, this.read(time.stamps, from, to) as Float64Array);
    return { time: base, samples: this.read(channel.samples, from, to) };
  }

  private read(place: Place, from = 0, to = place.length): Samples {
    const { array, at } = slot(place, from, to);
    this.handle.read(bytesOf(array), { at });
    return array;
  }

  private async readSlowly(place: Place, from: number, to: number): Promise<Samples> {
    const { array, at } = slot(place, from, to);
    const bytes = bytesOf(array);
    for (let done = 0; done < bytes.length; done += pieceSize) {
      this.handle.read(bytes.subarray(done, done + pieceSize), { at: at + done });
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
    return array;
  }
}

function stampsOf(time: Extract<TimeBase, { kind: "even" }>, from: number, to: number): TimeBase {
  return { kind: "stamped", stamps: Float64Array.from({ length: to - from }, (_, i) => timeAt(time, from + i)) };
}

function part(time: Extract<TimeBase, { kind: "even" }>, from: number, to: number): TimeBase {
  return { ...time, start: timeAt(time, from), count: to - from };
}

function stamped(time: Extract<KeptTime, { kind: "stamped" }>, stamps: Float64Array): TimeBase {
  return time.doubt ? { kind: "stamped", stamps, doubt: time.doubt } : { kind: "stamped", stamps };
}
