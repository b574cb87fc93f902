// A capture without its samples: what the page knows of it.

import type { Channel, Remark } from "../src/capture/capture.ts";
import type { Span } from "../src/exhaust/analysis.ts";
import { measured, notResolvable, type Reading } from "../src/signal/reading.ts";
import { countOf, type TimeBase } from "../src/signal/series.ts";
import type { HeldCapture } from "./held-capture.ts";
import { extent } from "./places.ts";
import type { CaptureSummary, ChannelSummary } from "./protocol.ts";

/** @param warnings about the recording as corrected. */
export function summaryOf(held: HeldCapture, warnings: readonly Remark[]): CaptureSummary {
  const channels = held.capture.channels.map((channel) => channelSummary(held, channel));
  const { name, format, startedAt, remarks } = held.capture;
  const { id, file } = held;
  return { id, name, size: file.size, format, startedAt, span: spanOf(channels), channels, remarks, warnings };
}

function spanOf(channels: readonly ChannelSummary[]): Span {
  const filled = channels.filter(({ samples }) => samples > 0);
  if (filled.length === 0) return { from: 0, to: 0 };
  return { from: Math.min(...filled.map(({ from }) => from)), to: Math.max(...filled.map(({ to }) => to)) };
}

function channelSummary(held: HeldCapture, { series, ...channel }: Channel): ChannelSummary {
  const { role, bank, unit } = held.labels(channel);
  const [from, to] = extent(series.time);
  return {
    ...channel,
    role,
    bank,
    unit,
    samples: countOf(series.time),
    rate: rateOf(series.time),
    from,
    to,
    range: rangeOf(held, channel.id),
  };
}

function rangeOf(held: HeldCapture, channelId: string): ChannelSummary["range"] {
  const { series, pyramid, gain, offset } = held.trace(channelId)!;
  const bounds = new Float64Array(2);
  pyramid.bounds(series.samples, 0, series.samples.length, bounds);
  if (bounds[0]! > bounds[1]!) return null;
  const one = bounds[0]! * gain + offset;
  const other = bounds[1]! * gain + offset;
  return [Math.min(one, other), Math.max(one, other)];
}

/** Samples per second over the whole channel; stamps that jitter widen nothing: it is their mean. */
function rateOf(time: TimeBase): Reading {
  if (time.kind === "even") return measured(1 / time.step, [1 / time.step, 1 / time.step], "Hz", { count: time.count });
  const [from, to] = extent(time);
  const steps = time.stamps.length - 1;
  if (steps < 1 || !(to > from)) return notResolvable("Hz", "A rate takes two samples.");
  const rate = steps / (to - from);
  return measured(rate, [rate, rate], "Hz", { count: time.stamps.length });
}
