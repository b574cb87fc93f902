// What a capture in the worker's hands consists of: its samples in memory, or in storage.

import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Samples } from "../../src/signal/series/series.ts";
import type { Points, Trace } from "../drawing/window.ts";
import type { ChannelSummary } from "../protocol.ts";

/** value shown = sample * gain + offset. */
export interface Correction {
  readonly gain: number;
  readonly offset: number;
}

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

/** Lowest and highest of the bounds, corrected; null for bounds of nothing. */
export function correctedRange(bounds: Float64Array, { gain, offset }: Correction): ChannelSummary["range"] {
  if (bounds[0]! > bounds[1]!) return null;
  const one = bounds[0]! * gain + offset;
  const other = bounds[1]! * gain + offset;
  return [Math.min(one, other), Math.max(one, other)];
}

/** @returns the same samples where nothing changes, else new ones of the same precision. */
export function corrected(samples: Samples, { gain, offset }: Correction): Samples {
  return gain === 1 && offset === 0 ? samples : samples.map((sample) => sample * gain + offset);
}
