// Edits of the lanes: which channel stands where, what is hidden, how a lane is scaled. Nothing recorded is touched.

import type { BenchState, Lane } from "../record/job.ts";
import { newLane } from "./bench.ts";

export function hideChannel(bench: BenchState, channelId: string): BenchState {
  return bench.hidden.includes(channelId) ? bench : { ...bench, hidden: [...bench.hidden, channelId] };
}

export function showChannel(bench: BenchState, channelId: string): BenchState {
  return { ...bench, hidden: bench.hidden.filter((id) => id !== channelId) };
}

/** The lane a channel stands in. */
export function laneOf(bench: BenchState, channelId: string): Lane | undefined {
  return bench.lanes.find((lane) => lane.channelIds.includes(channelId));
}

/** Puts a channel over those of another lane. The lane it leaves empty goes. */
export function moveChannel(bench: BenchState, channelId: string, laneId: string): BenchState {
  const from = laneOf(bench, channelId);
  const to = bench.lanes.find((lane) => lane.id === laneId);
  if (!to || from?.id === laneId) return bench;
  const moved = bench.lanes
    .map((lane) =>
      lane.id === laneId ? { ...lane, channelIds: [...lane.channelIds, channelId] } : without(lane, channelId),
    )
    .filter((lane) => lane.channelIds.length > 0);
  return showChannel({ ...bench, lanes: moved }, channelId);
}

/** Gives a channel a lane of its own, right below the one it leaves. */
export function splitChannel(bench: BenchState, channelId: string): BenchState {
  const from = laneOf(bench, channelId);
  if (!from || from.channelIds.length < 2) return bench;
  const own = { ...newLane([channelId]), id: freeId(bench, channelId) };
  const lanes = bench.lanes.flatMap((lane) => (lane === from ? [without(lane, channelId), own] : [lane]));
  return showChannel({ ...bench, lanes }, channelId);
}

/** Moves a whole lane one place up (-1) or down (1). */
export function shiftLane(bench: BenchState, laneId: string, by: -1 | 1): BenchState {
  const at = bench.lanes.findIndex((lane) => lane.id === laneId);
  const to = at + by;
  const lane = bench.lanes[at];
  const other = bench.lanes[to];
  if (!lane || !other) return bench;
  const lanes = bench.lanes.with(at, other).with(to, lane);
  return { ...bench, lanes };
}

/** "fit" follows what the visible window holds; a pair holds the scale there. */
export function setScale(bench: BenchState, laneId: string, scale: Lane["scale"]): BenchState {
  return { ...bench, lanes: bench.lanes.map((lane) => (lane.id === laneId ? { ...lane, scale } : lane)) };
}

/** Holds every lane where it is scaled now, or lets every lane fit again. */
export function holdScales(
  bench: BenchState,
  held: Readonly<Record<string, readonly [number, number]>> | "fit",
): BenchState {
  const scaleOf = (lane: Lane) => (held === "fit" ? "fit" : (held[lane.id] ?? lane.scale));
  return { ...bench, lanes: bench.lanes.map((lane) => ({ ...lane, scale: scaleOf(lane) })) };
}

/** So many lanes are drawn at once: on any screen more are no lanes any longer. */
export const mostLanesDrawn = 40;

/** Lanes with something to draw, and only that; of more than can be drawn at once, the first. */
export const visibleLanes = (bench: BenchState): readonly Lane[] => shownLanes(bench).slice(0, mostLanesDrawn);

/** How many lanes are to be shown and find no place. */
export const lanesLeft = (bench: BenchState): number => Math.max(0, shownLanes(bench).length - mostLanesDrawn);

function shownLanes(bench: BenchState): readonly Lane[] {
  const hidden = new Set(bench.hidden);
  return bench.lanes
    .map((lane) => ({ ...lane, channelIds: lane.channelIds.filter((id) => !hidden.has(id)) }))
    .filter((lane) => lane.channelIds.length > 0);
}

const without = (lane: Lane, channelId: string): Lane => ({
  ...lane,
  channelIds: lane.channelIds.filter((id) => id !== channelId),
});

function freeId(bench: BenchState, channelId: string): string {
  const taken = new Set(bench.lanes.map((lane) => lane.id));
  let id = `lane-${channelId}`;
  while (taken.has(id)) id += "-own";
  return id;
}
