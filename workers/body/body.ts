// What a capture in the worker's hands consists of: its samples in memory, or in storage.

import type { Correction } from "../../src/capture/meaning/corrections.ts";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Samples } from "../../src/signal/series/series.ts";
import type { Points, Trace } from "../drawing/window.ts";
import type { ChannelSummary } from "../protocol.ts";

export interface BodyChannel extends Omit<Channel, "series"> {
  /** As recorded, without corrections. */
  readonly facts: Pick<ChannelSummary, "samples" | "rate" | "from" | "to" | "range">;
}

export interface Body extends Omit<Capture, "channels"> {
  readonly channels: readonly BodyChannel[];
  /** The points that draw `span`; see windowOf. */
  window(channelId: string, correction: Correction, span: Span, width: number): Points;
  /** At least `span` of a channel and one sample past each edge, in memory. */
  over(channelId: string, correction: Correction, span: Span): Trace;
  /** All samples, as recorded. */
  capture(): Promise<Capture>;
}

/** Lowest and highest; null for bounds of nothing. */
export const rangeOf = ([low, high]: Float64Array): ChannelSummary["range"] => (low! > high! ? null : [low!, high!]);

/** @returns the same samples where nothing changes, else new ones of the same precision. */
export function corrected(samples: Samples, { gain, offset }: Correction): Samples {
  return gain === 1 && offset === 0 ? samples : samples.map((sample) => sample * gain + offset);
}
