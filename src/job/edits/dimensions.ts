// Cursors and dimensions: placed by hand, moved, named, pinned; and what they read.

import { atMost, measured, notResolvable, type Reading, type Unit } from "../../signal/numbers/reading.ts";
import type { Anchor, BenchState, Dimension } from "../record/job.ts";

export type DimensionDraft = Omit<Dimension, "reading">;
export type End = "from" | "to";

/**
 * What a dimension reads: the distance between its ends, never negative.
 *
 * A snapped end carries the bounds of its place; an end set by hand is known to `doubt` either way.
 * When the ends may stand on the same spot, only the upper bound is known.
 *
 * @param doubt half a sample step or half a pixel, whichever is more; s for a time pair, the lane's unit for a level pair.
 * @param unit  the lane's unit; only a level pair uses it.
 * @param apart by how much the recordings that the two ends stand on may be shifted against each other otherwise, s.
 */
export function readDimension(draft: DimensionDraft, doubt: number, unit: string, apart = 0): Reading {
  if (apart === Infinity) return notResolvable("s", "The two recordings are not lined up yet.");
  const time = draft.kind === "time";
  const [a, b] = time ? [draft.from.time, draft.to.time] : [draft.from.level, draft.to.level];
  const early = time ? boundsOf(draft.from, doubt) : ([a - doubt, a + doubt] as const);
  const late = time ? boundsOf(draft.to, doubt) : ([b - doubt, b + doubt] as const);
  const [first, last] = a <= b ? [early, late] : [late, early];
  // A unit outside the set of the readings passes through as the file names it.
  const named = (time ? "s" : unit) as Unit;
  const high = Math.max(last[1] - first[0], Math.abs(b - a)) + apart;
  const low = Math.min(last[0] - first[1], Math.abs(b - a)) - apart;
  if (low <= 0) return atMost(high, named, { because: "The two ends may stand on the same spot." });
  return measured(Math.abs(b - a), [low, high], named);
}

function boundsOf(anchor: Anchor, doubt: number): readonly [number, number] {
  return anchor.snap ? [anchor.snap.low, anchor.snap.high] : [anchor.time - doubt, anchor.time + doubt];
}

/** Makes `cursor` the one standing pair of its kind. */
export function placeCursor(bench: BenchState, cursor: Dimension): BenchState {
  return { ...bench, cursors: [...bench.cursors.filter((c) => c.kind !== cursor.kind), cursor] };
}

export function removeCursor(bench: BenchState, kind: Dimension["kind"]): BenchState {
  return { ...bench, cursors: bench.cursors.filter((c) => c.kind !== kind) };
}

export function cursorOf(bench: BenchState, kind: Dimension["kind"]): Dimension | undefined {
  return bench.cursors.find((c) => c.kind === kind);
}

/** A cursor or a pinned dimension by its id. */
export function dimensionOf(bench: BenchState, id: string): Dimension | undefined {
  return [...bench.cursors, ...bench.dimensions].find((d) => d.id === id);
}

/** Changes a cursor or dimension wherever it stands. */
export function changeDimension(bench: BenchState, id: string, change: (d: Dimension) => Dimension): BenchState {
  const swap = (all: readonly Dimension[]) => all.map((d) => (d.id === id ? change(d) : d));
  return { ...bench, cursors: swap(bench.cursors), dimensions: swap(bench.dimensions) };
}

/** The cursor pair stays on the trace as a dimension, under the name it is given. */
export function pinCursor(bench: BenchState, kind: Dimension["kind"], id: string, label: string): BenchState {
  const cursor = cursorOf(bench, kind);
  if (!cursor) return bench;
  return { ...removeCursor(bench, kind), dimensions: [...bench.dimensions, { ...cursor, id, label }] };
}

export function removeDimension(bench: BenchState, id: string): BenchState {
  return { ...bench, dimensions: bench.dimensions.filter((d) => d.id !== id) };
}
