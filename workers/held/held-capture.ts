// A capture in the worker's hands, as corrected by the user. What was recorded stays as it is.

import { conversionOf } from "../../src/capture/meaning/quantities.ts";
import type { Bank, Capture, Channel, Remark } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Problem } from "../../src/problem.ts";
import { blockFor } from "../../src/signal/series/block-means.ts";
import { type Body, type Correction, corrected } from "../body/body.ts";
import { MemoryBody } from "../body/memory-body.ts";
import type { Points, Trace } from "../drawing/window.ts";
import type { ChannelCorrection, Means } from "../protocol.ts";
import type { KeptFile } from "../store/capture-store.ts";
import { KeptBody } from "./kept-body.ts";

const none: ChannelCorrection = { gain: 1, offset: 0 };

/** What makes samples read in unit `was` the samples they are when read in unit `is`. */
function rereading(was: string, is: string): Correction {
  const [from, to] = [conversionOf(was), conversionOf(is)];
  return {
    gain: ((from.over / from.times) * to.times) / to.over,
    offset: ((from.zero - to.zero) * to.times) / to.over,
  };
}

/** Bytes. */
export const usualRoom = 1.5 * 2 ** 30;

export interface Held {
  readonly id: string;
  /** The bytes that were opened; null where storage had no room for them. */
  readonly file: Blob | null;
  /** Bytes of the file, where it is not at hand. */
  readonly fileSize?: number;
  readonly body: Body;
  readonly choices: ReadChoices;
  readonly warnings?: readonly Remark[];
  /** See `Engine.room`. */
  readonly room?: number | undefined;
}

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
/** Bytes. */
const small = 32 * 2 ** 20;

export class HeldCapture {
  readonly id: string;
  readonly file: Blob | null;
  readonly fileSize: number;
  readonly choices: ReadChoices;
  body: Body;
  bank: Bank;
  warnings: readonly Remark[];
  /** Columns up to this size are held in memory; of larger ones, the part that is asked for. Bytes. */
  private readonly room: number;
  /** Settles when storage holds the capture: null, or why it does not. */
  keeping: Promise<Problem | null> = Promise.resolve(null);
  private corrections: Readonly<Record<string, ChannelCorrection>> = {};
  /** The whole capture as corrected, once something asked for it. */
  private whole: Promise<Capture> | null = null;
  private readonly leaving = new AbortController();

  constructor({ id, file, fileSize = file?.size ?? 0, body, choices, warnings = [], room = usualRoom }: Held) {
    this.warnings = warnings;
    this.id = id;
    this.file = file;
    this.fileSize = fileSize;
    this.body = body;
    this.choices = choices;
    this.room = room;
    this.bank = choices.bank ?? 1;
  }

  /** Roles, units, gains and offsets from now on. Channels that are not named stand as recorded. */
  correct(corrections: Readonly<Record<string, ChannelCorrection>>, bank: Bank): void {
    this.corrections = corrections;
    this.bank = bank;
    this.whole = null;
  }

  has(channelId: string): boolean {
    return this.body.channels.some(({ id }) => id === channelId);
  }

  /** Gain and offset in force, the unit's included where the user says another than the one it was read in. */
  correction(channelId: string): Correction {
    const { gain, offset, unit } = this.corrections[channelId] ?? none;
    const channel = this.body.channels.find(({ id }) => id === channelId);
    if (unit === undefined || !channel) return { gain, offset };
    const reread = rereading(channel.assumedUnit ?? channel.fileUnit, unit);
    return { gain: reread.gain * gain, offset: reread.offset * gain + offset };
  }

  /** Role, bank and unit in force. */
  labels({ id, role, bank, unit }: Pick<Channel, "id" | "role" | "bank" | "unit">) {
    const { role: newRole, bank: newBank, unit: newUnit } = this.corrections[id] ?? none;
    return {
      role: newRole ?? role,
      bank: newBank ?? bank,
      unit: newUnit === undefined ? unit : conversionOf(newUnit).unit,
    };
  }

