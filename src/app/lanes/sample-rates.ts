// How channels were sampled, in words.

import type { ChannelSummary } from "../../../workers/protocol.ts";
import { formatValue } from "../../signal/written/reading-text.ts";

/** "2000 per second", or each rate that is shown: "3.3 per second, polled". */
export function sampleRates(channels: readonly ChannelSummary[]): string {
  const texts = channels.map(({ rate, polled }) => rateText(rate.value) + (polled ? ", polled" : ""));
  return [...new Set(texts)].join("; ");
}

/** Three digits say enough of a rate here. */
const rateText = (rate: number | null): string =>
  rate === null ? "not steady" : `${formatValue(rate, "1")} per second`;
