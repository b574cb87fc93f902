// How a dimension changes when a part of it is moved. Pure.

import { firstAfter } from "../../drawing/paths.ts";
import type { DimensionLook, DimensionPart, TraceWindow } from "../stage/types.ts";

export type Moved = Pick<DimensionLook, "from" | "to" | "place">;

/** An end moved along its measure: seconds for a time pair, the lane's unit for a level pair. */
export function moveEnd(look: Moved & Pick<DimensionLook, "kind">, part: "from" | "to", by: number): Moved {
  const spot = look[part];
  const moved = look.kind === "time" ? { ...spot, time: spot.time + by } : { ...spot, level: spot.level + by };
  return { from: look.from, to: look.to, place: look.place, [part]: moved };
}

/** Both ends moved together along their measure. */
export function moveBoth(look: Moved & Pick<DimensionLook, "kind">, by: number): Moved {
  return moveEnd({ ...moveEnd(look, "from", by), kind: look.kind }, "to", by);
}

/**
 * The next time for an end that steps by key: the next sample where samples are shown, else one pixel on.
 *
 * @param windows of the lane's channels; dense ones hold no samples to step to.
 */
export function nextTime(at: number, direction: -1 | 1, pixel: number, windows: readonly TraceWindow[]): number {
  let next = at + direction * Number.POSITIVE_INFINITY;
  for (const { dense, times } of windows) {
    if (dense) continue;
    const after = firstAfter(times, at + pixel * 1e-3);
    const before = firstAfter(times, at - pixel * 1e-3) - 1;
    const time = times[direction > 0 ? after : before];
    if (time !== undefined && Math.abs(time - at) < Math.abs(next - at)) next = time;
  }
  return Number.isFinite(next) && Math.abs(next - at) >= pixel / 2 ? next : at + direction * pixel;
}

export const partName: Readonly<Record<DimensionPart, string>> = { from: "first end", to: "second end", line: "line" };
