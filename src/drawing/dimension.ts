// Where the lines, arrows and texts of a dimension go, as on an engineering drawing. Pixels in, pixels out.
//
// After ISO 129-1 (from memory): extension lines leave a small gap at what is measured and run a little past the
// dimension line; arrowheads are slim and filled, and point inwards from outside where there is no room between.

import { type Box, overlap, shifted, spill } from "./boxes.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Line {
  readonly from: Point;
  readonly to: Point;
}

/** Width of a line of text and its font size, pixels. */
export interface TextSize {
  readonly width: number;
  readonly size: number;
}

export interface DimensionRequest {
  /** "time": measured along x, `place` is the dimension line's y. "level": measured along y, `place` is its x. */
  readonly kind: "time" | "level";
  readonly from: Point;
  readonly to: Point;
  readonly place: number;
  /** The value, then what stands below it: bounds, label. */
  readonly texts: readonly TextSize[];
  /** Where the texts should stay. */
  readonly within: Box;
  /** What stands already: the area of a box that is taken. */
  readonly taken?: (box: Box) => number;
  /** Everything is drawn this much larger; 1 on screen. */
  readonly scale?: number;
}

/** Where a text goes: baseline, and which part of the text `x` names. */
export interface TextPlace extends Point {
  readonly anchor: "start" | "middle" | "end";
}

export interface DimensionGeometry {
  readonly extensions: readonly [Line, Line];
  /** One line between the arrows, or two outside them. */
  readonly lines: readonly Line[];
  /** Corners of each arrowhead, tip first. */
  readonly arrows: readonly [Arrow, Arrow];
  /** In the order of the request's texts. */
  readonly texts: readonly TextPlace[];
  readonly textBox: Box;
  readonly arrowsOutside: boolean;
}
export type Arrow = readonly [tip: Point, left: Point, right: Point];

const gap = 3;
const overshoot = 8;
const arrowLength = 11;
const arrowHalfWidth = 2.6;
const tail = 26;
const textGap = 6;
const lineHeight = 1.25;
const ascent = 0.98;

/** Draws one dimension; of the places its texts could stand, the first that is free is taken, else the least crowded. */
export function dimensionGeometry(request: DimensionRequest): DimensionGeometry {
  const scale = request.scale ?? 1;
  const along = request.kind === "time" ? "x" : "y";
  const [first, last] = [request.from, request.to].sort((a, b) => a[along] - b[along]) as [Point, Point];
  const [start, end] = [first[along], last[along]];
  const at = (position: number, across = request.place): Point =>
    along === "x" ? { x: position, y: across } : { x: across, y: position };
  const arrowsOutside = end - start < 2.6 * arrowLength * scale;
  const out = arrowsOutside ? tail * scale : 0;
  const lines = arrowsOutside
    ? [
        { from: at(start - out), to: at(start) },
        { from: at(end + out), to: at(end) },
      ]
    : [{ from: at(start), to: at(end) }];
  const block = placeTexts(request, [start - out, end + out]);
  return {
    extensions: [extension(request, request.from), extension(request, request.to)],
    lines,
    arrows: [
      arrow(at(start), along, (arrowsOutside ? -1 : 1) * scale),
      arrow(at(end), along, (arrowsOutside ? 1 : -1) * scale),
    ],
    ...block,
    arrowsOutside,
  };
}

/** From just off the measured point to just past the dimension line. */
function extension({ kind, place, scale = 1 }: DimensionRequest, point: Point): Line {
  const across = kind === "time" ? point.y : point.x;
  const way = place > across ? 1 : -1;
  const begin = Math.abs(place - across) > gap * scale ? across + way * gap * scale : place;
  const stop = place + way * overshoot * scale;
  if (kind === "time") return { from: { x: point.x, y: begin }, to: { x: point.x, y: stop } };
  return { from: { x: begin, y: point.y }, to: { x: stop, y: point.y } };
}

/** `way` > 0: the body lies towards larger coordinates. */
function arrow(tip: Point, along: "x" | "y", way: number): Arrow {
  const length = way * arrowLength;
  const half = Math.abs(way) * arrowHalfWidth;
  if (along === "x") return [tip, { x: tip.x + length, y: tip.y - half }, { x: tip.x + length, y: tip.y + half }];
  return [tip, { x: tip.x - half, y: tip.y + length }, { x: tip.x + half, y: tip.y + length }];
}

