// A capture as corrected by the user. What was recorded stays as it is.

import { type Correction, correctionIn, labelsIn } from "../../src/capture/meaning/corrections.ts";
import type { Bank, Capture, Channel } from "../../src/capture/model/capture.ts";
import type { Take } from "../../src/capture/model/take.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { blockFor } from "../../src/signal/series/block-means.ts";
import type { AnySeries } from "../../src/signal/series/series.ts";
import { type Body, corrected } from "../body/body.ts";
import type { Points, Trace } from "../drawing/window.ts";
import type { ChannelSummary, Means } from "../protocol.ts";
import { KeptBody } from "./kept-body.ts";

/** Channels of a kept capture, and what makes them what they are now. */
export interface StoredChannels {
  readonly id: string;
  readonly channels: readonly (Omit<Channel, "series"> & { readonly correction: Correction })[];
}

/** What is wanted of a capture that is too large for memory; all of it where nothing is said. */
export interface Wanted {
  readonly span?: Span;
  readonly channels?: (channel: Pick<Channel, "id" | "role" | "name">) => boolean;
  /** Told how much of the means is made, where means must do. */
  readonly onShare?: (share: number) => void;
}

/** What it is taken from. */
interface Recorded {
  readonly id: string;
  readonly body: Body;
  readonly room: number;
  inMemory(): Promise<Capture>;
}

export class TakenCapture {
  readonly bank: Bank;
  private readonly from: Recorded;
  private readonly corrections: Take["corrections"];
  /** All of it as corrected, once something asked for it. */
  private whole: Promise<Capture> | null = null;

  constructor(from: Recorded, { corrections, bank }: Take) {
    this.from = from;
    this.corrections = corrections;
    this.bank = bank;
  }

  has(channelId: string): boolean {
    return this.from.body.channels.some(({ id }) => id === channelId);
  }

  window(channelId: string, span: Span, width: number): Points {
    return this.from.body.window(channelId, this.correction(channelId), span, width);
  }

  /** Of all its samples as recorded. */
  factsOf(channelId: string): Pick<ChannelSummary, "samples" | "from" | "to"> {
    return this.from.body.channels.find(({ id }) => id === channelId)!.facts;
  }

  over(channelId: string, span: Span): Trace {
    return this.from.body.over(channelId, this.correction(channelId), span);
  }

  /** Whether a span holds all that was recorded. */
  isAll({ from, to }: Span): boolean {
    return this.from.body.channels.every(({ facts }) => facts.samples === 0 || (from <= facts.from && to > facts.to));
  }

  /** Last stamp of a channel; null where there is no such channel. */
  endOf(channelId: string): number | null {
    return this.from.body.channels.find(({ id }) => id === channelId)?.facts.to ?? null;
  }

  /**
   * The capture as corrected: what is measured. Samples are copied only where a gain or an offset changes them.
   *
   * @returns at least what is wanted; means over `blockOver` samples where memory has no room for that.
   */
  async view(wanted: Wanted = {}): Promise<Capture> {
    const { body, room } = this.from;
    if (body instanceof KeptBody && body.size > room) {
      const ids = this.wantedOf(wanted);
      const { span, onShare } = wanted;
      return this.applied(await body.capture({ span, ids, block: this.blockOver(wanted), onShare }));
    }
    this.whole ??= this.from.inMemory().then((capture) => this.applied(capture));
    return this.whole;
  }

  /** The channels of these ids as corrected; read part by part where memory has no room for the recording. */
  async series(ids: readonly string[]): Promise<readonly (Omit<Channel, "series"> & { series: AnySeries })[]> {
    const { body, room } = this.from;
    const isAsked = ({ id }: { readonly id: string }) => ids.includes(id);
    if (!(body instanceof KeptBody) || body.size <= room) return (await this.view()).channels.filter(isAsked);
    return body.channels.filter(isAsked).map(({ facts: _, ...channel }) => ({
      ...channel,
      ...labelsIn(this.corrections, channel),
      series: body.reel(channel.id, this.correction(channel.id)),
    }));
  }

  /** Samples that are brought into memory as one, their mean; 1: each is. */
  blockOver(wanted: Wanted = {}): number {
    const { body, room } = this.from;
    if (!(body instanceof KeptBody) || body.size <= room) return 1;
    const bytes = body.bytesOver(wanted.span, this.wantedOf(wanted));
    return bytes <= room ? 1 : blockFor(bytes, room / 4);
  }

  /** The same, for people; null where each sample is itself. */
  meansOver(wanted: Wanted): Means | null {
    const samples = this.blockOver(wanted);
    if (samples === 1) return null;
    const ids = this.wantedOf(wanted);
    const rates = this.from.body.channels
      .filter(({ id }) => ids.includes(id))
      .flatMap(({ facts }) => facts.rate.value ?? []);
    return { samples, long: samples / Math.min(...rates) };
  }

  /** What is needed to measure a span of it where it is stored; null where its samples are, or may as well be, in memory. */
  stored(wanted: Wanted): StoredChannels | null {
    const { body, room, id } = this.from;
    if (!(body instanceof KeptBody) || body.size <= room) return null;
    const ids = this.wantedOf(wanted);
    if (body.bytesOver(wanted.span, ids) <= Math.min(fewBytes, room)) return null;
    const channels = body.channels
      .filter((channel) => ids.includes(channel.id))
      .map(({ facts: _, ...channel }) => ({
        ...channel,
        ...labelsIn(this.corrections, channel),
        correction: this.correction(channel.id),
      }));
    return { id, channels };
  }

  private correction(channelId: string): Correction {
    const channel = this.from.body.channels.find(({ id }) => id === channelId);
    return channel ? correctionIn(this.corrections, channel) : { gain: 1, offset: 0 };
  }

  private wantedOf({ channels = () => true }: Wanted): string[] {
    return this.from.body.channels
      .filter((channel) => channels({ ...channel, ...labelsIn(this.corrections, channel) }))
      .map(({ id }) => id);
  }

  private applied(capture: Capture): Capture {
    const channels = capture.channels.map((channel): Channel => {
      const samples = corrected(channel.series.samples, this.correction(channel.id));
      return { ...channel, ...labelsIn(this.corrections, channel), series: { ...channel.series, samples } };
    });
    return { ...capture, channels };
  }
}

/** Bytes of a span that may as well be brought into memory. */
const fewBytes = 32 * 2 ** 20;
