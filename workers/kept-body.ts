// A capture out of storage: its first picture needs no samples, and what is looked at closely is fetched.

import type { Capture, Remark } from "../src/capture/capture.ts";
import type { Span } from "../src/exhaust/analysis.ts";
import { blockMeans } from "../src/signal/block-means.ts";
import { cutOut } from "../src/signal/reel.ts";
import { countOf, type Reel, type Samples, type Series, type TimeBase, timeAt } from "../src/signal/series.ts";
import type { Body, BodyChannel, Correction } from "./body.ts";
import { MemoryBody } from "./memory-body.ts";
import { fetched, type PagedTrace, pagedWindow } from "./paged-trace.ts";
import { firstFrom } from "./places.ts";
import { blockSize, Pyramid } from "./pyramid.ts";
import type { KeptFile } from "./store/capture-store.ts";
import { type KeptCapture, type KeptChannel, type KeptTime, roomFor } from "./store/layout.ts";
import { StoredColumns } from "./stored-columns.ts";
import { storedReel } from "./stored-reel.ts";
import type { Points, Trace } from "./window.ts";

/** Other work waits no longer than this, ms, and what one part takes. */
const restEvery = 4;

export class KeptBody implements Body {
  readonly name: string;
  readonly format: string;
  readonly startedAt: string | null;
  readonly remarks: readonly Remark[];
  readonly channels: readonly BodyChannel[];
  /** Bytes of all columns. */
  readonly size: number;
  private readonly columns: StoredColumns;
  private readonly kept: readonly KeptChannel[];
  private readonly bounds: KeptFile["bounds"];
  private readonly traces = new Map<string, Omit<PagedTrace, keyof Correction>>();
  private readonly fronts = new Map<number, Samples>();

  constructor({ kept, handle, bounds }: Pick<KeptFile, "handle" | "bounds"> & { readonly kept: KeptCapture }) {
    const { name, format, startedAt, remarks, channels, size } = kept;
    this.name = name;
    this.format = format;
    this.startedAt = startedAt;
    this.remarks = remarks;
    this.channels = channels;
    this.size = size;
    this.kept = channels;
    this.bounds = bounds;
    this.columns = new StoredColumns(handle);
  }

  window(channelId: string, correction: Correction, span: Span, width: number): Points {
    return pagedWindow({ ...this.trace(channelId), ...correction }, span, width);
  }

  over(channelId: string, correction: Correction, span: Span): Trace {
    return fetched({ ...this.trace(channelId), ...correction }, span);
  }

  async capture({ span, ids, block = 1 }: Brought = {}): Promise<Capture> {
    const shared = new Map<number, Promise<Samples>>();
    const { name, format, startedAt, remarks } = this;
    const wanted = this.kept.filter(({ id }) => ids?.includes(id) ?? true);
    const channels = wanted.map(async (channel) => {
      const { facts: _, time: __, samples: ___, low, high, longestStep, ...labels } = channel;
      const whole = () => this.series(channel, span, shared);
      return { ...labels, series: block > 1 ? await this.means(channel, span, block) : await whole() };
    });
    return { name, format, startedAt, remarks, channels: await Promise.all(channels) };
  }

  /** A channel that is read part by part. @param onRead  told how many samples each time. */
  reel(channelId: string, correction: Correction, onRead: (count: number) => void = () => {}): Reel {
    const { blockTimes } = this.trace(channelId);
    return storedReel({ channel: this.channel(channelId), columns: this.columns, blockTimes }, correction, onRead);
  }

  /** The span of about `count` samples in the middle, of the first channel; all where there are fewer. */
  middle(count: number): Span {
    const [first] = this.channels;
    const { blockTimes } = this.trace(first!.id);
    const blocks = countOf(blockTimes);
    const reach = Math.min(blocks, count / blockSize) / 2;
    const at = (block: number) => timeAt(blockTimes, Math.max(0, Math.min(blocks - 1, Math.round(block))));
    return { from: at(blocks / 2 - reach), to: at(blocks / 2 + reach) };
  }

  /** Bytes of the columns that `capture` brings into memory. */
  bytesOver(span: Span | undefined, channelIds: readonly string[]): number {
    const times = new Set<number>();
    const bytes = this.kept
      .filter(({ id }) => channelIds.includes(id))
      .map((channel) => {
        const [from, to] = span ? this.places(channel, span) : [0, channel.facts.samples];
        const { time } = channel;
        const isNew = time.kind === "stamped" && !times.has(time.blockTimes.at);
        if (time.kind === "stamped") times.add(time.blockTimes.at);
        return (to - from) * (roomFor(channel.samples, 0).BYTES_PER_ELEMENT + (isNew ? 8 : 0));
      });
    return bytes.reduce((sum, size) => sum + size, 0);
  }

