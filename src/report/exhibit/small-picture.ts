// The exhibit's sensor lanes alone, drawn for the width of the customer's sheet, so that no text on it is below 8 pt. It lies within
// the exhibit's SVG: one frozen file holds both, and neither can be of another state of the bench.

import { bandsOf } from "../../drawing/layer.ts";
import { ink, typeface } from "../paper/ink.ts";
import { plainText } from "../paper/plain-text.ts";
import { label, tag, xmlText } from "../paper/svg.ts";
import { drawPlot } from "./draw-plot.ts";
import { plotArea } from "./plot-area.ts";
import type { ExhibitSheet, SheetLane } from "./sheet.ts";

/** mm: the width between the margins of an A4 sheet, and a third of its height. */
const size = { width: 182, height: 84 } as const;
const sentenceHeight = 5;
const sentenceSize = 3.6;

/** It names the band: the line of names has its room for the sensors'. */
const soundSentence = "A sound converter would have stayed in the grey band.";

/** Kept in the exhibit's SVG. */
export function smallPicture(sheet: ExhibitSheet): string {
  const { lanes: all, dimensions } = sheet.small ?? sheet;
  const lanes = shownLanes(all);
  const isSound = lanes.some((lane) => bandsOf(lane).some(({ fill }) => fill === "grey"));
  const foot = isSound ? sentenceHeight : 0;
  const named = isSound ? lanes.map((lane) => ({ ...lane, namesNoBands: true })) : lanes;
  const plot = plotArea(
    { lanes: named, view: sheet.view },
    { x: 0, y: 0, width: size.width, height: size.height - foot },
  );
  const sentence = isSound
    ? label(plot.box.x, size.height - 1, soundSentence, { size: sentenceSize, weight: 600 })
    : "";
  const svg = tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: `${size.width}mm`,
      height: `${size.height}mm`,
      viewBox: `0 0 ${size.width} ${size.height}`,
      "font-family": typeface,
      fill: ink.line,
    },
    tag("rect", { width: size.width, height: size.height, fill: ink.paper }),
    drawPlot({ dimensions, notes: sheet.notes, marks: sheet.marks, shade: null }, plot) + sentence,
  );
  return tag("metadata", { id: name }, xmlText(svg));
}

const name = "small-picture";

/** As it stands in an exhibit's SVG, with the fonts of that; null in one that was made before there were any. */
export function smallPictureIn(exhibit: string): string | null {
  const text = new RegExp(`<metadata id="${name}">([^<]*)</metadata>`).exec(exhibit)?.[1];
  if (text === undefined) return null;
  const fonts = /<style>[^<]*<[/]style>/.exec(exhibit)?.[0] ?? "";
  return plainText(text).replace(/^<svg[^>]*>/, (head) => head + fonts);
}

/** Lanes with a sensor in them; without any, the first. A thin line says nothing to a customer and takes the names' room. */
function shownLanes(lanes: readonly SheetLane[]): readonly SheetLane[] {
  const withSensors = lanes.filter((lane) => lane.layers.some(({ look }) => look !== "other"));
  const shown = withSensors.length > 0 ? withSensors.slice(0, 2) : lanes.slice(0, 1);
  return shown.map((lane) => ({ ...lane, layers: lane.layers.filter((one) => one.form === "band" || !one.isThin) }));
}
