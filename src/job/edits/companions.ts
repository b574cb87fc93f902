// Other recordings of the same run on a bench's time axis: put there, shifted, taken away. No sample is moved or made.

import type { Shift } from "../../exhaust/lining-up/line-up.ts";
import type { Anchor, BenchState, Companion, Dimension, Lane } from "../record/job.ts";

const mark = "companion ";

/** How a companion's channel is named on a bench: never as one of the recording's own. */
export const companionChannel = (captureId: string, channelId: string): string => `${mark}${captureId} ${channelId}`;

export const isCompanionChannel = (id: string): boolean => id.startsWith(mark);

/** Null for a channel of the recording's own. */
export function companionOf(id: string): { readonly captureId: string; readonly channelId: string } | null {
  if (!isCompanionChannel(id)) return null;
  const at = id.indexOf(" ", mark.length);
  return { captureId: id.slice(mark.length, at), channelId: id.slice(at + 1) };
}

/** As the other recording's own bench shows it. */
export interface CompanionLanes {
  readonly lanes: readonly Lane[];
  readonly hidden: readonly string[];
}

/** More lanes of a companion than this would leave none readable; the others wait in the channel list. */
const lanesShown = 2;

/** Puts another recording below what is on the bench, in lanes like those of its own; unchanged where it is there. */
export function addCompanion(bench: BenchState, companion: Companion, theirs: CompanionLanes): BenchState {
  const { captureId } = companion;
  if (bench.companions?.some((one) => one.captureId === captureId)) return bench;
  const name = (id: string) => companionChannel(captureId, id);
  const own = theirs.lanes.map((lane) => ({
    ...lane,
    channelIds: lane.channelIds.filter((id) => !isCompanionChannel(id)),
  }));
  const lanes = own
    .filter((lane) => lane.channelIds.length > 0)
    .map((lane): Lane => ({ ...lane, id: name(lane.id), channelIds: lane.channelIds.map(name), scale: "fit" }));
  const shown = lanes.filter((lane) => lane.channelIds.some((id) => !theirs.hidden.map(name).includes(id)));
  const late = shown.slice(lanesShown).flatMap((lane) => lane.channelIds);
  return {
    ...bench,
    companions: [...(bench.companions ?? []), companion],
    lanes: [...bench.lanes, ...lanes],
    hidden: [...bench.hidden, ...theirs.hidden.filter((id) => !isCompanionChannel(id)).map(name), ...late],
  };
}

/** Takes it away, its lanes and what was pinned to them with it; an end snapped to its trace stays where it stands. */
export function removeCompanion(bench: BenchState, captureId: string): BenchState {
  if (!bench.companions?.some((one) => one.captureId === captureId)) return bench;
  const isTheirs = (id: string) => companionOf(id)?.captureId === captureId;
  const lanes = bench.lanes
    .map((lane) => ({ ...lane, channelIds: lane.channelIds.filter((id) => !isTheirs(id)) }))
    .filter((lane) => lane.channelIds.length > 0);
  const there = new Set(lanes.map(({ id }) => id));
  const loose = (anchor: Anchor): Anchor =>
    anchor.snap && isTheirs(anchor.snap.channelId) ? { time: anchor.time, level: anchor.level } : anchor;
  const kept = (all: readonly Dimension[]) =>
    all.filter((d) => there.has(d.laneId)).map((d) => ({ ...d, from: loose(d.from), to: loose(d.to) }));
  const { companions, ...rest } = bench;
  const others = companions.filter((one) => one.captureId !== captureId);
  return {
    ...rest,
    ...(others.length === 0 ? {} : { companions: others }),
    lanes,
    hidden: bench.hidden.filter((id) => !isTheirs(id)),
    cursors: kept(bench.cursors),
    dimensions: kept(bench.dimensions),
  };
}

/** What stands on the companion's traces goes with them; the dimensions' readings are left to be read again. */
export function shiftCompanion(bench: BenchState, captureId: string, shift: Shift): BenchState {
  const before = bench.companions?.find((one) => one.captureId === captureId);
  if (!before) return bench;
  const by = (shift.shift.value ?? 0) - (before.shift.shift.value ?? 0);
  const moved = (all: readonly Dimension[]) =>
    all.map((d) => {
      const whole = ownersIn(bench, d.laneId).every((owner) => owner === captureId);
      const end = (anchor: Anchor) => (whole || ownerOf(bench, d, anchor) === captureId ? later(anchor, by) : anchor);
      const place = whole && d.kind === "level" ? d.place + by : d.place;
      return { ...d, from: end(d.from), to: end(d.to), place };
    });
  return {
    ...bench,
    companions: bench.companions!.map((one) => (one.captureId === captureId ? { captureId, shift } : one)),
    cursors: moved(bench.cursors),
    dimensions: moved(bench.dimensions),
  };
}

function later(anchor: Anchor, by: number): Anchor {
  const { snap, ...spot } = anchor;
  const time = spot.time + by;
  return snap ? { ...spot, time, snap: { ...snap, low: snap.low + by, high: snap.high + by } } : { ...spot, time };
}

/** Which recordings a lane holds: "own", or a companion's capture id. */
function ownersIn(bench: BenchState, laneId: string): readonly string[] {
  const ids = bench.lanes.find((lane) => lane.id === laneId)?.channelIds ?? [];
  return [...new Set(ids.map((id) => companionOf(id)?.captureId ?? "own"))];
}

/** Whose clock an end is told by; null where a lane holds several recordings and the end was set by hand. */
function ownerOf(bench: BenchState, { laneId }: Pick<Dimension, "laneId">, anchor: Anchor): string | null {
  if (anchor.snap) return companionOf(anchor.snap.channelId)?.captureId ?? "own";
  const owners = ownersIn(bench, laneId);
  return owners.length <= 1 ? (owners[0] ?? "own") : null;
}

/**
 * What a time pair must allow for the shift between the recordings its ends stand on, s either way: 0 where both surely
 * stand on one recording, Infinity where those two are not lined up.
 */
export function shiftDoubt(bench: BenchState, pair: Pick<Dimension, "kind" | "laneId" | "from" | "to">): number {
  const [one, other] = [ownerOf(bench, pair, pair.from), ownerOf(bench, pair, pair.to)];
  if (pair.kind === "level" || (one !== null && one === other)) return 0;
  const owners = one === null || other === null ? ownersIn(bench, pair.laneId) : [one, other];
  const shifts = (bench.companions ?? []).filter(({ captureId }) => owners.includes(captureId));
  return shifts.reduce((sum, { shift }) => sum + halfWidth(shift), 0);
}

function halfWidth({ shift: { value, low, high } }: Shift): number {
  if (value === null || low === null || high === null) return Infinity;
  return Math.max(value - low, high - value);
}