  window(channelId: string, span: Span, width: number): Points {
    return this.body.window(channelId, this.correction(channelId), span, width);
  }

  over(channelId: string, span: Span): Trace {
    return this.body.over(channelId, this.correction(channelId), span);
  }

  /** True while all samples are in memory. */
  get isInMemory(): boolean {
    return !(this.body instanceof KeptBody);
  }

  /** True when it takes no time worth mentioning to bring all samples into memory. */
  get isSmall(): boolean {
    return this.body instanceof KeptBody && this.body.size <= Math.min(small, this.room);
  }

  /**
   * The capture as corrected: what is measured. Samples are copied only where a gain or an offset changes them.
   *
   * @returns at least what is wanted; means over `blockOver` samples where memory has no room for that.
   */
  async view(wanted: Wanted = {}): Promise<Capture> {
    const { body } = this;
    if (body instanceof KeptBody && body.size > this.room) {
      const ids = this.wantedOf(wanted);
      const { span, onShare } = wanted;
      return this.applied(await body.capture({ span, ids, block: this.blockOver(wanted), onShare }));
    }
    if (body instanceof KeptBody) await this.load(body);
    this.whole ??= this.body.capture().then((capture) => this.applied(capture));
    return this.whole;
  }

  /** Samples that are brought into memory as one, their mean; 1: each is. */
  blockOver(wanted: Wanted = {}): number {
    const { body } = this;
    if (!(body instanceof KeptBody) || body.size <= this.room) return 1;
    const bytes = body.bytesOver(wanted.span, this.wantedOf(wanted));
    return bytes <= this.room ? 1 : blockFor(bytes, this.room / 4);
  }

  /** The same, for people; null where each sample is itself. */
  meansOver(wanted: Wanted): Means | null {
    const samples = this.blockOver(wanted);
    if (samples === 1) return null;
    const ids = this.wantedOf(wanted);
    const rates = this.body.channels
      .filter(({ id }) => ids.includes(id))
      .flatMap(({ facts }) => facts.rate.value ?? []);
    return { samples, long: samples / Math.min(...rates) };
  }

  /** What is needed to measure a span of it where it is stored; null where its samples are, or may as well be, in memory. */
  stored(wanted: Wanted): StoredChannels | null {
    const { body, id } = this;
    if (!(body instanceof KeptBody) || body.size <= this.room) return null;
    const ids = this.wantedOf(wanted);
    if (body.bytesOver(wanted.span, ids) <= Math.min(small, this.room)) return null;
    const channels = body.channels
      .filter((channel) => ids.includes(channel.id))
      .map(({ facts: _, ...channel }) => ({
        ...channel,
        ...this.labels(channel),
        correction: this.correction(channel.id),
      }));
    return { id, channels };
  }

  private wantedOf({ channels = () => true }: Wanted): string[] {
    return this.body.channels
      .filter((channel) => channels({ ...channel, ...this.labels(channel) }))
      .map(({ id }) => id);
  }

  /** True while memory holds more samples than it should. */
  get isTooLarge(): boolean {
    return this.body instanceof MemoryBody && this.body.size > this.room;
  }

  /** Lets go of the samples, which storage holds as well. */
  page(kept: KeptFile): void {
    this.body = new KeptBody(kept);
    this.whole = null;
    if (this.left.aborted) kept.handle.close();
  }

  /** Ends what is under way for this capture. */
  leave(): void {
    this.leaving.abort();
    if (this.body instanceof KeptBody) this.body.close();
  }

  get left(): AbortSignal {
    return this.leaving.signal;
  }

  private loading: Promise<void> | null = null;

  private load(body: KeptBody): Promise<void> {
    this.loading ??= body.inMemory().then((inMemory) => {
      this.body = inMemory;
      body.close();
    });
    return this.loading;
  }

  private applied(capture: Capture): Capture {
    const channels = capture.channels.map((channel): Channel => {
      const samples = corrected(channel.series.samples, this.correction(channel.id));
      return { ...channel, ...this.labels(channel), series: { ...channel.series, samples } };
    });
    return { ...capture, channels };
  }
}
