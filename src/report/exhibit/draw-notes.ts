// What the user wrote on the sheet: notes with a leader to a point, a shaded span, and the marks of the evidence.

import { overlap, shifted, type Box as TextBox } from "../../drawing/boxes.ts";
import { linesOf } from "../../drawing/layer.ts";
import { toPixel } from "../../drawing/paths.ts";
import { spread } from "../../drawing/spread.ts";
import { ink, weights } from "../paper/ink.ts";
import { textWidth } from "../paper/metrics.ts";
import { label, mm, stroke, tag } from "../paper/svg.ts";
import { shortenEnd, wrapAtMost } from "../paper/wrap.ts";
import { bottom, right } from "./page.ts";
import { isInView, laneOf, nameStrip, onPaper, type PlotArea } from "./plot-area.ts";
import { type ExhibitSheet, type NoteSide, noteSides, type SheetNote, type SheetShade } from "./sheet.ts";

const noteSize = 3.6;
const noteWidth = 56;
const lead = 1.25;
/** From the point to the corner of the words, mm. */
const reach = { x: 9, y: 9 } as const;
const pointRadius = 0.7;
const markRadius = 0.9;
const tickHeight = 1.6;

/** A pale band through all lanes, dashed at its ends, with its name at the top. */
export function drawShade(area: PlotArea, shade: SheetShade | null): string {
  if (!shade) return "";
  const from = Math.max(area.box.x, toPixel(area.x, shade.span.from));
  const to = Math.min(right(area.box), toPixel(area.x, shade.span.to));
  if (!(to > from)) return "";
  return area.lanes
    .map(({ box }) => {
      const end = (x: number) =>
        stroke([x, box.y], [x, bottom(box)], { weight: 0.18, stroke: ink.soft, dash: "1.5 1" });
      const band = tag("rect", { x: from, y: box.y, width: to - from, height: box.height, fill: ink.shade });
      return band + end(from) + end(to);
    })
    .join("");
}

/** Apart from the band, which lies under the traces. */
export function drawShadeName(area: PlotArea, shade: SheetShade | null, taken: TextBox[]): string {
  const box = area.lanes[0]?.box;
  if (!shade || !box || shade.label.trim() === "") return "";
  const text = shortenEnd(shade.label, box.width - 4, { size: noteSize });
  const width = textWidth(text, noteSize);
  const middle = toPixel(area.x, (shade.span.from + shade.span.to) / 2);
  const left = Math.min(right(box) - 2 - width, Math.max(box.x + 2, middle - width / 2));
  const room = { left, top: box.y + 0.6, right: left + width, bottom: box.y + 0.6 + noteSize * lead };
  taken.push(room);
  return label(left, box.y + 0.7 + noteSize, text, { size: noteSize });
}

/** Small rings where a reading was taken; where they would lie over each other, ticks on the lane's lower edge. */
export function drawMarks(area: PlotArea, marks: ExhibitSheet["marks"]): string {
  const drawn = area.lanes.flatMap((lane) =>
    linesOf(lane.lane).flatMap(({ channelId, look }) => {
      const mine = marks.filter((mark) => mark.channelId === channelId && isInView(area, mark.time));
      return [...new Set(mine.map(({ value }) => value))].flatMap((level) => {
        const places = mine.filter(({ value }) => value === level).map(({ time }) => toPixel(area.x, time));
        const { alone, ticks } = spread(places, 2 * markRadius + 0.8, 1);
        const y = toPixel(lane.y, level);
        return [
          ...alone.map((i) => ring([places[i]!, y], ink[look])),
          ...ticks.map((x) =>
            stroke([x, bottom(lane.box)], [x, bottom(lane.box) - tickHeight], {
              weight: weights.other,
              stroke: ink[look],
            }),
          ),
        ];
      });
    }),
  );
  return tag("g", { fill: ink.paper, "stroke-width": weights.other }, ...drawn);
}

const ring = ([cx, cy]: readonly [number, number], colour: string): string =>
  tag("circle", { cx, cy, r: markRadius, stroke: colour });

/**
 * Keeps clear of words that stand already where it can; its own are added to `taken`.
 *
 * @param told  called with each note's id and the box of its words.
 */
export function drawNotes(
  area: PlotArea,
  notes: readonly SheetNote[],
  taken: TextBox[],
  told?: (id: string, box: TextBox) => void,
): string {
  const leaders: Segment[] = [];
  return notes.map((note) => drawNote(area, note, { taken, leaders, told })).join("");
}

interface Standing {
  /** Words that stand already. */
  readonly taken: TextBox[];
  /** Lines from words to what they tell of. */
  readonly leaders: Segment[];
  readonly told: ((id: string, box: TextBox) => void) | undefined;
}

function drawNote(area: PlotArea, note: SheetNote, { taken, leaders, told }: Standing): string {
  const lane = laneOf(area, note.laneId);
  if (!lane || !isInView(area, note.at.time) || note.text.trim() === "") return "";
  const [x, y] = onPaper(area, lane, note.at);
  const lines = wrapAtMost(4, note.text, noteWidth, { size: noteSize });
  const box = placeNote([x, y], note.side, lines, { ...roomOf(area, taken), leaders });
  leaders.push(leaderOf([x, y], box));
  told?.(note.id, box);
  taken.push(...lines.map((line, i) => lineBox(box, i, textWidth(line, noteSize))));
  const words = lines.map((line, i) =>
    label(box.left, box.top + noteSize * (0.95 + lead * i), line, { size: noteSize }),
  );
  return tag("g", { "data-note": note.id }, drawLeader([x, y], box), ...words);
}

