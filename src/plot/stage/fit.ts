// The vertical scales in force: held, or fitted to what the view holds; a fitted scale glides to a new one.

import { bandsOf, linesOf } from "../../drawing/layer.ts";
import { extentWithin } from "../../drawing/paths.ts";
import { fitRange } from "../../drawing/scale.ts";
import type { LaneLook, Range, TraceWindow, View } from "./types.ts";

export type Ranges = ReadonlyMap<string, Range>;

/** Where each lane's scale should be. A fitted one starts from the scale in force, so that it can hold still. */
export function wantedRanges(
  lanes: readonly LaneLook[],
  windows: ReadonlyMap<string, TraceWindow>,
  view: View,
  before: Ranges,
): Ranges {
  return new Map(
    lanes.map((lane) => {
      if (lane.scale !== "fit") return [lane.id, lane.scale];
      return [lane.id, fitRange(extentOf(lane, windows, view), lane.unit, before.get(lane.id) ?? null)];
    }),
  );
}

function extentOf(lane: LaneLook, windows: ReadonlyMap<string, TraceWindow>, view: View): Range | null {
  const lines = [
    ...linesOf(lane).map(({ channelId }) => windows.get(channelId)),
    ...bandsOf(lane).flatMap(({ times, low, high }) => [low, high].map((values) => ({ times, values, dense: false }))),
  ];
  let extent: Range | null = null;
  for (const line of lines) {
    const own = line && extentWithin(line, view.from, view.to);
    if (own) extent = extent === null ? own : [Math.min(extent[0], own[0]), Math.max(extent[1], own[1])];
  }
  return extent;
}

/** Share of the way gone in one frame, and the share of the range below which it has arrived. */
const stride = 0.34;
const arrived = 0.002;

/** One frame's step from the scales shown to those wanted; the wanted ones themselves once all have arrived. */
export function glide(shown: Ranges, wanted: Ranges): Ranges {
  let isThere = true;
  const step = new Map<string, Range>();
  for (const [id, goal] of wanted) {
    const at = shown.get(id) ?? goal;
    const size = goal[1] - goal[0];
    const isNear = Math.abs(goal[0] - at[0]) + Math.abs(goal[1] - at[1]) < arrived * size;
    isThere &&= isNear;
    step.set(id, isNear ? goal : [at[0] + (goal[0] - at[0]) * stride, at[1] + (goal[1] - at[1]) * stride]);
  }
  return isThere ? wanted : step;
}

export function sameRanges(a: Ranges, b: Ranges): boolean {
  return a.size === b.size && [...a].every(([id, [low, high]]) => b.get(id)?.[0] === low && b.get(id)?.[1] === high);
}
