// The reference as a layer: its channels under those of the suspect that measure the same, told later by the shift.

import { type Accessor, createMemo } from "solid-js";
import type { ChannelWindow } from "../../../workers/protocol.ts";
import { type LineLayer, linesOf } from "../../drawing/layer.ts";
import { extentWithin } from "../../drawing/paths.ts";
import { fitRange } from "../../drawing/scale.ts";
import type { PictureSettings } from "../../job/record/job.ts";
import type { LaneLook, Readout, TraceWindow } from "../../plot/stage/types.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";
import type { Ground } from "../core/ground.ts";
import { createTraces } from "../core/traces.ts";
import { shortName } from "../lanes/lane-looks.ts";
import type { LayerKind, Seen } from "../lanes/layers.ts";
import { createValuesAt } from "../lanes/values-at.ts";
import { type Counterparts, referenceId } from "./counterparts.ts";
import type { Laying } from "./laying.ts";
import type { Reference } from "./reference.ts";

export interface ReferenceRule extends Pick<Laying, "shift" | "settings"> {
  readonly reference: Accessor<Reference | null>;
  readonly counterparts: Accessor<Counterparts>;
  /** What is read out of the suspect. */
  readonly readouts: Accessor<readonly Readout[]>;
}

export function createReferenceLayer({ service, view }: Ground, rule: ReferenceRule): LayerKind {
  const { reference, shift, settings, counterparts, readouts } = rule;
  const by = () => shift()?.shift.value ?? 0;
  const ids = createMemo(() => [...new Set([...counterparts().values()].map(({ id }) => id))]);
  const traces = createTraces(
    (request) => service.window(request),
    () => reference()?.summary ?? null,
    ids,
    () => ({ from: view.view().from - by(), to: view.view().to - by() }),
  );
  const valuesAt = createValuesAt({
    readouts,
    ask() {
      const theirs = reference();
      return theirs && { take: theirs.summary.take, ids: ids(), by: by() };
    },
    valuesAt: (asked, time) => service.valuesAt(asked.take, asked.ids, time - asked.by),
    lineOf: referenceId,
  });
  return {
    lay(lanes, seen) {
      const theirs = reference();
      if (!theirs || !shift()) return lanes;
      return withReference(lanes, { settings: settings(), name: theirs.name, counterparts: counterparts(), seen });
    },
    windows: () => laidAt([...traces.windows().values()], by()),
    async windowsOver({ span, width }) {
      const theirs = reference();
      if (!theirs || !shift()) return [];
      const shifted = { from: span.from - by(), to: span.to - by() };
      const found = await service.window({ take: theirs.summary.take, channelIds: ids(), span: shifted, width });
      return laidAt(found, by());
    },
    valuesAt,
    setWidth: traces.setWidth,
    statements() {
      const [theirs, laid] = [reference(), shift()];
      return theirs && laid ? [whereFrom(theirs, `shifted by ${readingInWords(laid.shift)} (${laid.says})`)] : [];
    },
  };
}

function whereFrom({ kind, isSimulated, name, summary }: Reference, shifted: string): string {
  const what = kind === "job" ? "another recording of this job" : "a known-good trace";
  const simulated = isSimulated ? ", simulated" : "";
  return `Dashed: ${name}, ${what}${simulated}, SHA-256 ${summary.id.slice(0, 12)}…, ${shifted}.`;
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
  readonly counterparts: Counterparts;
  readonly seen: Seen;
}

/** The suspect's lanes with the reference in them, or that of the sensors in a lane below. */
export function withReference(lanes: readonly LaneLook[], rule: UnderRule): readonly LaneLook[] {
  const { settings } = rule;
  return lanes.flatMap((lane): readonly LaneLook[] => {
    const under = linesOf(lane).flatMap((trace) => underTrace(trace, rule));
    if (under.length === 0) return [lane];
    if (settings.place === "behind" || !linesOf(lane).some(({ look }) => look === "rear"))
      return [{ ...lane, layers: [...lane.layers, ...under] }];
    const below = { ...lane, id: referenceId(lane.id), title: "Reference", layers: under, scale: "fit" as const };
    if (settings.scale === "each") return [lane, below];
    const scale = lane.scale === "fit" ? common([...linesOf(lane), ...under], lane.unit, rule.seen) : lane.scale;
    return [
      { ...lane, scale },
      { ...below, scale },
    ];
  });
}

function underTrace({ channelId, look, label }: LineLayer, { counterparts, name }: UnderRule): LineLayer[] {
  const channel = counterparts.get(channelId);
  if (!channel) return [];
  const what = look === "other" ? label : look === "front" ? "Front" : "Rear";
  return [
    {
      form: "line",
      source: "reference",
      channelId: referenceId(channel.id),
      label: `${what}: ${shortName(name)}`,
      unit: channel.unit,
      look,
      polled: channel.polled,
      stroke: "dashed",
      isBehind: true,
      of: name,
      tag: "ref",
    },
  ];
}

function common(traces: readonly LineLayer[], unit: string, { windows, span }: Seen) {
  const { from, to } = span();
  const extents = traces.flatMap(({ channelId }) => {
    const window = windows().get(channelId);
    return (window && extentWithin(window, from, to)) ?? [];
  });
  return fitRange(extents.length > 0 ? [Math.min(...extents), Math.max(...extents)] : null, unit, null);
}
