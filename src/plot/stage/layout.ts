// Where lanes stand in the stack, CSS pixels.

import type { Box } from "../../drawing/boxes.ts";
import type { LaneLook } from "./types.ts";

/** Room left of the traces for the scales, right of them, below them for the time axis, and between lanes. */
export const gutter = 58;
export const margin = 14;
export const axisHeight = 28;
const top = 8;
const gap = 10;
const leastLane = 44;
const tallLane = 64;
export const headHeight = 24;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** One box per lane from top to bottom, heights by share. */
export function laneBoxes(size: Size, lanes: readonly Pick<LaneLook, "id" | "share">[]): ReadonlyMap<string, Box> {
  const room = size.height - top - axisHeight - gap * Math.max(0, lanes.length - 1);
  const shares = lanes.reduce((sum, lane) => sum + Math.max(lane.share, 0), 0) || 1;
  const spare = Math.max(0, room - leastLane * lanes.length);
  const boxes = new Map<string, Box>();
  let y = top;
  for (const { id, share } of lanes) {
    const height = Math.min(leastLane, room / lanes.length) + (spare * Math.max(share, 0)) / shares;
    boxes.set(id, { left: gutter, top: y, right: Math.max(gutter + 1, size.width - margin), bottom: y + height });
    y += height + gap;
  }
  return boxes;
}

/** Left and right of a lane's names. */
export const headInset = { left: 10, right: 4 } as const;

/**
 * The part of a lane that its scale spans: a tall lane keeps a strip for the rows of its names that no trace enters, of as many as
 * leave it tall; a low one has none to spare.
 */
export function plotBox(box: Box, rows: number): Box {
  const most = Math.floor((box.bottom - box.top - (tallLane - headHeight)) / headHeight);
  return { ...box, top: box.top + headHeight * Math.max(0, Math.min(rows, most)) };
}

/** The lane at a height, else the nearest. */
export function laneAt(boxes: ReadonlyMap<string, Box>, y: number): string | null {
  let nearest: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [id, box] of boxes) {
    const distance = Math.max(box.top - y, y - box.bottom, 0);
    if (distance < least) [nearest, least] = [id, distance];
  }
  return nearest;
}
