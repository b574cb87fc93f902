// A capture without its samples: what the page knows of it.

import { coveringSpan } from "../../src/exhaust/analyse.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { type BodyChannel, correctedRange } from "../body/body.ts";
import type { HeldCapture } from "../held/held-capture.ts";
import type { CaptureSummary, ChannelSummary } from "../protocol.ts";

export function summaryOf(held: HeldCapture): CaptureSummary {
  const channels = held.body.channels.map((channel) => channelSummary(held, channel));
  const { name, format, startedAt, remarks } = held.body;
  const { id, fileSize, warnings } = held;
  return { id, name, size: fileSize, format, startedAt, span: spanOf(channels), channels, remarks, warnings };
}

function spanOf(channels: readonly ChannelSummary[]): Span {
  const filled = channels.filter(({ samples }) => samples > 0);
  if (filled.length === 0) return { from: 0, to: 0 };
  return coveringSpan(Math.min(...filled.map(({ from }) => from)), Math.max(...filled.map(({ to }) => to)));
}

function channelSummary(held: HeldCapture, channel: BodyChannel): ChannelSummary {
  const { id, name, fileUnit, polled, facts } = channel;
  const range = facts.range && correctedRange(Float64Array.from(facts.range), held.correction(id));
  return { id, name, fileUnit, polled, ...held.labels(channel), ...facts, range };
}