function lineBox({ left, top }: TextBox, i: number, width: number): TextBox {
  const line = top + noteSize * lead * i;
  return { left, top: line, right: left + width, bottom: line + noteSize * lead };
}

/** Where words may stand, and what stands there already. */
interface Room {
  readonly frame: TextBox;
  readonly others: readonly TextBox[];
  readonly leaders: readonly Segment[];
}

function roomOf({ box, lanes }: PlotArea, taken: readonly TextBox[]): Omit<Room, "leaders"> {
  const frame = { left: box.x + 1, top: box.y + 1, right: right(box) - 1, bottom: bottom(box) - 1 };
  return { frame, others: [...taken, ...lanes.map(nameStrip)] };
}

/** On the side asked for, further out or on another side where other words stand, and always within the lanes. */
function placeNote(point: Point, side: NoteSide, lines: readonly string[], { frame, others, leaders }: Room): TextBox {
  const size = {
    width: Math.max(...lines.map((line) => textWidth(line, noteSize))),
    height: lines.length * noteSize * lead,
  };
  const crossed = (box: TextBox) =>
    others.filter((other) => crosses(leaderOf(point, box), other)).length +
    leaders.filter((leader) => crosses(leader, box)).length;
  const crowding = (box: TextBox) => {
    const area = others.reduce((sum, other) => sum + overlap(box, other), 0);
    const isOnPoint = overlap(box, around(point)) > 0;
    return area + (area > 0 || isOnPoint ? touchingCost : 0) + crossingCost * crossed(box);
  };
  const boxes = [side, ...noteSides].flatMap((way) =>
    [1, 1.6, 2.4, 3.6, 0.5].map((times) => kept(boxAt(point, way, times, size), frame)),
  );
  return boxes.reduce((best, box) => (crowding(box) < crowding(best) ? box : best));
}

const around = ([x, y]: Point): TextBox => ({ left: x - 1, top: y - 1, right: x + 1, bottom: y + 1 });

/** `times`: how far out, in multiples of the usual reach. */
function boxAt(
  [x, y]: Point,
  side: NoteSide,
  times: number,
  { width, height }: { readonly width: number; readonly height: number },
): TextBox {
  const left = side.endsWith("right") ? x + reach.x * times : x - reach.x * times - width;
  const top = side.startsWith("above") ? y - reach.y * times - height : y + reach.y * times;
  return { left, top, right: left + width, bottom: top + height };
}

/** Moved as little as needed to stand within the frame. */
function kept(box: TextBox, frame: TextBox): TextBox {
  const x = Math.max(frame.left - box.left, Math.min(0, frame.right - box.right));
  const y = Math.max(frame.top - box.top, Math.min(0, frame.bottom - box.bottom));
  return shifted(box, x, y);
}

/** Words on words are worst, then a leader through words; square mm. */
const touchingCost = 10_000;
const crossingCost = 400;

type Point = readonly [x: number, y: number];

interface Segment {
  readonly from: Point;
  readonly to: Point;
}

/** The slanting part of a leader, from the point to where its reference line begins. */
function leaderOf([x, y]: Point, box: TextBox): Segment {
  if (isBelowOrAbove([x, y], box)) return { from: [x, y], to: [x, box.bottom < y ? box.bottom + 0.5 : box.top - 0.5] };
  const isRight = box.left > x;
  const nearX = isRight ? box.left - 1 : box.right + 1;
  const nearY =
    Math.abs(box.bottom - y) < Math.abs(box.top - y) ? box.bottom - noteSize * 0.9 : box.top + noteSize * 0.6;
  return { from: [x, y], to: [isRight ? nearX - 2.5 : nearX + 2.5, nearY] };
}

/** Where the words were moved over the point there is no side of theirs that a leader could come to. */
const isBelowOrAbove = ([x]: Point, box: TextBox): boolean => x > box.left - 1 && x < box.right + 1;

/** Whether a segment runs through a box: its part within the box's height and width (Liang and Barsky 1984). */
function crosses(
  { from: [x, y], to: [endX, endY] }: Segment,
  { left, right: edge, top, bottom: foot }: TextBox,
): boolean {
  let [enters, leaves] = [0, 1];
  for (const [step, away] of [
    [x - endX, x - left],
    [endX - x, edge - x],
    [y - endY, y - top],
    [endY - y, foot - y],
  ] as const) {
    if (step === 0 && away < 0) return false;
    if (step < 0) enters = Math.max(enters, away / step);
    if (step > 0) leaves = Math.min(leaves, away / step);
  }
  return enters < leaves;
}

/** ISO 128-2: a leader ends in a dot on a surface, and runs on as a reference line under, over or beside the words. */
function drawLeader(point: Point, box: TextBox): string {
  const [x, y] = point;
  const {
    to: [elbow, nearY],
  } = leaderOf(point, box);
  const nearX = box.left > x ? elbow + 2.5 : elbow - 2.5;
  const along = isBelowOrAbove(point, box) ? `M${mm(box.left)} ${mm(nearY)}H${mm(box.right)}` : `H${mm(nearX)}`;
  const dot = tag("circle", { cx: x, cy: y, r: pointRadius, fill: ink.line });
  const d = `M${mm(x)} ${mm(y)}L${mm(elbow)} ${mm(nearY)}${along}`;
  return dot + tag("path", { d, fill: "none", stroke: ink.line, "stroke-width": weights.extension });
}
