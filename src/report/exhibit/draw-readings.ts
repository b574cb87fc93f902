// Left of the title block: the readings in view with their bounds, or how to read the sheet where there are none.

import { formatReading } from "../../signal/written/reading-text.ts";
import { ink, smallest, weights } from "../paper/ink.ts";
import { textWidth } from "../paper/metrics.ts";
import { label, stroke, tag } from "../paper/svg.ts";
import { shortenEnd, wrapAtMost } from "../paper/wrap.ts";
import { type Box, right } from "./page.ts";
import type { NamedReading } from "./sheet.ts";

const pad = 2;
const nameSize = smallest;
const valueSize = 3.6;
const rowHeight = 7.9;
const headHeight = 4.6;

const guide = [
  "A dimension reads as on any technical drawing: two thin lines mark the places, the arrows span between them,",
  "the large figure is the value, the two small figures are the bounds that hold it.",
].join(" ");

export function drawReadings(readings: readonly NamedReading[], box: Box): string {
  const frame = tag("rect", { ...box, fill: "none", stroke: ink.line, "stroke-width": weights.block });
  return tag("g", {}, frame, readings.length === 0 ? drawGuide(box) : drawTable(readings, box));
}

function drawGuide(box: Box): string {
  const size = 3.3;
  const count = Math.floor((box.height - headHeight - pad) / (size * 1.3));
  const lines = wrapAtMost(count, guide, box.width - 2 * pad, { size });
  const head = drawHeadLine("How to read this sheet", box);
  return (
    head +
    lines.map((line, i) => label(box.x + pad, box.y + headHeight + size * (1 + 1.3 * i), line, { size })).join("")
  );
}

function drawTable(readings: readonly NamedReading[], box: Box): string {
  const room = Math.floor((box.height - headHeight) / rowHeight);
  const shown = readings.slice(0, room);
  const left = readings.length - shown.length;
  const head = left === 0 ? "Readings" : `Readings, ${shown.length} of ${readings.length}`;
  return (
    drawHeadLine(head, box) + shown.map((entry, i) => drawRow(entry, box, box.y + headHeight + i * rowHeight)).join("")
  );
}

const drawHeadLine = (text: string, box: Box): string =>
  label(box.x + pad, box.y + 3.1, text, { size: smallest, fill: ink.soft });

/** The name, and below it the value with its bounds and how many stand behind it. */
function drawRow({ name, reading }: NamedReading, box: Box, y: number): string {
  const width = box.width - 2 * pad;
  const { value, bounds } = formatReading(reading);
  const behind = reading.count === undefined ? "" : `n = ${reading.count}`;
  const valueText = shortenEnd(value, width, { size: valueSize, weight: 600 });
  const used = textWidth(valueText, valueSize, 600) + 2.5;
  const beside = [bounds, behind].filter((text) => text !== "").join(", ");
  const besideText = width - used > 5 ? shortenEnd(beside, width - used, { size: nameSize }) : "";
  return [
    stroke([box.x, y], [right(box), y], { weight: weights.grid, stroke: ink.grid }),
    label(box.x + pad, y + 2.9, shortenEnd(name, width, { size: nameSize }), { size: nameSize, fill: ink.soft }),
    label(box.x + pad, y + 6.6, valueText, { size: valueSize, weight: 600 }),
    beside === "" ? "" : label(box.x + pad + used, y + 6.6, besideText, { size: nameSize, fill: ink.soft }),
  ].join("");
}
