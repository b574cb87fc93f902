// One lane's canvas: uPlot keeps canvas, scales and the vertical axis; the traces come with their own stamps, so their
// paths are ours. The only file that speaks to uPlot.

import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import { linesOf } from "../../drawing/layer.ts";
import { drawLine, firstAfter, mapping, toPixel } from "../../drawing/paths.ts";
import { type ShownTicks, shownLevelTicks, type Ticks } from "../../drawing/scale.ts";
import { decimalsOfStep, formatNumber } from "../../signal/written/digits.ts";
import type { Colours } from "../stage/colours.ts";
import { gutter } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import { type TraceStyle, traceStyles } from "../stage/trace-style.ts";
import type { LaneLook, Range, TraceWindow, View } from "../stage/types.ts";
import { type Crowd, crowdOf, drawCrowd } from "./crowd.ts";
import { drawBands, drawGuides } from "./lane-under.ts";

export interface LanePicture {
  readonly lane: LaneLook;
  readonly windows: ReadonlyMap<string, TraceWindow>;
  readonly view: View;
  readonly range: Range;
  /** CSS pixels, gutter included, canvasPadding not. */
  readonly width: number;
  readonly height: number;
  /** Of it above the scale, for the names. */
  readonly head: number;
  readonly colours: Colours;
}

export interface LaneCanvas {
  show(picture: LanePicture): void;
  destroy(): void;
}

/** The canvas reaches this far above and below its lane, so that figures at the ends of the scale are whole. */
export const canvasPadding = 8;
/** Samples further apart than this are shown as dots. */
const dotSpacing = 11;
const guideRoom = 15;
/** Between the samples of a polled trace nobody looked: the line there is paler than its dots. */
const guessAlpha = 0.45;
const font = () => `${letterSize(13)}px "Source Sans 3", "Segoe UI", system-ui, sans-serif`;

/** Makes an empty canvas in `host`; nothing is drawn before the first `show`. */
export function makeLaneCanvas(host: HTMLElement): LaneCanvas {
  let picture: LanePicture | null = null;
  let plot: uPlot | null = null;
  let made = "";

  return {
    show(next) {
      picture = next;
      const styles = traceStyles(linesOf(next.lane));
      const key = JSON.stringify([styles, next.head]);
      if (plot === null || key !== made) {
        plot?.destroy();
        made = key;
        plot = new uPlot(
          optionsFor(() => picture!, styles),
          flatData(styles.length),
          host,
        );
      }
      redraw(plot, next);
    },
    destroy: () => plot?.destroy(),
  };
}

/** uPlot wants one array of times for all; ours are in the windows, so it gets two points it never draws. */
const flatData = (count: number): uPlot.AlignedData =>
  [[0, 1], ...Array.from({ length: count }, () => [0, 0])] as unknown as uPlot.AlignedData;

function redraw(plot: uPlot, { width, height, view, range }: LanePicture): void {
  plot.batch(() => {
    const full = height + 2 * canvasPadding;
    if (plot.width !== width || plot.height !== full) plot.setSize({ width, height: full });
    plot.setScale("x", { min: view.from, max: view.to });
    plot.setScale("y", { min: range[0], max: range[1] });
  });
}

function optionsFor(picture: () => LanePicture, styles: readonly TraceStyle[]): uPlot.Options {
  const { width, height, view, range } = picture();
  /** By series, as long as its path stands. */
  const crowds = new Map<number, Crowd>();
  return {
    width,
    height: height + 2 * canvasPadding,
    padding: [() => canvasPadding + picture().head, 0, canvasPadding, 0],
    legend: { show: false },
    cursor: { show: false },
    select: { show: false, left: 0, top: 0, width: 0, height: 0 },
    scales: {
      x: { time: false, auto: false, range: (_, low, high) => [low ?? view.from, high ?? view.to] },
      y: { auto: false, range: (_, low, high) => [low ?? range[0], high ?? range[1]] },
    },
    axes: [{ show: false }, verticalAxis(picture)],
    series: [{}, ...styles.map((style) => seriesFor(style, picture, crowds))],
    hooks: {
      drawAxes: [(plot) => drawUnder(plot, picture())],
      drawSeries: [
        (plot, index) => {
          const [style, crowd] = [styles[index - 1]!, crowds.get(index)];
          within(plot, crowd ? 0 : style.dotRadius * uPlot.pxRatio, () => {
            if (crowd) drawCrowd(plot.ctx, crowd, style, picture().colours);
            else drawDots(plot, style, picture());
          });
        },
      ],
    },
  };
}

function verticalAxis(picture: () => LanePicture): uPlot.Axis {
  const marks = () => axisMarks(picture());
  return {
    scale: "y",
    side: 3,
    size: gutter,
    gap: 8,
    font: font(),
    stroke: () => picture().colours.soft,
    splits: () => [...marks().values],
    values: (_, splits) =>
      splits.map((value) => {
        const said = marks().written(value);
        return formatNumber(said, decimalsFor(said, marks().step));
      }),
    grid: { stroke: () => picture().colours.grid, width: 1, filter: (_, splits) => splits.map(notGuide(picture())) },
    ticks: { show: false },
  };
}

