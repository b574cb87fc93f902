// The title block in the lower right corner, as ISO 7200 has it: who, what, from which recording, with what settings.

import { ink, smallest, weights } from "../paper/ink.ts";
import { capHeight } from "../paper/metrics.ts";
import { label, stroke, tag } from "../paper/svg.ts";
import { shortenEnd, shortenMiddle, wrapAtMost } from "../paper/wrap.ts";
import { type Box, titleWidth } from "./page.ts";
import type { TitleBlock } from "./sheet.ts";
import { sheetMark, sheetText } from "./sheet-number.ts";

interface Cell {
  readonly name: string;
  /** Found again by it in the finished picture. */
  readonly mark?: string;
  readonly lines: readonly string[];
  readonly width: number;
  readonly size: number;
}

const pad = 2;
const nameSize = smallest;
const valueSize = 3.3;
const smallSize = smallest;
const lead = 1.28;

const boundsNote =
  "Bounds hold the true value in at least 95 of 100 cases. The decision rests with the technician and with local rules.";

/** One value on one line; a file name loses its middle, other text its end. */
function cell(name: string, value: string, width: number, cut: typeof shortenEnd = shortenEnd): Cell {
  const text = value.trim() === "" ? "not stated" : value;
  return { name, lines: [cut(text, width - 2 * pad, { size: valueSize, weight: 600 })], width, size: valueSize };
}

function ticked(title: TitleBlock): Cell[] {
  const shown = [
    ["Number plate", title.plate],
    ["VIN", title.vin],
    ["Customer", title.customer],
  ].filter((entry): entry is [string, string] => entry[1] !== null);
  return shown.map(([name, value]) => cell(name, value, titleWidth / shown.length));
}

function settingsCell(title: TitleBlock): Cell {
  const text = title.settings.join(" ");
  const lines = wrapAtMost(4, text, titleWidth - 2 * pad, { size: smallSize });
  return { name: "Settings in force", lines, width: titleWidth, size: smallSize };
}

/** In groups of eight, so that two people can read it to each other. */
function hashCell(sha256: string): Cell {
  const groups = (sha256.match(/.{1,8}/g) ?? []).join(" ");
  const short = `${sha256.slice(0, 8)} … ${sha256.slice(-8)}`;
  return { name: `SHA-256 of the recording: ${short}, in full`, lines: [groups], width: 140, size: valueSize };
}

function rowsOf(title: TitleBlock): Cell[][] {
  const rows = [
    [
      cell("Job", title.job, 58),
      cell("Vehicle", title.vehicle, 76),
      { ...cell("Sheet", sheetText(title), 23), mark: sheetMark },
      cell("Revision", String(title.revision), 23),
    ],
    ticked(title),
    [
      cell("Recording", title.recording, 92, shortenMiddle),
      cell("Sample rate", title.sampleRate, 42),
      cell("Recorded", title.recordedAt, 46),
    ],
    [cell("Conditions", title.conditions, 92), cell("Drawn by", title.drawnBy, 42), cell("Date", title.drawnAt, 46)],
    [settingsCell(title)],
    [hashCell(title.sha256), cell("Made with", "Tracewright", 40)],
  ];
  return rows.filter((row) => row.length > 0);
}

const nameLine = 1.3 + nameSize * capHeight;
const heightOf = (row: readonly Cell[]): number =>
  Math.max(...row.map(({ lines, size }) => nameLine + 1 + size * lead * lines.length + 0.7));

const noteHeight = 5.2;

/** mm the block needs; its width is always 180. */
export function titleBlockHeight(title: TitleBlock): number {
  return rowsOf(title).reduce((sum, row) => sum + heightOf(row), noteHeight);
}

function drawCell({ name, lines, size, mark }: Cell, x: number, y: number): string {
  const weight = size === valueSize ? 600 : 400;
  const value = lines
    .map((line, i) => label(x + pad, y + nameLine + 1 + size * (0.9 + lead * i), line, { size, weight }))
    .join("");
  const head = label(x + pad, y + nameLine, name, { size: nameSize, fill: ink.soft });
  return head + (mark === undefined ? value : tag("g", { "data-part": mark }, value));
}

function drawRow(row: readonly Cell[], x: number, y: number): string {
  let left = x;
  return row
    .map((entry, i) => {
      const wall =
        i === 0 ? "" : stroke([left, y], [left, y + heightOf(row)], { weight: weights.cell, stroke: ink.line });
      const drawn = wall + drawCell(entry, left, y);
      left += entry.width;
      return drawn;
    })
    .join("");
}

/** Draws the block into `box`, whose height must be `titleBlockHeight`. */
export function drawTitleBlock(title: TitleBlock, box: Box): string {
  let y = box.y;
  const rows = rowsOf(title).map((row) => {
    const drawn = drawRow(row, box.x, y);
    y += heightOf(row);
    return drawn + stroke([box.x, y], [box.x + box.width, y], { weight: weights.cell, stroke: ink.line });
  });
  return tag(
    "g",
    {},
    tag("rect", { ...box, fill: "none", stroke: ink.line, "stroke-width": weights.block }),
    ...rows,
    label(box.x + pad, y + 3.5, boundsNote, { size: smallSize, fill: ink.soft }),
  );
}
