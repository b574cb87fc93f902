// The reference as drawn: its channels under those of the suspect that measure the same, told later by the shift.

import type { ChannelSummary, ChannelWindow } from "../../../workers/protocol.ts";
import type { Bank } from "../../capture/model/capture.ts";
import { extentWithin } from "../../drawing/paths.ts";
import { fitRange } from "../../drawing/scale.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { PictureSettings } from "../../job/record/job.ts";
import type { Envelope, LaneLook, TraceLook, TraceWindow } from "../../plot/stage/types.ts";
import { shortName } from "../lanes/lane-looks.ts";

/** Ids of the reference's channels and lanes: never those of a recording's own. */
export const referenceId = (channelId: string): string => `reference ${channelId}`;
export const ofReference = (id: string): boolean => id.startsWith("reference ");
export const differenceId = "reference difference";

/** The reference's channel that measures what a trace of the suspect does; null where it has none. */
export function counterpart(
  suspect: ChannelSummary,
  channels: readonly ChannelSummary[],
  banks: { readonly suspect: Bank; readonly reference: Bank },
): ChannelSummary | null {
  if (suspect.role === "other") return null;
  const like = channels.filter((c) => c.role === suspect.role && c.unit === suspect.unit);
  const bank = suspect.bank === banks.suspect ? banks.reference : null;
  return like.find((c) => c.bank === (bank ?? suspect.bank)) ?? (bank === null ? null : (like[0] ?? null));
}

/** Times told later by the shift; the samples are those of the reference. */
export function laidAt(windows: readonly ChannelWindow[], shift: number): readonly TraceWindow[] {
  return windows.map((window) => ({
    ...window,
    channelId: referenceId(window.channelId),
    times: window.times.map((time) => time + shift),
  }));
}

export interface UnderRule {
  readonly settings: PictureSettings;
  readonly name: string;
  /** By channel id of the suspect. */
  readonly counterparts: ReadonlyMap<string, ChannelSummary>;
  readonly windows: ReadonlyMap<string, TraceWindow>;
  readonly view: Span;
  readonly envelopes: readonly Envelope[];
}

/** The suspect's lanes with the reference in or under them, and the lane of the difference where it is wished. */
export function withReference(lanes: readonly LaneLook[], rule: UnderRule): readonly LaneLook[] {
  const { settings, windows } = rule;
  const isSensors = (lane: LaneLook) => lane.traces.some(({ look }) => look === "rear");
  const all = lanes.flatMap((lane): readonly LaneLook[] => {
    const under = lane.traces.flatMap((trace) => underTrace(trace, rule));
    if (under.length === 0) return [lane];
    const envelopes = isSensors(lane) ? { envelopes: rule.envelopes } : {};
    if (settings.place === "behind" || !isSensors(lane))
      return [{ ...lane, traces: [...lane.traces, ...under], ...envelopes }];
    const below = { ...lane, id: referenceId(lane.id), title: "Reference", traces: under, scale: "fit" as const };
    if (settings.scale === "each") return [{ ...lane, ...envelopes }, below];
    const scale = lane.scale === "fit" ? common([...lane.traces, ...under], lane.unit, rule) : lane.scale;
    return [
      { ...lane, scale, ...envelopes },
      { ...below, scale },
    ];
  });
  const sensors = lanes.find(isSensors);
  return settings.difference && sensors && windows.has(differenceId) ? [...all, differenceLane(sensors)] : all;
}

function underTrace(trace: TraceLook, { counterparts, name }: UnderRule): TraceLook[] {
  const channel = counterparts.get(trace.channelId);
  if (!channel) return [];
  const { look } = trace;
  const label = `${look === "other" ? trace.label : look === "front" ? "Front" : "Rear"}: ${shortName(name)}`;
  return [
    { channelId: referenceId(channel.id), label, unit: channel.unit, look, reference: true, polled: channel.polled },
  ];
}

function common(traces: readonly TraceLook[], unit: string, { windows, view }: UnderRule) {
  const extents = traces.flatMap(({ channelId }) => {
    const window = windows.get(channelId);
    return (window && extentWithin(window, view.from, view.to)) ?? [];
  });
  return fitRange(extents.length > 0 ? [Math.min(...extents), Math.max(...extents)] : null, unit, null);
}

const differenceLane = (sensors: LaneLook): LaneLook => ({
  id: differenceId,
  title: "Suspect less reference, rear",
  unit: sensors.unit,
  traces: [{ channelId: differenceId, label: "Difference", unit: sensors.unit, look: "other" }],
  scale: "fit",
  share: 0.6 * sensors.share,
  guides: [0],
});
