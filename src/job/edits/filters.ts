// Edits of what channels are looked at through, and how a filter is told: in the lane, on paper, at what was read through it.

import type { Filter } from "../../signal/filters/filter.ts";
import { formatExact, withUnit } from "../../signal/written/digits.ts";
import type { BenchState, Dimension } from "../record/job.ts";
import { setChannel, settingsOf } from "./channels.ts";
import type { DimensionDraft } from "./dimensions.ts";

/** By channel; none for those that are shown as recorded. */
export function filtersOn({ channels }: Pick<BenchState, "channels">): Readonly<Record<string, Filter>> {
  return Object.fromEntries(Object.entries(channels).flatMap(([id, { filter }]) => (filter ? [[id, filter]] : [])));
}

/** @param filter  null: as recorded. */
export function setFilter(bench: BenchState, channelId: string, filter: Filter | null): BenchState {
  if (filter) return setChannel(bench, channelId, { filter });
  const { filter: _, ...settings } = settingsOf(bench, channelId);
  return { ...bench, channels: { ...bench.channels, [channelId]: settings } };
}

/** "median, spikes up to 2 ms out" */
export function filterText(filter: Filter): string {
  return filter.kind === "median"
    ? `median, spikes up to ${withUnit(formatExact(1000 * filter.spikes), "ms")} out`
    : `low-pass ${withUnit(formatExact(filter.cutoff), "Hz")}`;
}

export interface LaneSeen {
  /** Channels shown in the lane where the pair stands. */
  readonly ids: readonly string[];
  readonly filters: Readonly<Record<string, Filter>>;
  nameOf(channelId: string): string;
}

/**
 * What a pair was taken through: an end that was snapped through the filter of its channel then, one set by hand through
 * whatever its lane is seen through.
 *
 * @returns "" where it was taken of what was recorded.
 */
export function throughText({ from, to }: DimensionDraft, { ids, filters, nameOf }: LaneSeen): string {
  const byHand = ids.flatMap((id) => (filters[id] ? [`${nameOf(id)}: ${filterText(filters[id])}`] : []));
  const taken = [from, to].flatMap(({ snap }) => {
    if (!snap) return byHand;
    return snap.through ? [`${nameOf(snap.channelId)}: ${filterText(snap.through)}`] : [];
  });
  return taken.length === 0 ? "" : `through ${[...new Set(taken)].join("; ")}`;
}

/** As it is drawn: what it was taken through stands with its label. */
export function asShown<D extends Pick<Dimension, "label" | "through">>(dimension: D): D {
  const { label, through } = dimension;
  return through ? { ...dimension, label: [label, through].filter((text) => text !== "").join(", ") } : dimension;
}
