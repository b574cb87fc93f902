// A capture without its samples: what the page knows of it, as it was read.

import { coveringSpan } from "../../src/exhaust/analyse.ts";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { BodyChannel } from "../body/body.ts";
import type { HeldCapture } from "../held/held-capture.ts";
import type { CaptureSummary, ChannelSummary } from "../protocol.ts";

export function summaryOf(held: HeldCapture): CaptureSummary {
  const channels = held.body.channels.map(channelSummary);
  const { name, format, startedAt, remarks } = held.body;
  const { id, fileSize, warnings } = held;
  const about = { id, take: held.asRead, name, size: fileSize, format, startedAt };
  return { ...about, span: spanOf(channels), channels, remarks, warnings };
}

function spanOf(channels: readonly ChannelSummary[]): Span {
  const filled = channels.filter(({ samples }) => samples > 0);
  if (filled.length === 0) return { from: 0, to: 0 };
  return coveringSpan(Math.min(...filled.map(({ from }) => from)), Math.max(...filled.map(({ to }) => to)));
}

function channelSummary(channel: BodyChannel): ChannelSummary {
  const { id, name, fileUnit, assumedUnit, polled, role, bank, unit, facts } = channel;
  return {
    id,
    name,
    fileUnit,
    ...(assumedUnit === undefined ? {} : { assumedUnit }),
    polled,
    role,
    bank,
    unit,
    ...facts,
  };
}
