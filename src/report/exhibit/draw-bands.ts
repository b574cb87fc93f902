// What is usual, below the traces: a hatched band from 5 to 95 % and its median as a chain line. Front and rear are hatched
// the opposite way, so that they differ in grey as well (ISO 128-50: hatching at 45°; ISO 128-2 line 04: the chain).

import { type BandLayer, bandsOf, type Look, linesOf } from "../../drawing/layer.ts";
import { drawLine } from "../../drawing/paths.ts";
import { compactPen } from "../paper/compact-pen.ts";
import { behind, dashOf, ink, weights } from "../paper/ink.ts";
import { mm, tag } from "../paper/svg.ts";
import { type Box, bottom, right } from "./page.ts";
import { type LaneArea, onPaper, type PlotArea } from "./plot-area.ts";
import type { SheetLane } from "./sheet.ts";

const chain = "3.6 1 0.4 1";
/** mm between the lines of a hatching, and how they are turned, degrees. */
const hatch = {
  front: { every: 1.6, turn: 45 },
  rear: { every: 1.6, turn: -45 },
  other: { every: 2.4, turn: -45 },
} as const;
/** Of the median, mm. */
const middle = { front: weights.cell, rear: weights.block, other: weights.cell } as const;

const hatchId = (look: Look): string => `band-${look}`;
/** Grey that prints as grey, and lets the lines over it stand out. */
const greyFill = "#cfcfcb";
const fillOf = ({ look, fill }: BandLayer) => (fill === "grey" ? greyFill : `url(#${hatchId(look)})`);

/** The patterns that the lanes' bands are filled with; "" without any. */
export function hatchings(lanes: readonly SheetLane[]): string {
  const looks = new Set(
    lanes.flatMap((lane) => [
      ...bandsOf(lane).flatMap(({ look, fill }) => (fill ? [] : [look])),
      ...linesOf(lane).flatMap(({ look, dense }) => (dense ? [look] : [])),
    ]),
  );
  return [...looks]
    .map((look) => {
      const { every, turn } = hatch[look];
      const ground = tag("rect", { width: every, height: every, fill: ink[look], opacity: "0.1" });
      const line = tag("path", { d: `M0 0V${mm(every)}`, stroke: ink[look], "stroke-width": 0.25, opacity: "0.75" });
      const size = { width: every, height: every, patternUnits: "userSpaceOnUse" };
      return tag("pattern", { id: hatchId(look), ...size, patternTransform: `rotate(${turn})` }, ground, line);
    })
    .join("");
}

/** One band of a lane, clipped to the lane's box by `clip`. */
export function drawBand(area: PlotArea, lane: LaneArea, band: BandLayer, clip: string): string {
  const { look } = band;
  return tag(
    "g",
    { "data-band": `${band.source} ${look}`, "clip-path": `url(#${clip})` },
    tag("path", { d: ring(area, lane, band), fill: fillOf(band) }),
    middleLine(area, lane, band),
  );
}

/** Of a busy line: hatched between two edges as thick as the line's kind asks; of a line that lies behind, dashed edges alone. */
export function drawEnvelope(area: PlotArea, lane: LaneArea, band: BandLayer, drawn: "filled" | "edges"): string {
  const { look, times } = band;
  const edges = [band.low, band.high].map((values) => {
    const pen = compactPen();
    drawLine({ times, values, dense: false }, area.x, lane.y, pen);
    return pen.text();
  });
  const dash = drawn === "edges" ? dashOf({ stroke: "dashed" }) : undefined;
  const line = tag("path", {
    d: edges.join(""),
    fill: "none",
    stroke: ink[look],
    "stroke-width": middle[look],
    "stroke-dasharray": dash,
    opacity: dash === undefined ? undefined : behind.opacity,
  });
  const ground = tag("path", { d: ring(area, lane, band), fill: fillOf(band) });
  return tag("g", {}, drawn === "filled" ? ground : "", line);
}

function middleLine(area: PlotArea, lane: LaneArea, { look, times, middle: values }: BandLayer): string {
  if (!values) return "";
  const pen = compactPen();
  drawLine({ times, values, dense: false }, area.x, lane.y, pen);
  return tag("path", {
    d: pen.text(),
    fill: "none",
    stroke: ink[look],
    "stroke-width": middle[look],
    "stroke-dasharray": chain,
  });
}

/** One ring per run without a gap: out along the high edge, back along the low one. */
function ring(area: PlotArea, lane: LaneArea, { times, low, high }: BandLayer): string {
  const pen = compactPen();
  const isKnown = (i: number) => i < times.length && !Number.isNaN(low[i]! + high[i]!);
  const place = (i: number, levels: Float64Array) => onPaper(area, lane, { time: times[i]!, level: levels[i]! });
  for (let from = 0; from < times.length; from++) {
    if (!isKnown(from)) continue;
    let to = from;
    while (isKnown(to + 1)) to++;
    pen.moveTo(...place(from, high));
    for (let i = from + 1; i <= to; i++) pen.lineTo(...place(i, high));
    for (let i = to; i >= from; i--) pen.lineTo(...place(i, low));
    from = to;
  }
  return pen.text();
}

/** A piece of the band for the lane's key. */
export function bandSample(band: BandLayer, box: Box): string {
  const ground = tag("rect", { ...box, fill: fillOf(band) });
  if (!band.middle) return ground;
  const { look } = band;
  const half = (box.y + bottom(box)) / 2;
  const line = { d: `M${mm(box.x)} ${mm(half)}H${mm(right(box))}`, stroke: ink[look], "stroke-width": middle[look] };
  return ground + tag("path", { ...line, "stroke-dasharray": chain });
}
