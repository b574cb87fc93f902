// How the saved lanes are drawn: names, units and looks of the channels as corrected.

import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import type { LineLayer } from "../../drawing/layer.ts";
import type { Limits } from "../../exhaust/terms/limits.ts";
import { channelInForce } from "../../job/edits/channels.ts";
import { visibleLanes } from "../../job/edits/lanes.ts";
import type { BenchState, Lane } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { CompanionView } from "../core/companions.ts";

type Guide = Pick<Limits, "switchLevel">;

/** Room for a companion's name in a lane's title. */
const titleLetters = 34;

/** The recordings whose channels a bench's lanes hold. */
export interface OnBench {
  readonly summary: CaptureSummary;
  readonly companions: readonly CompanionView[];
}

export function laneLooks(bench: BenchState, { summary, companions }: OnBench, limits: Guide): readonly LaneLook[] {
  const own = summary.channels.map((channel): Drawn => ({ channel, trace: traceLook(channel, bench), from: null }));
  const theirs = companions.flatMap(companionTraces);
  const all = new Map([...own, ...theirs].map((drawn) => [drawn.channel.id, drawn]));
  return visibleLanes(bench).flatMap((lane) => laneLook(lane, all, limits));
}

/** A channel as drawn, and the name of the companion that holds it. */
interface Drawn {
  readonly channel: ChannelSummary;
  readonly trace: LineLayer;
  readonly from: string | null;
}

/** Named as on their own bench; where they came from is told with the lane, or with each where a lane holds several. */
function companionTraces({ channels, summary, record }: CompanionView): readonly Drawn[] {
  return channels.map((channel, i) => {
    const { channelId: _, ...look } = traceLook(summary!.channels[i]!, record.bench);
    return { channel, trace: { ...look, channelId: channel.id }, from: record.fileName };
  });
}

/** The bank's front and rear for the overview; without them the first channel shown. */
export function overviewLooks(
  bench: BenchState,
  summary: CaptureSummary,
  ids: readonly string[],
): readonly LineLayer[] {
  return summary.channels.filter((c) => ids.includes(c.id)).map((c) => traceLook(c, bench));
}

function laneLook(lane: Lane, all: ReadonlyMap<string, Drawn>, limits: Guide): LaneLook[] {
  const drawn = lane.channelIds.flatMap((id) => all.get(id) ?? []);
  const [first] = drawn;
  if (!first) return [];
  const sensors = drawn.some(({ channel: { role } }) => role === "front-o2" || role === "rear-o2");
  const title = sensors ? "Oxygen sensors" : first.trace.label;
  const isMixed = drawn.some(({ from }) => from !== first.from);
  const named = ({ trace, from }: Drawn): LineLayer =>
    isMixed && from !== null
      ? { ...trace, source: "companion", label: `${trace.label}: ${shortName(from)}`, stroke: "dotted" }
      : trace;
  const titled = isMixed || first.from === null ? title : `${title}: ${shortName(first.from, titleLetters)}`;
  const isNamed = drawn.length === 1 && !sensors;
  return [
    {
      id: lane.id,
      title: titled,
      unit: first.channel.unit,
      namesTrace: isNamed,
      ...(!isMixed && first.from !== null ? { isOfAnother: true } : {}),
      layers: isNamed ? [{ ...first.trace, label: titled }] : drawn.map(named),
      scale: lane.scale,
      share: lane.share,
      guides: sensors ? [limits.switchLevel] : [],
    },
  ];
}

export function traceLook(channel: ChannelSummary, bench: BenchState): LineLayer {
  const { name, role } = channelInForce(bench, channel);
  const look = role === "front-o2" || role === "front-lambda" ? "front" : role === "rear-o2" ? "rear" : "other";
  const label = channel.range === null ? `${name}: no data` : name;
  return {
    form: "line",
    source: "own",
    channelId: channel.id,
    label,
    unit: channel.unit,
    look,
    polled: channel.polled,
  };
}

/** A lane's legend has room for so many letters. */
const mostLetters = 20;
export const shortName = (name: string, most = mostLetters) =>
  name.length > most ? `${name.slice(0, most - 1).trimEnd()}…` : name;
