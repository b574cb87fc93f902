// Short spans enlarged beside the lanes, as the details of an engineering drawing (ISO 128-3, from memory): what is enlarged stands in
// a thin frame under a capital letter, and again, larger, under the same letter.

import type { Box as TextBox } from "../../drawing/boxes.ts";
import { linesOf } from "../../drawing/layer.ts";
import { struck } from "../../drawing/line-room.ts";
import { toPixel } from "../../drawing/paths.ts";
import { ink, weights } from "../paper/ink.ts";
import { textWidth } from "../paper/metrics.ts";
import { label, plate, tag } from "../paper/svg.ts";
import { drawDimensions } from "./draw-dimensions.ts";
import { drawLanes } from "./draw-lanes.ts";
import { type Box, bottom, right } from "./page.ts";
import { type LaneArea, laneOf, type PlotArea, plotArea } from "./plot-area.ts";
import type { ExhibitSheet, SheetDetail } from "./sheet.ts";

/** Of the lanes' width, where there are details. */
const share = 0.44;
const apart = 4;
const letterSize = 4.2;

/** The lanes' room, and one for each detail, under each other at the right. */
export function sharedRoom({ details = [] }: Pick<ExhibitSheet, "details">, box: Box): readonly [Box, readonly Box[]] {
  if (details.length === 0) return [box, []];
  const width = box.width * share;
  const height = (box.height - (details.length - 1) * apart) / details.length;
  const boxes = details.map((_, i) => ({ x: right(box) - width, y: box.y + i * (height + apart), width, height }));
  return [{ ...box, width: box.width - width - apart / 2 }, boxes];
}

export function drawDetails(details: readonly SheetDetail[], boxes: readonly Box[]): string {
  return details.map((detail, i) => drawDetail(detail, boxes[i]!)).join("");
}

function drawDetail({ letter, view, lane, dimensions }: SheetDetail, box: Box): string {
  const plot = plotArea({ lanes: [lane], view }, box);
  const taken: TextBox[] = [];
  const words = drawDimensions(plot, dimensions, taken);
  return tag("g", { "data-detail": letter }, drawLanes(plot, `detail${letter}`), ...taken.map(plate), words);
}

/** The frames on the lanes: what lies in one is drawn larger under its letter. */
export function drawDetailFrames(area: PlotArea, details: readonly SheetDetail[]): string {
  return details
    .map(({ letter, view, lane: { id } }) => {
      const lane = laneOf(area, id);
      return lane ? drawFrame(area, lane, { letter, view }) : "";
    })
    .join("");
}

function drawFrame(area: PlotArea, lane: LaneArea, { letter, view }: Pick<SheetDetail, "letter" | "view">): string {
  const [left, end] = [view.from, view.to].map((time) => toPixel(area.x, time)) as [number, number];
  const { y, height } = lane.box;
  const frame = { x: left, y: y + 0.6, width: Math.max(1, end - left), height: height - 1.2 };
  const spot = letterSpot(area, lane, frame);
  return tag(
    "g",
    { "data-framed": letter },
    tag("rect", { ...frame, fill: "none", stroke: ink.line, "stroke-width": weights.extension }),
    plate(spot),
    label((spot.left + spot.right) / 2, spot.bottom - 0.8, letter, { size: letterSize, weight: 600, anchor: "middle" }),
  );
}

/** Beside the frame or in it, where the least of a trace runs through. */
function letterSpot(area: PlotArea, lane: LaneArea, { x, width }: Box): TextBox {
  const size = textWidth("M", letterSize, 600);
  const [top, foot] = [lane.box.y + 1.2, bottom(lane.box) - 1.2 - letterSize];
  const spots = [x + width / 2 - size / 2, x - size - 1.4, x + width + 1.4].flatMap((left) =>
    [top, foot, (top + foot) / 2].map((at) => ({ left, top: at, right: left + size, bottom: at + letterSize })),
  );
  const within = spots.filter((spot) => spot.left > area.box.x && spot.right < right(area.box));
  const crowding = (spot: TextBox) =>
    linesOf(lane.lane).reduce((sum, line) => sum + struck(line, spot, [area.x, lane.y], 0.1), 0);
  return within.reduce((best, spot) => (crowding(spot) < crowding(best) ? spot : best), within[0] ?? spots[0]!);
}