  /** The same in memory, with what is known of it already. */
  async inMemory(): Promise<MemoryBody> {
    const pyramids = this.channels.map(({ id }) => [id, this.trace(id).pyramid] as const);
    return new MemoryBody(await this.capture(), new Map(pyramids));
  }

  close(): void {
    this.columns.close();
  }

  private async series(
    channel: KeptChannel,
    span: Span | undefined,
    shared: Map<number, Promise<Samples>>,
  ): Promise<Series> {
    const [from, to] = span ? this.places(channel, span) : [0, channel.facts.samples];
    const { time } = channel;
    const samples = await this.columns.readSlowly(channel.samples, from, to);
    if (time.kind === "even") return { time: part(time, from, to), samples };
    const stamps = shared.get(time.blockTimes.at) ?? this.columns.readSlowly(time.stamps, from, to);
    shared.set(time.blockTimes.at, stamps);
    return { time: stamped(channel, time, (await stamps) as Float64Array), samples };
  }

  /** The same, the mean of `block` samples for each so many. */
  private async means(channel: KeptChannel, span: Span | undefined, block: number): Promise<Series> {
    const reel = this.reel(channel.id, { gain: 1, offset: 0 });
    const [from, to] = span ? this.places(channel, span) : [0, channel.facts.samples];
    const work = blockMeans(cutOut(reel, from, to), block);
    let rested = performance.now();
    for (;;) {
      const { done, value } = work.next();
      if (done) return value;
      if (performance.now() - rested < restEvery) continue;
      await new Promise((resolve) => setTimeout(resolve, 0));
      rested = performance.now();
    }
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
    const channel = this.channel(channelId);
    const { pyramid, blockTimes } = this.bounds?.get(channelId) ?? {
      pyramid: Pyramid.ofBlocks(this.columns.read([channel.low]), this.columns.read([channel.high])),
      blockTimes: this.blockTimes(channel),
    };
    const trace = {
      blockTimes,
      count: channel.facts.samples,
      pyramid,
      longestStep: channel.longestStep ?? Number.POSITIVE_INFINITY,
      fetch: (from: number, to: number) => this.fetch(channel, from, to),
    };
    this.traces.set(channelId, trace);
    return trace;
  }

  private channel(channelId: string): KeptChannel {
    const channel = this.kept.find(({ id }) => id === channelId);
    if (!channel) throw new RangeError(`no channel ${channelId}`);
    return channel;
  }

  private blockTimes({ time, facts }: KeptChannel): TimeBase {
    const count = Math.ceil(facts.samples / blockSize);
    if (time.kind === "even") return { kind: "even", start: time.start, step: time.step * blockSize, count };
    const stamps = this.fronts.get(time.blockTimes.at) ?? this.columns.read([time.blockTimes]);
    this.fronts.set(time.blockTimes.at, stamps);
    return { kind: "stamped", stamps: stamps as Float64Array };
  }

  private fetch(channel: KeptChannel, from: number, to: number): Series {
    const { time } = channel;
    // Stamps, so that each sample has the very time it has in the whole.
    const base =
      time.kind === "even"
        ? stampsOf(time, from, to)
        : stamped(channel, time, this.columns.read(time.stamps, from, to) as Float64Array);
    return { time: base, samples: this.columns.read(channel.samples, from, to) };
  }
}

/** What is brought into memory: all, where nothing is said. */
interface Brought {
  readonly span?: Span | undefined;
  readonly ids?: readonly string[];
  /** So many samples as one, their mean. */
  readonly block?: number;
}

function stampsOf(time: Extract<TimeBase, { kind: "even" }>, from: number, to: number): TimeBase {
  return { kind: "stamped", stamps: Float64Array.from({ length: to - from }, (_, i) => timeAt(time, from + i)) };
}

function part(time: Extract<TimeBase, { kind: "even" }>, from: number, to: number): TimeBase {
  return { ...time, start: timeAt(time, from), count: to - from };
}

/** A part has the gaps of its whole. */
function stamped(
  { longestStep }: KeptChannel,
  { doubt }: Extract<KeptTime, { kind: "stamped" }>,
  stamps: Float64Array,
): TimeBase {
  return { kind: "stamped", stamps, ...(doubt ? { doubt } : {}), gapAbove: longestStep ?? Number.POSITIVE_INFINITY };
}
