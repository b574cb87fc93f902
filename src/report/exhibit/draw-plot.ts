// The lanes of a sheet with all that stands on them.

import type { Box as TextBox } from "../../drawing/boxes.ts";
import { plate } from "../paper/svg.ts";
import { drawDimensions } from "./draw-dimensions.ts";
import { drawLanes } from "./draw-lanes.ts";
import { drawMarks, drawNotes, drawShade, drawShadeName } from "./draw-notes.ts";
import type { PlotArea } from "./plot-area.ts";
import type { ExhibitSheet } from "./sheet.ts";

/** Over the traces: first a ground for all words, so that it covers no line of a dimension, then what the user placed. */
export function drawPlot(
  sheet: Pick<ExhibitSheet, "shade" | "dimensions" | "notes" | "marks">,
  plot: PlotArea,
): string {
  const taken: TextBox[] = [];
  const placed = [
    drawShadeName(plot, sheet.shade, taken),
    drawDimensions(plot, sheet.dimensions, taken),
    drawNotes(plot, sheet.notes, taken),
  ];
  return [
    drawShade(plot, sheet.shade),
    drawLanes(plot),
    ...taken.map(plate),
    drawMarks(plot, sheet.marks),
    ...placed,
  ].join("");
}
