// Where the values at a vertical line stand: beside their dots, off every trace, off each other and off what was measured there.

import { type Box, overlap, spill } from "../../drawing/boxes.ts";
import { struck } from "../../drawing/line-room.ts";
import type { Mapping, Polyline } from "../../drawing/paths.ts";
import { letterSize } from "../stage/letters.ts";

/** A value's dot, and how wide its text comes out; CSS pixels. */
export interface Beside {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  /** Its own trace's window. */
  readonly line: Polyline | undefined;
}

export interface Surroundings {
  /** Where texts stay. */
  readonly within: Box;
  readonly scales: readonly [x: Mapping, y: Mapping];
  /** Of all traces of the lane. */
  readonly lines: readonly Polyline[];
  /** Words that stand already; those placed are added. */
  readonly taken: Box[];
  /** The side that is taken where both are as free. */
  readonly side: Side;
}

export type Side = "start" | "end";

export interface Place {
  readonly x: number;
  readonly y: number;
  readonly side: Side;
  /** Its own trace runs through it wherever it might stand: it needs a ground of its own. */
  readonly ground: Box | null;
}

export const readoutSize = () => letterSize(14);
const beside = 9;
/** From the dot's height to a text's foot above it; as much below. */
const rise = 6;
const lines = 7;
/** What stands against a place: its own trace or another through it, words on it, the lane's edge, the way from its dot; per px or px². */
const costs = { own: 40, other: 12, words: 8, outside: 400, away: 3, wrongSide: 40 } as const;

/** One after the other, from the uppermost dot down. */
export function placeReadouts(values: readonly Beside[], around: Surroundings): readonly Place[] {
  const order = [...values.keys()].sort((a, b) => values[a]!.y - values[b]!.y);
  const places = new Map<number, Place>();
  for (const i of order) {
    const { place, box } = best(values[i]!, around);
    around.taken.push(box);
    places.set(i, place);
  }
  return values.map((_, i) => places.get(i)!);
}

function best(value: Beside, around: Surroundings) {
  let found = { cost: Number.POSITIVE_INFINITY, place: placeAt(value, 0, around.side), box: around.within };
  const other: Side = around.side === "start" ? "end" : "start";
  for (const side of [around.side, other]) {
    for (const foot of feet(value.y)) {
      const place = placeAt(value, foot, side);
      const box = boxOf(place, value.width);
      const own = value.line ? struck(value.line, box, around.scales) : 0;
      const cost =
        costs.own * own + costOf(box, value, around) + costs.away * Math.abs(foot - value.y) + wrong(side, around);
      if (cost < found.cost) found = { cost, place: { ...place, ground: own > 0 ? box : null }, box };
    }
  }
  return found;
}

const wrong = (side: Side, around: Surroundings): number => (side === around.side ? 0 : costs.wrongSide);

function costOf(box: Box, { line: own }: Beside, { within, scales, lines, taken }: Surroundings): number {
  const through = lines.reduce((sum, line) => sum + (line === own ? 0 : struck(line, box, scales)), 0);
  const words = taken.reduce((sum, one) => sum + overlap(one, box), 0);
  return costs.other * through + costs.words * words + costs.outside * spill(box, within);
}

/** Where a text's foot may stand: just above its dot, just below it, then line by line away from it. */
function feet(y: number): readonly number[] {
  const step = (readoutSize() + 3) / 2;
  return Array.from({ length: 2 * lines }, (_, k) => [
    y - rise - k * step,
    y + rise + readoutSize() - 3 + k * step,
  ]).flat();
}

const placeAt = ({ x }: Beside, foot: number, side: Side): Place => ({
  x: x + (side === "start" ? beside : -beside),
  y: foot,
  side,
  ground: null,
});

function boxOf({ x, y, side }: Place, width: number): Box {
  const left = side === "start" ? x : x - width;
  return { left: left - 1, right: left + width + 1, top: y - readoutSize() * 0.8, bottom: y + readoutSize() * 0.24 };
}
