// Dimensions as on an engineering drawing (ISO 129-1): extension lines, slim filled arrows, the value, its bounds below.

import type { Box as TextBox } from "../../drawing/boxes.ts";

import {
  type DimensionGeometry,
  dimensionGeometry,
  type Line,
  lineOfText,
  type Point,
  type TextSize,
} from "../../drawing/dimension.ts";
import { dimensionTexts } from "../../drawing/dimension-text.ts";
import { linesOf } from "../../drawing/layer.ts";
import { struck } from "../../drawing/line-room.ts";
import { toPixel } from "../../drawing/paths.ts";
import { TakenRoom } from "../../drawing/taken.ts";
import { ink, weights } from "../paper/ink.ts";
import { textWidth, type Weight } from "../paper/metrics.ts";
import { label, mm, plate, stroke, tag } from "../paper/svg.ts";
import { wrapAtMost } from "../paper/wrap.ts";
import { bottom, right } from "./page.ts";
import { isInView, type LaneArea, laneOf, onPaper, type PlotArea } from "./plot-area.ts";
import type { SheetDimension } from "./sheet.ts";

const valueSize = 5;
const smallSize = 3.3;
const notesWidth = 60;
/** The drawing layer counts in pixels, with arrows 11 long; here they are 3 mm. */
const scale = 3 / 11;
/** A trace through a text is as bad as words so high on it, mm. */
const traceRoom = 4;

interface DimensionText extends TextSize {
  readonly text: string;
  readonly weight: Weight;
  readonly fill: string;
}

/**
 * Later dimensions keep clear of the words that stand already; its own are added to `taken`.
 *
 * @param told  called with each dimension's id and the box of its words.
 */
export function drawDimensions(
  area: PlotArea,
  dimensions: readonly SheetDimension[],
  taken: TextBox[],
  told?: (id: string, box: TextBox) => void,
): string {
  const { x, y } = area.box;
  const room = new TakenRoom({ left: x, top: y, right: right(area.box), bottom: bottom(area.box) }, field);
  for (const box of taken) room.add(box);
  const add = (box: TextBox) => {
    taken.push(box);
    room.add(box);
  };
  return dimensions.map((dimension) => drawDimension(area, dimension, { room, add, told })).join("");
}

/** About a line of text, mm. */
const field = { width: 24, height: 8 };

interface Words {
  readonly room: TakenRoom;
  add(box: TextBox): void;
  readonly told: ((id: string, box: TextBox) => void) | undefined;
}

function drawDimension(area: PlotArea, dimension: SheetDimension, { room, add, told }: Words): string {
  const lane = laneOf(area, dimension.laneId);
  if (!lane || !(isInView(area, dimension.from.time) || isInView(area, dimension.to.time))) return "";
  const texts = textsOf(dimension);
  const lines = linesOf(lane.lane);
  const through = (box: TextBox) => lines.reduce((sum, line) => sum + struck(line, box, [area.x, lane.y], scale), 0);
  const taken = (box: TextBox) => room.overlapOf(box) + traceRoom * through(box);
  const geometry = dimensionGeometry({ ...ends(area, lane, dimension), texts, within: within(lane), taken, scale });
  const words = geometry.texts.map((place, i) => lineOfText(place, texts[i]!));
  for (const box of words) add(box);
  told?.(dimension.id, geometry.textBox);
  const plates = words.filter((box) => through(box) > 0).map(plate);
  return tag("g", { "data-dimension": dimension.id }, ...plates, drawGeometry(geometry), drawTexts(geometry, texts));
}

function ends(area: PlotArea, lane: LaneArea, { kind, from, to, place }: SheetDimension) {
  const point = (at: SheetDimension["from"]): Point => {
    const [x, y] = onPaper(area, lane, at);
    return { x, y };
  };
  const line = kind === "time" ? clamp(toPixel(lane.y, place), lane.box.y, bottom(lane.box)) : toPixel(area.x, place);
  return { kind, from: point(from), to: point(to), place: line };
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

const within = ({ box }: LaneArea): TextBox => ({
  left: box.x + 1,
  top: box.y + 1,
  right: right(box) - 1,
  bottom: bottom(box) - 1,
});

/** The value; below it the bounds and the words the user gave it. */
function textsOf({ reading, label: words }: SheetDimension): DimensionText[] {
  const [value = "", ...notes] = dimensionTexts(reading, words.trim());
  const lines = notes.flatMap((note) => wrapAtMost(3, note, notesWidth, { size: smallSize }));
  return [
    sized(value, { size: valueSize, weight: 600, fill: ink.line }),
    ...lines.map((text) => sized(text, { size: smallSize, weight: 400, fill: ink.soft })),
  ];
}

const sized = (text: string, look: { size: number; weight: Weight; fill: string }): DimensionText => ({
  text,
  width: textWidth(text, look.size, look.weight),
  ...look,
});

function drawGeometry({ extensions, lines, arrows }: DimensionGeometry): string {
  const draw = ({ from, to }: Line, weight: number) => stroke([from.x, from.y], [to.x, to.y], { weight });
  const corners = arrows.map((arrow) => `M${arrow.map(({ x, y }) => `${mm(x)} ${mm(y)}`).join("L")}Z`);
  return tag(
    "g",
    { stroke: ink.line, fill: "none" },
    ...extensions.map((line) => draw(line, weights.extension)),
    ...lines.map((line) => draw(line, weights.dimension)),
    tag("path", { d: corners.join(""), fill: ink.line, stroke: "none" }),
  );
}

function drawTexts({ texts }: DimensionGeometry, words: readonly DimensionText[]): string {
  return texts
    .map(({ x, y, anchor }, i) => {
      const { text, size, weight, fill } = words[i]!;
      return label(x, y, text, { size, weight, fill, anchor });
    })
    .join("");
}