/** A text that so small a share of its box touches stands free: a worse place would only push the next ones away. */
const touching = 0.015;

type Placed = Pick<DimensionGeometry, "texts" | "textBox">;

/** @param reach where the dimension line begins and ends, tails included. */
function placeTexts(request: DimensionRequest, reach: readonly [number, number]): Placed {
  const crowding = ({ textBox }: Placed) => {
    const crowded = 3 * spill(textBox, request.within) + (request.taken?.(textBox) ?? 0);
    return Math.max(0, crowded - touching * overlap(textBox, textBox));
  };
  const candidates = request.kind === "time" ? timePlaces(request, reach) : levelPlaces(request, reach);
  let best = candidates[0]!;
  let least = crowding(best);
  for (const candidate of candidates.slice(1)) {
    const crowded = crowding(candidate);
    if (crowded < least - 0.5) [best, least] = [candidate, crowded];
  }
  return best;
}

function timePlaces(request: DimensionRequest, [start, end]: readonly [number, number]): Placed[] {
  const { place, texts, within, scale = 1 } = request;
  const space = textGap * scale;
  const seen = [Math.max(start, within.left), Math.min(end, within.right)] as const;
  const middle = (seen[0] + seen[1]) / 2;
  const upper = place - space / 2 - texts[0]!.size * lineHeight;
  const rise = place - texts[0]!.size * 0.62;
  const beside = [block(texts, end + space, rise, "start"), block(texts, start - space, rise, "end")];
  const across = [
    straddling(request, middle),
    block(texts, middle, place - space - height(texts), "middle"),
    block(texts, middle, place + space, "middle"),
    ...[0.25, 0.75].map((share) => straddling(request, seen[0] + share * (seen[1] - seen[0]))),
  ];
  const roomy = seen[1] - seen[0] > Math.max(...texts.map((text) => text.width)) + 2 * arrowLength * scale;
  const levels = [-1, 1, -0.5, 0.5, -2, 2].flatMap((k) => [
    block(texts, end + space, upper + k * height(texts), "start"),
    block(texts, start - space, upper + k * height(texts), "end"),
  ]);
  const further = [block(texts, end + 5 * space, rise, "start"), block(texts, start - 5 * space, rise, "end")];
  return roomy ? [...across, ...beside, ...further] : [...beside, ...further, ...levels, ...across];
}

/** The value above the line, the rest below it. */
function straddling({ texts, place, scale = 1 }: DimensionRequest, x: number): Placed {
  const [value, ...rest] = texts;
  const above = block([value!], x, place - 2 * scale - value!.size * lineHeight, "middle");
  if (rest.length === 0) return above;
  const below = block(rest, x, place + 3 * scale, "middle");
  const [a, b] = [above.textBox, below.textBox];
  const textBox = { ...a, left: Math.min(a.left, b.left), right: Math.max(a.right, b.right), bottom: b.bottom };
  return { texts: [...above.texts, ...below.texts], textBox };
}

function levelPlaces({ place, texts, within, scale = 1 }: DimensionRequest, [start, end]: readonly [number, number]) {
  const space = (textGap + arrowHalfWidth) * scale;
  const middle = (Math.max(start, within.top) + Math.min(end, within.bottom)) / 2 - height(texts) / 2;
  return [0, -0.5, 0.5, -1, 1, -2, 2].flatMap((k) => [
    block(texts, place + space, middle + k * height(texts), "start"),
    block(texts, place - space, middle + k * height(texts), "end"),
  ]);
}

/** The box of one line of text where it was placed. */
export function lineOfText({ x, y, anchor }: TextPlace, { width, size }: TextSize): Box {
  const left = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
  return { left, top: y - size * 0.9, right: left + width, bottom: y + size * 0.3 };
}

/** Lines of text under each other, from `top` down. */
function block(texts: readonly TextSize[], x: number, top: number, anchor: TextPlace["anchor"]): Placed {
  let line = top;
  const placed = texts.map(({ size }) => {
    const baseline = line + ascent * size;
    line += lineHeight * size;
    return { x, y: baseline, anchor };
  });
  const width = Math.max(...texts.map((text) => text.width));
  const back = anchor === "start" ? 0 : anchor === "middle" ? width / 2 : width;
  return { texts: placed, textBox: shifted({ left: x, top, right: x + width, bottom: line }, -back) };
}

const height = (texts: readonly TextSize[]): number => texts.reduce((sum, { size }) => sum + lineHeight * size, 0);
