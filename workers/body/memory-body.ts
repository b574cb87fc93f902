// A capture whose samples are in memory. It may still be growing.

import type { Correction } from "../../src/capture/meaning/corrections.ts";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf } from "../../src/signal/series/series.ts";
import { longestStepOf } from "../drawing/longest-step.ts";
import { extent } from "../drawing/places.ts";
import { Pyramid } from "../drawing/pyramid.ts";
import { rateOf } from "../drawing/rate.ts";
import { type Points, type Trace, windowOf } from "../drawing/window.ts";
import { type Body, type BodyChannel, rangeOf } from "./body.ts";

const asRecorded: Correction = { gain: 1, offset: 0 };

export class MemoryBody implements Body {
  private recorded: Capture;
  private readonly pyramids: Map<string, { readonly pyramid: Pyramid; readonly of: ArrayBufferLike }>;
  private readonly longestSteps = new Map<string, Seconds>();
  private known: readonly BodyChannel[] | null = null;

  /** @param pyramids of the channels' samples by id, where they are at hand. */
  constructor(capture: Capture, pyramids: ReadonlyMap<string, Pyramid> = new Map()) {
    this.recorded = capture;
    const known = capture.channels.flatMap(({ id, series }) => {
      const pyramid = pyramids.get(id);
      return pyramid ? [[id, { pyramid, of: series.samples.buffer }] as const] : [];
    });
    this.pyramids = new Map(known);
  }

  /** More of the same recording: earlier samples are unchanged. */
  grow(capture: Capture): void {
    this.recorded = capture;
    this.known = null;
  }

  /** All of it. */
  finish(capture: Capture): void {
    this.grow(capture);
    this.longestSteps.clear();
  }

  get name(): string {
    return this.recorded.name;
  }
  get format(): string {
    return this.recorded.format;
  }
  get startedAt(): string | null {
    return this.recorded.startedAt;
  }
  get remarks(): Capture["remarks"] {
    return this.recorded.remarks;
  }
  get channels(): readonly BodyChannel[] {
    this.known ??= this.recorded.channels.map(({ series, ...labels }) => {
      const [from, to] = extent(series.time);
      const facts = {
        samples: countOf(series.time),
        from,
        to,
        rate: rateOf(series.time),
        range: this.range(labels.id),
      };
      return { ...labels, facts };
    });
    return this.known;
  }

  /** Bytes of all columns; one that several channels share counts once. */
  get size(): number {
    const columns = this.recorded.channels.flatMap(({ series: { time, samples } }) =>
      time.kind === "even" ? [samples] : [samples, time.stamps],
    );
    return [...new Set(columns)].reduce((sum, { byteLength }) => sum + byteLength, 0);
  }

  async capture(): Promise<Capture> {
    return this.recorded;
  }

  window(channelId: string, correction: Correction, span: Span, width: number): Points {
    return windowOf(this.trace(channelId, correction), span, width);
  }

  over(channelId: string, correction: Correction): Trace {
    return this.trace(channelId, correction);
  }

  pyramidOf({ id, series }: Channel): Pyramid {
    const of = series.samples.buffer;
    const known = this.pyramids.get(id);
    // Other memory may hold other numbers: a column was moved, widened or converted.
    const pyramid = known?.of === of ? known.pyramid : new Pyramid();
    if (known?.pyramid !== pyramid) this.pyramids.set(id, { pyramid, of });
    pyramid.extend(series.samples);
    return pyramid;
  }

  longestStepOf({ id, series }: Channel): Seconds {
    const known = this.longestSteps.get(id);
    if (known !== undefined) return known;
    const step = longestStepOf(series.time);
    this.longestSteps.set(id, step);
    return step;
  }

  private trace(channelId: string, correction: Correction): Trace {
    const channel = this.recorded.channels.find(({ id }) => id === channelId);
    if (!channel) throw new RangeError(`no channel ${channelId}`);
    const pyramid = this.pyramidOf(channel);
    return { series: channel.series, pyramid, longestStep: this.longestStepOf(channel), ...correction };
  }

  private range(channelId: string): BodyChannel["facts"]["range"] {
    const { series, pyramid } = this.trace(channelId, asRecorded);
    const bounds = new Float64Array(2);
    pyramid.bounds(series.samples, 0, series.samples.length, bounds);
    return rangeOf(bounds);
  }
}
