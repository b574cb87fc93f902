// The lines of a lane: thin and warm before the catalyst, thick and cool after it, so that they differ in grey as well.

import { dashesAlong } from "../../drawing/band.ts";
import { drawLine, type Pen } from "../../drawing/paths.ts";
import { behind, dashOf, ink, weightOf, weights } from "../paper/ink.ts";
import { tag } from "../paper/svg.ts";
import { type LaneArea, onPaper, type PlotArea } from "./plot-area.ts";
import type { SheetLine } from "./sheet.ts";

/** Hundredths of a millimetre. */
const grain = 100;

/**
 * A pen that writes the `d` of an SVG path in steps of 0.01 mm from point to point, and leaves out steps of no length:
 * a long dense trace takes a few bytes per column.
 */
export function compactPen(): Pen & { text(): string } {
  const parts: string[] = [];
  let [lastX, lastY] = [0, 0];
  let isFresh = false;
  const step = (x: number, y: number): readonly [number, number] => {
    const [newX, newY] = [Math.round(x * grain), Math.round(y * grain)];
    const by = [newX - lastX, newY - lastY] as const;
    [lastX, lastY] = [newX, newY];
    return by;
  };
  return {
    moveTo(x, y) {
      [lastX, lastY] = [0, 0];
      parts.push(`M${pair(step(x, y))}l`);
      isFresh = true;
    },
    lineTo(x, y) {
      const by = step(x, y);
      if (by[0] === 0 && by[1] === 0 && !isFresh) return;
      parts.push(isFresh ? pair(by) : spaced(pair(by)));
      isFresh = false;
    },
    text: () => parts.join(""),
  };
}

/** A minus sign parts two numbers by itself. */
const spaced = (text: string): string => (text.startsWith("-") ? text : ` ${text}`);
const pair = ([x, y]: readonly [number, number]): string => short(x) + spaced(short(y));

/** 12 -> ".12", -5 -> "-.05", 250 -> "2.5"; by whole numbers, for a trace has thousands. */
function short(hundredths: number): string {
  const size = Math.abs(hundredths);
  const whole = Math.floor(size / grain);
  const rest = size % grain;
  const sign = hundredths < 0 ? "-" : "";
  if (rest === 0) return sign + whole;
  const digits = rest % 10 === 0 ? rest / 10 : rest < 10 ? `0${rest}` : rest;
  return `${sign}${whole === 0 ? "" : whole}.${digits}`;
}

/** Radius of a sample's dot, as a multiple of the line's width, and the dash of the guess between two. */
const dot = { size: 1.6, dash: "0.4 1" } as const;

/** One trace of a lane, clipped to the lane's box by `clip`. */
export function drawTrace(area: PlotArea, lane: LaneArea, trace: SheetLine, clip: string): string {
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