/** Round steps, and the guides; a figure that would touch a guide's gives way. */
function axisMarks({ lane, range, height, head }: LanePicture): Ticks & ShownTicks {
  const guides = lane.guides.filter((guide) => guide > range[0] && guide < range[1]);
  const scaled = height - head;
  const { values, step, written } = shownLevelTicks(range[0], range[1], tickCount(scaled), lane.unit);
  const room = (guideRoom / scaled) * (range[1] - range[0]);
  const free = values.filter((value) => guides.every((guide) => Math.abs(guide - value) > room));
  return { values: [...free, ...guides].sort((a, b) => a - b), step, written };
}

/** As many figures as a lane has room for, and no more than the eye wants. */
const tickCount = (height: number): number => Math.min(6, Math.max(2, Math.floor(height / 18)));

/** A guide such as 0.45 V may need more decimals than the steps do. */
function decimalsFor(value: number, step: number): number {
  if (value === 0) return 0;
  const decimals = decimalsOfStep(step);
  return Math.abs(Number(value.toFixed(decimals)) - value) > 1e-9 ? decimals + 1 : decimals;
}

const notGuide =
  ({ lane }: LanePicture) =>
  (value: number): number | null =>
    lane.guides.includes(value) ? null : value;

function seriesFor(style: TraceStyle, picture: () => LanePicture, crowds: Map<number, Crowd>): uPlot.Series {
  const { trace, token, width, dash } = style;
  return {
    scale: "y",
    width,
    alpha: style.alpha,
    dash: [...dash],
    cap: "round",
    pxAlign: 0,
    stroke: () => picture().colours[token],
    fill: () => picture().colours[token],
    points: { show: false },
    paths: (plot, index) => {
      crowds.delete(index);
      const window = picture().windows.get(trace.channelId);
      if (window === undefined || trace.isUnseen) return null;
      if (isCrowded(window, picture().view, plot.bbox.width)) {
        const sheet = { left: plot.bbox.left, columns: plot.bbox.width, ratio: uPlot.pxRatio };
        const crowd = crowdOf(window, mappings(plot), style, sheet);
        crowds.set(index, crowd);
        return { fill: crowd.outline };
      }
      const isGuess = trace.polled === true && areSparse(window, picture().view, plot.bbox.width / uPlot.pxRatio);
      // uPlot looks at a series' alpha after it has built its path.
      plot.series[index]!.alpha = style.alpha * (isGuess ? guessAlpha : 1);
      const path = new Path2D();
      drawLine(window, ...mappings(plot), path);
      return { stroke: path };
    },
  };
}

/** From seconds and units to canvas pixels. */
function mappings(plot: uPlot) {
  const { left, top, width, height } = plot.bbox;
  const { x, y } = plot.scales as Record<"x" | "y", uPlot.Scale>;
  return [mapping(x.min!, x.max!, left, left + width), mapping(y.min!, y.max!, top + height, top)] as const;
}

function drawUnder(plot: uPlot, picture: LanePicture): void {
  const [x, y] = mappings(plot);
  const under = { ...picture, ratio: uPlot.pxRatio };
  drawBands(plot.ctx, plot.bbox, [x, y], under);
  drawGuides(plot.ctx, plot.bbox, y, under);
}

/** Clipped to the lane, and so much wider at its sides. */
function within({ ctx, bbox }: uPlot, more: number, draw: () => void): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left - more, bbox.top, bbox.width + 2 * more, bbox.height);
  ctx.clip();
  draw();
  ctx.restore();
}

/** Where samples stand apart, the eye must see what was recorded and what is only joined up. */
function drawDots(plot: uPlot, style: TraceStyle, { windows, view, colours }: LanePicture): void {
  const window = windows.get(style.trace.channelId);
  if (window === undefined || style.alpha === 0 || !areSparse(window, view, plot.bbox.width / uPlot.pxRatio)) return;
  const { ctx } = plot;
  const [x, y] = mappings(plot);
  const radius = style.dotRadius * uPlot.pxRatio;
  ctx.beginPath();
  for (let i = firstAfter(window.times, view.from) - 1; i <= firstAfter(window.times, view.to); i++) {
    const value = window.values[i] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    const [px, py] = [toPixel(x, window.times[i]!), toPixel(y, value)];
    ctx.moveTo(px + radius, py);
    ctx.arc(px, py, radius, 0, 2 * Math.PI);
  }
  ctx.globalAlpha = style.alpha;
  ctx.fillStyle = colours[style.token];
  ctx.fill();
}

function areSparse(window: TraceWindow, view: View, width: number): boolean {
  return !window.dense && countWithin(window, view) < width / dotSpacing;
}

/** So many samples per pixel that the line is drawn as one filled outline. */
function isCrowded(window: TraceWindow, view: View, columns: number): boolean {
  return countWithin(window, view) > 0.7 * columns;
}

const countWithin = ({ times }: TraceWindow, { from, to }: View): number =>
  firstAfter(times, to) - firstAfter(times, from);
