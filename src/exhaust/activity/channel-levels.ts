// What any channel held over a span: mean, lowest, highest, and how many of the samples that were due hold a value.

import type { AnyChannel } from "../../capture/model/capture.ts";
import { maximumOf, minimumOf } from "../../signal/levels/levels.ts";
import { spanMeanOf } from "../../signal/levels/span-mean.ts";
import { measured, notResolvable, type Reading, type Unit } from "../../signal/numbers/reading.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { extremeMark } from "../sensors/sensor.ts";
import type { ChannelLevels, EvidenceTable, Span } from "../terms/analysis.ts";
import { pieceOf } from "../terms/edges.ts";

export interface LevelsMeasured {
  readonly levels: readonly ChannelLevels[];
  readonly evidence: EvidenceTable;
}

/** Codes and states have neither a mean nor a highest. */
const hasLevels = ({ role }: AnyChannel): boolean => role !== "fuel-status";

/** Of all channels that hold a sample in the span, in file order; each in its own unit. */
export function measureLevels(channels: readonly AnyChannel[], span: Span): LevelsMeasured {
  const found = channels.filter(hasLevels).map((channel) => levelsOf(channel, span));
  return {
    levels: found.flatMap((one) => (one ? [one.levels] : [])),
    evidence: Object.assign({}, ...found.map((one) => one?.evidence)),
  };
}

function levelsOf(channel: AnyChannel, span: Span) {
  const piece = pieceOf(channel, span);
  if (!piece) return null;
  const { series, noise } = piece;
  // A unit outside the set of the readings passes through as the file names it.
  const unit = channel.unit as Unit;
  const [minimum, maximum] = [minimumOf(series, { noise, unit }), maximumOf(series, { noise, unit })];
  const held = heldOf(minimum.count ?? 0, span, usualStep(channel.series.time));
  const levels: ChannelLevels = {
    channelId: channel.id,
    mean: spanMeanOf(series, { ...span, noise, unit }),
    minimum,
    maximum,
    held,
  };
  const behind = (sign: 1 | -1) => {
    const marks = extremeMark(piece, sign);
    return { span, levels: [], marks, count: marks.length };
  };
  const evidence: EvidenceTable = {
    [`channel.minimum.${channel.id}`]: behind(-1),
    [`channel.maximum.${channel.id}`]: behind(1),
  };
  return { levels, evidence };
}

/** Of the samples that are due in a span at the channel's usual step; how the span falls between them leaves one either way. */
function heldOf(count: number, { from, to }: Span, step: number): Reading {
  const due = (to - from) / step;
  if (!(due >= 1)) return notResolvable("%", "The span is shorter than a step between samples.", { count });
  const share = (samples: number) => Math.min(100, Math.max(0, (100 * samples) / due));
  return measured(share(count), [share(count - 1), share(count + 1)], "%", { count });
}
