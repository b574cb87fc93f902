// The exhibit: one drawing sheet as SVG text. Pure; the same sheet always gives the same text.

import { ink, typeface } from "../paper/ink.ts";
import { tag, xmlText } from "../paper/svg.ts";
import { drawDetailFrames, drawDetails, sharedRoom } from "./draw-details.ts";
import { drawFrame } from "./draw-frame.ts";
import { drawHead } from "./draw-head.ts";
import { drawPlot } from "./draw-plot.ts";
import { drawReadings } from "./draw-readings.ts";
import { drawTitleBlock, titleBlockHeight } from "./draw-title-block.ts";
import { type Box, bottom, type Page, pageOf, right, titleWidth } from "./page.ts";
import { type PlotArea, plotArea } from "./plot-area.ts";
import type { ExhibitSheet } from "./sheet.ts";
import { smallPicture } from "./small-picture.ts";

/** mm between the frame and what stands in it, and between head, lanes and foot. */
const pad = 5;
const gap = 3;

export interface SheetExtras {
  /** CSS `@font-face` rules with the fonts in them, so that the picture looks the same everywhere. */
  readonly fontFaces?: string;
  /** Kept in the picture for whoever opens it again; JSON. */
  readonly metadata?: string;
}

/** Where the lanes stand on the sheet, mm from its upper left corner; so that a touch on the picture names a place. */
export function sheetPlot(sheet: ExhibitSheet): { readonly page: Page; readonly plot: PlotArea } {
  const { page, plot } = arrange(sheet);
  return { page, plot };
}

export function exhibitSvg(sheet: ExhibitSheet, extras: SheetExtras = {}): string {
  const { page, head, plot, details, title, readings } = arrange(sheet);
  return tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: `${page.width}mm`,
      height: `${page.height}mm`,
      viewBox: `0 0 ${page.width} ${page.height}`,
      "font-family": typeface,
      fill: ink.line,
      role: "img",
    },
    tag("title", {}, xmlText(sheet.headline)),
    extras.metadata === undefined ? "" : tag("metadata", {}, xmlText(extras.metadata)),
    extras.metadata === undefined ? "" : smallPicture(sheet),
    extras.fontFaces === undefined ? "" : tag("style", {}, xmlText(extras.fontFaces)),
    tag("rect", { width: page.width, height: page.height, fill: ink.paper }),
    drawHead(sheet, head).markup,
    drawPlot(sheet, plot),
    drawDetailFrames(plot, sheet.details ?? []),
    drawDetails(sheet.details ?? [], details),
    drawReadings(sheet.readings, readings),
    drawTitleBlock(sheet.title, title),
    drawFrame(page),
  );
}

/** Where each part of the sheet stands, mm. */
export function arrange(sheet: ExhibitSheet) {
  const page = pageOf(sheet.paper);
  const { frame } = page;
  const footHeight = titleBlockHeight(sheet.title);
  const foot = bottom(frame) - footHeight;
  const title: Box = { x: right(frame) - titleWidth, y: foot, width: titleWidth, height: footHeight };
  const readings: Box = { x: frame.x, y: foot, width: frame.width - titleWidth, height: footHeight };
  const head: Box = { x: frame.x + pad, y: frame.y + pad - 1, width: frame.width - 2 * pad, height: 0 };
  const top = head.y + drawHead(sheet, head).height + gap;
  const middle: Box = { x: frame.x + pad - 2, y: top, width: frame.width - 2 * pad + 4, height: foot - gap - top };
  const [lanes, details] = sharedRoom(sheet, middle);
  return { page, head, plot: plotArea(sheet, lanes), details, title, readings };
}
