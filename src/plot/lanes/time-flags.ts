// The figures that stand on the time axis under vertical lines, moved apart where the lines are close.

import { toPixel } from "../../drawing/paths.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { gutter, margin } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";

export interface TimeFlag {
  readonly text: string;
  readonly left: number;
  readonly right: number;
}

export const flagSize = () => letterSize(14);
const padding = 5;
const between = 3;

/** In the order of the times; those out of view are left out, and of two lines on one pixel with one figure the second. */
export function timeFlags(times: readonly number[], stage: Stage): TimeFlag[] {
  const [least, most] = [gutter - 1, stage.size().width - margin + 1];
  const wanted = [...times]
    .sort((a, b) => a - b)
    .map((time) => ({ x: toPixel(stage.x(), time), text: formatTime(time, stage.secondsPerPixel()) }))
    .filter(({ x }) => x >= least && x <= most)
    .filter(({ x, text }, k, all) => k === 0 || text !== all[k - 1]!.text || x - all[k - 1]!.x >= 1)
    .map(({ x, text }) => ({ x, text, width: textWidth(text, flagSize(), 600) + 2 * padding }));
  const lefts = apart(
    wanted.map(({ x, width }) => x - width / 2),
    wanted.map(({ width }) => width + between),
  );
  const spill = Math.max(0, (lefts.at(-1) ?? 0) + (wanted.at(-1)?.width ?? 0) - stage.size().width);
  return wanted.map(({ text, width }, k) => {
    const left = Math.max(0, lefts[k]! - spill);
    return { text, left, right: left + width };
  });
}

/** Places in rising order, moved as little as keeps each `room` from the next; a crowd stays about its middle. */
export function apart(places: readonly number[], rooms: readonly number[]): number[] {
  const groups: { start: number; room: number; count: number }[] = [];
  places.forEach((place, k) => {
    let group = { start: place, room: rooms[k]!, count: 1 };
    for (let last = groups.at(-1); last && last.start + last.room > group.start; last = groups.at(-1)) {
      groups.pop();
      // Each would rather stand where it was: the mean of what they ask of the crowd's beginning.
      const start = (last.count * last.start + group.count * (group.start - last.room)) / (last.count + group.count);
      group = { start, room: last.room + group.room, count: last.count + group.count };
    }
    groups.push(group);
  });
  let next = 0;
  return groups.flatMap(({ start, count }) => {
    let at = start;
    return Array.from({ length: count }, () => {
      const place = at;
      at += rooms[next++]!;
      return place;
    });
  });
}
