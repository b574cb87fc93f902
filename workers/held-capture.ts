// A capture in the worker's hands: as recorded, and as corrected by the user. The recorded samples stay as they are.

import type { Bank, Capture, Channel } from "../src/capture/capture.ts";
import type { Samples, Series } from "../src/signal/series.ts";
import type { Seconds } from "../src/signal/units.ts";
import { longestStepOf } from "./longest-step.ts";
import type { ChannelCorrection } from "./protocol.ts";
import { Pyramid } from "./pyramid.ts";
import type { Trace } from "./window.ts";

export class HeldCapture {
  readonly id: string;
  readonly file: Blob;
  private recorded: Capture;
  private corrections: Readonly<Record<string, ChannelCorrection>> = {};
  private readonly pyramids = new Map<string, Pyramid>();
  private readonly longestSteps = new Map<string, Seconds>();
  private corrected: Capture | null = null;
  bank: Bank;

  constructor(id: string, file: Blob, capture: Capture, bank: Bank = 1) {
    this.id = id;
    this.file = file;
    this.recorded = capture;
    this.bank = bank;
  }

  get capture(): Capture {
    return this.recorded;
  }

  /** More of the same recording: earlier samples are unchanged. */
  grow(capture: Capture): void {
    this.recorded = capture;
    this.corrected = null;
    this.longestSteps.clear();
  }

  /** Roles, units, gains and offsets from now on. Channels that are not named stand as recorded. */
  correct(corrections: Readonly<Record<string, ChannelCorrection>>, bank: Bank): void {
    this.corrections = corrections;
    this.corrected = null;
    this.bank = bank;
  }

  /** The capture as corrected: what is measured. Samples are copied only where a gain or an offset changes them. */
  get view(): Capture {
    this.corrected ??= { ...this.recorded, channels: this.recorded.channels.map((channel) => this.applied(channel)) };
    return this.corrected;
  }

  /** What windows, values and snaps are answered from; undefined for an unknown channel. */
  trace(channelId: string): Trace | undefined {
    const channel = this.recorded.channels.find(({ id }) => id === channelId);
    if (!channel) return undefined;
    const { gain = 1, offset = 0 } = this.corrections[channelId] ?? {};
    return {
      series: channel.series,
      pyramid: this.pyramid(channel),
      longestStep: this.longestStep(channel),
      gain,
      offset,
    };
  }

  private pyramid({ id, series }: Channel): Pyramid {
    const pyramid = this.pyramids.get(id) ?? new Pyramid();
    this.pyramids.set(id, pyramid);
    pyramid.extend(series.samples);
    return pyramid;
  }

  private longestStep({ id, series }: Channel): Seconds {
    const known = this.longestSteps.get(id);
    if (known !== undefined) return known;
    const step = longestStepOf(series.time);
    this.longestSteps.set(id, step);
    return step;
  }

  /** Role, bank and unit in force. */
  labels({ id, role, bank, unit }: Pick<Channel, "id" | "role" | "bank" | "unit">) {
    const correction = this.corrections[id];
    return { role: correction?.role ?? role, bank: correction?.bank ?? bank, unit: correction?.unit ?? unit };
  }

  private applied(channel: Channel): Channel {
    const { gain = 1, offset = 0 } = this.corrections[channel.id] ?? {};
    return { ...channel, ...this.labels(channel), series: scaled(channel.series, gain, offset) };
  }
}

/** @returns the same series where nothing changes, else one with new samples of the same precision. */
export function scaled(series: Series, gain: number, offset: number): Series {
  if (gain === 1 && offset === 0) return series;
  const samples: Samples = series.samples.slice();
  for (let i = 0; i < samples.length; i++) samples[i] = samples[i]! * gain + offset;
  return { ...series, samples };
}
