// A capture out of storage: its first picture needs no samples, and what is looked at closely is fetched.

import type { Correction } from "../../src/capture/meaning/corrections.ts";
import type { Capture, Remark } from "../../src/capture/model/capture.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { blockMeans } from "../../src/signal/series/block-means.ts";
import { cutOut } from "../../src/signal/series/reel.ts";
import {
  countOf,
  type PagedTime,
  type Reel,
  type Samples,
  type Series,
  type TimeBase,
  timeAt,
} from "../../src/signal/series/series.ts";
import type { Body, BodyChannel } from "../body/body.ts";
import { MemoryBody } from "../body/memory-body.ts";
import { type Bounds, blocksOver, fetched, type PagedTrace, pagedWindow } from "../drawing/paged-trace.ts";
import { blockSize, fanOut, Pyramid } from "../drawing/pyramid.ts";
import type { Points, Trace } from "../drawing/window.ts";
import type { KeptFile } from "../store/capture-store.ts";
import { type KeptCapture, type KeptChannel, type KeptTime, type Levels, roomFor } from "../store/layout.ts";
import { StoredColumns } from "./stored-columns.ts";
import { storedReel } from "./stored-reel.ts";

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
  /** By where their blocks' times lie. */
  private readonly times = new Map<number, PagedTime>();
  private readonly fronts = new Map<number, Samples>();

  constructor({
    kept,
    handle,
    bounds,
  }: Pick<KeptFile, "handle" | "bounds"> & { readonly kept: Omit<KeptCapture, "sum"> }) {
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

  async capture({ span, ids, block = 1, onShare = () => {} }: Brought = {}): Promise<Capture> {
    const shared = new Map<number, Promise<Samples>>();
    const { name, format, startedAt, remarks } = this;
    const wanted = this.kept.filter(({ id }) => ids?.includes(id) ?? true);
    const total = wanted.reduce((sum, channel) => sum + lengthOf(this.places(channel, span)), 0);
    let read = 0;
    const onRead = (count: number) => {
      read += count;
      onShare(Math.min(1, read / total));
    };
    const channels = wanted.map(async (channel) => {
      const { facts: _, time: __, samples: ___, low, high, longestStep, ...labels } = channel;
      const whole = () => this.series(channel, span, shared);
      return { ...labels, series: block > 1 ? await this.means(channel, { span, block, onRead }) : await whole() };
    });
    return { name, format, startedAt, remarks, channels: await Promise.all(channels) };
  }

  /** A channel that is read part by part; those of the same stamps have one time. @param onRead  told how many samples each time. */
  reel(channelId: string, correction: Correction, onRead: (count: number) => void = () => {}): Reel {
    const { bounds } = this.trace(channelId);
    const channel = this.channel(channelId);
    const reel = storedReel({ channel, columns: this.columns, bounds }, correction, onRead);
    if (channel.time.kind === "even" || reel.time.kind === "even") return reel;
    const { at } = channel.time.blockTimes.fine;
    const time = this.times.get(at) ?? reel.time;
    this.times.set(at, time);
    return { ...reel, time };
  }

  /** The span of about `count` samples in the middle, of the first channel; all where there are fewer. */
  middle(count: number): Span {
    const [first] = this.channels;
    const { times, size } = this.trace(first!.id).bounds;
    const blocks = countOf(times);
    const reach = Math.min(blocks, count / size) / 2;
    const at = (block: number) => timeAt(times, Math.max(0, Math.min(blocks - 1, Math.round(block))));
    return { from: at(blocks / 2 - reach), to: at(blocks / 2 + reach) };
  }

  /** Bytes of the columns that `capture` brings into memory. */
  bytesOver(span: Span | undefined, channelIds: readonly string[]): number {
    const times = new Set<number>();
    const bytes = this.kept
      .filter(({ id }) => channelIds.includes(id))
      .map((channel) => {
        const { time } = channel;
        const isNew = time.kind === "stamped" && !times.has(time.blockTimes.fine.at);
        if (time.kind === "stamped") times.add(time.blockTimes.fine.at);
        return lengthOf(this.places(channel, span)) * (roomFor(channel.samples, 0).BYTES_PER_ELEMENT + (isNew ? 8 : 0));
      });
    return bytes.reduce((sum, size) => sum + size, 0);
  }

  /** The same in memory, with what is known of it already. */
  async inMemory(): Promise<MemoryBody> {
    const pyramids = this.kept.map((channel) => [channel.id, this.pyramidOf(channel)] as const);
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
    const [from, to] = this.places(channel, span);
    const { time } = channel;
    const samples = await this.columns.readSlowly(channel.samples, from, to);
    if (time.kind === "even") return { time: part(time, from, to), samples };
    const stamps = shared.get(time.blockTimes.fine.at) ?? this.columns.readSlowly(time.stamps, from, to);
    shared.set(time.blockTimes.fine.at, stamps);
    return { time: stamped(channel, time, (await stamps) as Float64Array), samples };
  }

  /** The same, the mean of `block` samples for each so many. */
  private async means(channel: KeptChannel, { span, block, onRead }: MeansRule): Promise<Series> {
    const reel = this.reel(channel.id, { gain: 1, offset: 0 }, onRead);
    const [from, to] = this.places(channel, span);
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

  /** Samples of whole blocks that hold `span`; all without one. */
  private places(channel: KeptChannel, span: Span | undefined): Range {
    if (!span) return [0, channel.facts.samples];
    const trace = this.trace(channel.id);
    const [from, to] = blocksOver(trace, span);
    return [from * trace.bounds.size, Math.min(trace.count, to * trace.bounds.size)];
  }

  private trace(channelId: string): Omit<PagedTrace, keyof Correction> {
    const known = this.traces.get(channelId);
    if (known) return known;
    const channel = this.channel(channelId);
    const inMemory = this.bounds?.get(channelId);
    const trace = {
      bounds: inMemory ?? this.boundsOf(channel, "coarse"),
      finer: inMemory ? null : this.finer(channel),
      count: channel.facts.samples,
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

  /** Bounds of blocks of a level, from block `from` on to block `to`, as far as there are any. */
  private boundsOf({ low, high, time }: KeptChannel, level: keyof Levels, from = 0, to = low[level].length): Bounds {
    const end = Math.min(to, low[level].length);
    const size = level === "fine" ? blockSize : blockSize * fanOut;
    const pyramid = Pyramid.ofBlocks(
      this.columns.read([low[level]], from, end),
      this.columns.read([high[level]], from, end),
    );
    if (time.kind === "even") {
      const step = time.step * size;
      return { size, pyramid, times: { kind: "even", start: time.start + from * step, step, count: end - from } };
    }
    const place = time.blockTimes[level];
    const known = level === "coarse" ? this.fronts.get(place.at) : undefined;
    const stamps = known ?? this.columns.read([place], from, end);
    if (level === "coarse") this.fronts.set(place.at, stamps);
    return { size, pyramid, times: { kind: "stamped", stamps: stamps as Float64Array } };
  }

  /** Fine bounds by range. What was read last is kept, with as much again around it: the next window is seldom far away. */
  private finer(channel: KeptChannel): (from: number, to: number) => Bounds {
    let last: { readonly from: number; readonly to: number; readonly bounds: Bounds } | null = null;
    return (from, to) => {
      if (last && last.from <= from && to <= last.to) return last.bounds;
      const margin = Math.ceil((to - from) / 2);
      const [low, high] = [Math.max(0, from - margin), to + margin];
      last = { from: low, to: high, bounds: this.boundsOf(channel, "fine", low * fanOut, high * fanOut) };
      return last.bounds;
    };
  }

  private pyramidOf(channel: KeptChannel): Pyramid {
    return (this.bounds?.get(channel.id) ?? this.boundsOf(channel, "fine")).pyramid;
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

interface MeansRule {
  readonly span: Span | undefined;
  readonly block: number;
  /** Told how many samples were read. */
  readonly onRead: (count: number) => void;
}

type Range = readonly [from: number, to: number];
const lengthOf = ([from, to]: Range): number => to - from;

/** What is brought into memory: all, where nothing is said. */
interface Brought {
  readonly span?: Span | undefined;
  readonly ids?: readonly string[];
  /** So many samples as one, their mean. */
  readonly block?: number;
  /** Told how much of the means is made. */
  readonly onShare?: ((share: number) => void) | undefined;
}

function stampsOf(time: Extract<TimeBase, { kind: "even" }>, from: number, to: number): TimeBase {
  const stamps = new Float64Array(to - from);
  for (let i = 0; i < stamps.length; i++) stamps[i] = timeAt(time, from + i);
  return { kind: "stamped", stamps };
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
