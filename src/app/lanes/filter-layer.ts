// A channel seen through a filter: the filtered line is drawn as the channel's own, what was recorded pale and thin behind it.

import { type Accessor, createMemo } from "solid-js";
import type { ChannelWindow } from "../../../workers/protocol.ts";
import { type Layer, type LineLayer, linesOf } from "../../drawing/layer.ts";
import { filtersOn, filterText } from "../../job/edits/filters.ts";
import type { LaneLook, Readout } from "../../plot/stage/types.ts";
import { refusalOf } from "../../signal/filters/filter.ts";
import type { Ground } from "../core/ground.ts";
import { saysTheSame } from "../core/take.ts";
import { createTraces } from "../core/traces.ts";
import type { LayerKind, Windows } from "./layers.ts";
import { createValuesAt } from "./values-at.ts";

const prefix = "filtered ";
const filteredId = (channelId: string): string => `${prefix}${channelId}`;

/** @param readouts  of the own channels: they say at which instants is read. */
export function createFilterLayer(
  { bench, summary, service, view }: Ground,
  readouts: Accessor<readonly Readout[]>,
): LayerKind {
  const filters = createMemo(() => filtersOn(bench.state()), undefined, { equals: saysTheSame });
  const ids = createMemo(() => Object.keys(filters()).filter((id) => !bench.state().hidden.includes(id)));
  const traces = createTraces(
    (request) => service.window({ ...request, filters: filters() }),
    () => (ids().length > 0 ? summary() : null),
    ids,
    view.view,
  );
  const valuesAt = createValuesAt({
    readouts,
    ask() {
      const capture = summary();
      return capture && ids().length > 0 ? { take: capture.take, ids: ids(), filters: filters() } : null;
    },
    valuesAt: (asked, time) => service.valuesAt(asked.take, asked.ids, time, asked.filters),
    lineOf: filteredId,
  });
  /** Read at another rate since the filter was chosen. */
  const isUnfit = (id: string): boolean => {
    const [filter, channel] = [filters()[id], summary()?.channels.find((one) => one.id === id)];
    return filter !== undefined && refusalOf(filter, 1 / (channel?.rate.value ?? NaN)) !== null;
  };
  return {
    lay(lanes, seen) {
      if (ids().length === 0) return lanes;
      const find = (id: string) => {
        if (seen.windows().has(id)) return "here";
        if (isUnfit(id.slice(prefix.length))) return "unfit";
        return !seen.paper && traces.isPending() ? "coming" : "none";
      };
      return lanes.map((lane) => seenThrough(lane, { filters: filters(), find }));
    },
    windows: () => renamed([...traces.windows().values()]),
    async windowsOver({ span, width }) {
      const capture = summary();
      if (!capture || ids().length === 0) return [];
      return renamed(await service.window({ take: capture.take, channelIds: ids(), filters: filters(), span, width }));
    },
    valuesAt,
    setWidth: traces.setWidth,
  };
}

const renamed = (windows: readonly ChannelWindow[]): Windows =>
  windows.map((window) => ({ ...window, channelId: filteredId(window.channelId) }));

interface SeenThrough {
  readonly filters: ReturnType<typeof filtersOn>;
  /**
   * Whether a line's window is at hand, on its way, or cannot be had: too much in view is not filtered, and neither is a channel
   * of a rate that the filter does not fit.
   */
  find(id: string): "here" | "coming" | "none" | "unfit";
}

/** The filtered line carries name and look; what was recorded says so. Where it cannot be filtered, the key says that. */
export function seenThrough(lane: LaneLook, { filters, find }: SeenThrough): LaneLook {
  if (!linesOf(lane).some(({ channelId }) => filters[channelId])) return lane;
  const { namesTrace: _, ...rest } = lane;
  const layers = lane.layers.flatMap((layer): Layer[] => {
    const filter = layer.form === "line" && layer.source === "own" ? filters[layer.channelId] : undefined;
    if (!filter || layer.form !== "line") return [layer];
    const [id, words] = [filteredId(layer.channelId), filterText(filter)];
    const state = find(id);
    if (state === "none" || state === "unfit") {
      const why = state === "none" ? "too much in view for" : "its rate does not fit";
      return [{ ...layer, label: `${layer.label}: as recorded, ${why} ${words}` }];
    }
    if (state === "coming") return [layer];
    const through: LineLayer = {
      ...layer,
      source: "filter",
      channelId: id,
      label: `${layer.label}: ${words}`,
      tag: "filtered",
    };
    return [through, { ...layer, label: "as recorded", isBehind: true, isThin: true, isUntold: true }];
  });
  return { ...rest, layers };
}
