// How the saved lanes are drawn: names, units and looks of the channels as corrected.

import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import type { Limits } from "../../exhaust/limits.ts";
import { channelInForce } from "../../job/channels.ts";
import type { BenchState, Lane } from "../../job/job.ts";
import { visibleLanes } from "../../job/lanes.ts";
import type { LaneLook, TraceLook } from "../../plot/types.ts";

type Guide = Pick<Limits, "switchLevel">;

export function laneLooks(bench: BenchState, summary: CaptureSummary, limits: Guide): readonly LaneLook[] {
  return visibleLanes(bench).flatMap((lane) => laneLook(lane, bench, summary, limits));
}

/** The bank's front and rear for the overview; without them the first channel shown. */
export function overviewLooks(
  bench: BenchState,
  summary: CaptureSummary,
  ids: readonly string[],
): readonly TraceLook[] {
  return summary.channels.filter((c) => ids.includes(c.id)).map((c) => traceLook(c, bench));
}

function laneLook(lane: Lane, bench: BenchState, summary: CaptureSummary, limits: Guide): LaneLook[] {
  const channels = lane.channelIds.flatMap((id) => summary.channels.find((c) => c.id === id) ?? []);
  const [first] = channels;
  if (!first) return [];
  const sensors = channels.some((c) => c.role === "front-o2" || c.role === "rear-o2");
  return [
    {
      id: lane.id,
      title: sensors ? "Oxygen sensors" : traceLook(first, bench).label,
      unit: first.unit,
      traces: channels.map((c) => traceLook(c, bench)),
      scale: lane.scale,
      share: lane.share,
      guides: sensors ? [limits.switchLevel] : [],
    },
  ];
}

export function traceLook(channel: ChannelSummary, bench: BenchState): TraceLook {
  const { name, role } = channelInForce(bench, channel);
  const look = role === "front-o2" || role === "front-lambda" ? "front" : role === "rear-o2" ? "rear" : "other";
  return { channelId: channel.id, label: name, unit: channel.unit, look, polled: channel.polled };
}
