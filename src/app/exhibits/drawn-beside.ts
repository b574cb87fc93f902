// Recordings beside the one on the bench of which something is drawn: each with the channels that are.

import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import { bandsOf, linesOf } from "../../drawing/layer.ts";
import { companionChannel } from "../../job/edits/companions.ts";
import type { BenchState } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import { usualSource } from "../comparing/band.ts";
import type { Comparing } from "../comparing/comparing.ts";
import { referenceId } from "../comparing/counterparts.ts";
import type { Reference } from "../comparing/reference.ts";
import type { Ground } from "../core/ground.ts";

export interface DrawnBeside {
  readonly name: string;
  /** As it was read and corrected when it was drawn. */
  readonly take: CaptureSummary["take"];
  /** What its record says of its bytes, where it is of this job. */
  readonly sha256?: string;
  /** Under the ids of its own recording. */
  readonly channels: readonly ChannelSummary[];
  /** What a hand changed of its events, where that counts for what is drawn. */
  readonly edits?: Pick<BenchState, "liftOffEdits" | "stretchEdits">;
}

type Shown = Pick<Ground, "companions" | "desk"> & { readonly comparing: Pick<Comparing, "reference" | "band"> };

/** Companions, the reference and the members of the usual band, where a line or band of theirs is on these lanes. */
export function drawnBeside(
  { companions, desk, comparing }: Shown,
  lanes: readonly LaneLook[],
): readonly DrawnBeside[] {
  const drawn = new Set(lanes.flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  const theirs = companions.list().flatMap(({ captureId, record, summary }): DrawnBeside[] => {
    const channels = summary?.channels.filter(({ id }) => drawn.has(companionChannel(captureId, id))) ?? [];
    return summary ? [{ name: record.fileName, take: summary.take, sha256: record.sha256, channels }] : [];
  });
  const isBanded = lanes.some((lane) => bandsOf(lane).some(({ source }) => source === usualSource));
  const compared = [comparing.reference() ?? [], isBanded ? comparing.band.members() : []].flat().map((one) => {
    const isDrawn = ({ id, role, bank }: ChannelSummary) =>
      drawn.has(referenceId(id)) ||
      (isBanded && bank === one.comparable.bank && (role === "front-o2" || role === "rear-o2"));
    return ofReference(one, one.summary.channels.filter(isDrawn));
  });
  return [...theirs, ...compared].filter(({ channels }) => channels.length > 0);

  function ofReference({ kind, name, summary: { take } }: Reference, channels: readonly ChannelSummary[]): DrawnBeside {
    const record = kind === "job" ? desk.job().captures.find(({ id }) => id === take.captureId) : undefined;
    return { name, take, channels, ...(record ? { sha256: record.sha256, edits: record.bench } : {}) };
  }
}
