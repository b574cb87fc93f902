// The reference's channels beside those of the suspect that measure the same, and the names they go by on the bench.

import { type Accessor, createMemo } from "solid-js";
import type { ChannelSummary } from "../../../workers/protocol.ts";
import type { Bank } from "../../capture/model/capture.ts";
import type { Ground } from "../core/ground.ts";
import type { Reference } from "./reference.ts";

/** Ids of the reference's channels and lanes: never those of a recording's own. */
export const referenceId = (channelId: string): string => `reference ${channelId}`;

/** By channel id of the suspect: the reference's channel that measures the same. */
export type Counterparts = ReadonlyMap<string, ChannelSummary>;

/** The reference's channel that measures what a trace of the suspect does; null where it has none. */
function counterpart(
  suspect: ChannelSummary,
  channels: readonly ChannelSummary[],
  banks: { readonly suspect: Bank; readonly reference: Bank },
): ChannelSummary | null {
  if (suspect.role === "other") return null;
  const like = channels.filter((c) => c.role === suspect.role && c.unit === suspect.unit);
  const bank = suspect.bank === banks.suspect ? banks.reference : null;
  return like.find((c) => c.bank === (bank ?? suspect.bank)) ?? (bank === null ? null : (like[0] ?? null));
}

export function createCounterparts(
  { summary, bench }: Ground,
  reference: Accessor<Reference | null>,
): Accessor<Counterparts> {
  return createMemo(() => {
    const [capture, theirs] = [summary(), reference()];
    if (!capture || !theirs) return new Map();
    const banks = { suspect: bench.state().bank, reference: theirs.comparable.bank };
    return new Map(
      capture.channels.flatMap((channel) => {
        const other = counterpart(channel, theirs.summary.channels, banks);
        return other ? [[channel.id, other] as const] : [];
      }),
    );
  });
}
