// The lines of a lane: thin and warm before the catalyst, thick and cool after it, so that they differ in grey as well.

import { dashesAlong } from "../../drawing/band.ts";
import { drawLine } from "../../drawing/paths.ts";
import { compactPen } from "../paper/compact-pen.ts";
import { behind, dashOf, ink, weightOf, weights } from "../paper/ink.ts";
import { tag } from "../paper/svg.ts";
import { drawEnvelope } from "./draw-bands.ts";
import { partedLine } from "./envelopes.ts";
import { type LaneArea, onPaper, type PlotArea } from "./plot-area.ts";
import type { SheetLine } from "./sheet.ts";

/** Radius of a sample's dot, as a multiple of the line's width, and the dash of the guess between two. */
const dot = { size: 1.6, dash: "0.4 1" } as const;

/** One trace of a lane, clipped to the lane's box by `clip`: busy spans as envelopes, the rest as a line; and whether there are any. */
export function drawTrace(
  area: PlotArea,
  lane: LaneArea,
  trace: SheetLine,
  clip: string,
): { readonly markup: string; readonly isHatched: boolean } {
  const { line, envelopes } = partedLine(trace, area.x, lane.y);
  const drawn = envelopes.map((envelope) => drawEnvelope(area, lane, envelope, trace.isBehind ? "edges" : "filled"));
  const around = drawn.length === 0 ? "" : tag("g", { "clip-path": `url(#${clip})` }, ...drawn);
  return { markup: around + drawLineOf(area, lane, line, clip), isHatched: drawn.length > 0 };
}

function drawLineOf(area: PlotArea, lane: LaneArea, trace: SheetLine, clip: string): string {
  const pen = compactPen();
  const broken = dashOf(trace);
  const isByPlace = broken !== undefined && (trace.dense || trace.times.length > manySamples);
  drawLine(isByPlace ? brokenByPlace({ area, lane }, trace, broken) : trace, area.x, lane.y, pen);
  const isSparse = trace.polled === true && !trace.dense;
  const dash = isByPlace ? undefined : (broken ?? (isSparse ? dot.dash : undefined));
  const line = tag("path", { d: pen.text(), "stroke-dasharray": dash });
  return tag(
    "g",
    {
      "data-trace": trace.channelId,
      "clip-path": `url(#${clip})`,
      fill: "none",
      stroke: ink[trace.look],
      "stroke-width": weightOf(trace),
      "stroke-linejoin": "round",
      "stroke-linecap": "round",
      opacity: trace.isBehind ? behind.opacity : undefined,
    },
    line,
    isSparse ? drawSamples(area, lane, trace) : "",
  );
}

/** More than this across a sheet stand closer than the dashes of a line. */
const manySamples = 1000;

/** mm over which a crowded line is smoothed before its dashes are laid along it. */
const smoothing = 0.4;

/** Line caps are round, so a gap is given twice their radius more. */
function brokenByPlace(
  { area, lane }: { readonly area: PlotArea; readonly lane: LaneArea },
  trace: SheetLine,
  dash: string,
): SheetLine {
  const [on, off] = dash.split(" ").map(Number) as [number, number];
  const isOn = dashesAlong([on, off + weights[trace.look]], smoothing);
  const values = trace.values.map((level, i) => {
    const [x, y] = onPaper(area, lane, { time: trace.times[i]!, level });
    return isOn(x, y) ? level : NaN;
  });
  return { ...trace, values };
}

/** Lines of no length with round ends: one path for all samples of a polled channel. */
function drawSamples(area: PlotArea, lane: LaneArea, { times, values, look }: SheetLine): string {
  const pen = compactPen();
  for (let i = 0; i < times.length; i++) {
    const [x, y] = onPaper(area, lane, { time: times[i]!, level: values[i]! });
    if (Number.isNaN(y)) continue;
    pen.moveTo(x, y);
    pen.lineTo(x, y);
  }
  return tag("path", { d: pen.text(), "stroke-width": 2 * dot.size * weights[look] });
}
