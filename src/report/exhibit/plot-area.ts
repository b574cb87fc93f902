// How the sheet's middle is shared out: lanes over one time axis, and where a time and a level fall on the paper.

import { fromPixel, type Mapping, mapping, toPixel } from "../../drawing/paths.ts";
import type { Box } from "./page.ts";
import type { ExhibitSheet, Place, SheetLane } from "./sheet.ts";

/** mm: numbers left of a lane, its name above it, gap below it, the time axis at the foot. */
const gutter = 14;
const nameHeight = 5.2;
const gap = 2;
const axisHeight = 6.5;
/** Room for half a number of the time axis past the last lane's right end. */
const rightGap = 3;

export interface LaneArea {
  readonly lane: SheetLane;
  /** The lane's own box, without name and numbers. */
  readonly box: Box;
  /** Level to mm. */
  readonly y: Mapping;
}

export interface PlotArea {
  readonly box: Box;
  /** Time to mm. */
  readonly x: Mapping;
  readonly lanes: readonly LaneArea[];
  readonly view: ExhibitSheet["view"];
}

/** Shares `box` out. The height left after names and gaps goes to the lanes by their shares. */
export function plotArea({ lanes, view }: Pick<ExhibitSheet, "lanes" | "view">, box: Box): PlotArea {
  const inner = { ...box, x: box.x + gutter, width: box.width - gutter - rightGap, height: box.height - axisHeight };
  const free = inner.height - lanes.length * nameHeight - Math.max(0, lanes.length - 1) * gap;
  const shares = lanes.reduce((sum, { share }) => sum + share, 0);
  let top = inner.y;
  const areas = lanes.map((lane) => {
    const height = (free * lane.share) / shares;
    const area = { x: inner.x, y: top + nameHeight, width: inner.width, height };
    top += nameHeight + height + gap;
    return { lane, box: area, y: mapping(lane.scale[0], lane.scale[1], area.y + height, area.y) };
  });
  return { box: inner, x: mapping(view.from, view.to, inner.x, inner.x + inner.width), lanes: areas, view };
}

/** Where a lane's name and samples of its lines stand. */
export const nameStrip = ({ box }: LaneArea) => ({
  left: box.x,
  top: box.y - nameHeight,
  right: box.x + box.width,
  bottom: box.y,
});

export const laneOf = (area: PlotArea, laneId: string): LaneArea | undefined =>
  area.lanes.find(({ lane }) => lane.id === laneId);

/** Where a place falls on the paper, mm. */
export function onPaper(area: PlotArea, { y }: LaneArea, place: Place): readonly [x: number, y: number] {
  return [toPixel(area.x, place.time), toPixel(y, place.level)];
}

export const isInView = ({ view }: PlotArea, time: number): boolean => time >= view.from && time <= view.to;

/** The place under a point of the sheet, mm; the nearest lane's where the point lies beside the lanes. */
export function placeUnder({ lanes, x, box }: PlotArea, at: readonly [x: number, y: number]) {
  const away = ({ box: { y, height } }: LaneArea) => Math.max(y - at[1], at[1] - y - height, 0);
  const [lane] = [...lanes].sort((a, b) => away(a) - away(b));
  if (!lane) return null;
  const within = (value: number, low: number, size: number) => Math.min(low + size, Math.max(low, value));
  return {
    laneId: lane.lane.id,
    at: {
      time: fromPixel(x, within(at[0], box.x, box.width)),
      level: fromPixel(lane.y, within(at[1], lane.box.y, lane.box.height)),
    },
  };
}
