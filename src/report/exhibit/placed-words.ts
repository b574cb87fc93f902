// Where the words that a user may change stand on the sheet, so that they can be taken hold of on its picture.

import type { Box as TextBox } from "../../drawing/boxes.ts";
import { drawDimensions } from "./draw-dimensions.ts";
import { drawHead } from "./draw-head.ts";
import { drawNotes, drawShadeName } from "./draw-notes.ts";
import { arrange } from "./exhibit-svg.ts";
import { isInView, laneOf, onPaper } from "./plot-area.ts";
import type { ExhibitSheet } from "./sheet.ts";

export interface PlacedWords {
  readonly kind: "headline" | "subline" | "label" | "note";
  /** Of the dimension or the note; "" else. */
  readonly id: string;
  /** mm from the sheet's upper left corner. */
  readonly box: TextBox;
  /** What a note points at, mm. */
  readonly point?: readonly [x: number, y: number];
}

/** A note without words yet stands right of its point. */
const waiting = { x: 9, y: 14, width: 40, height: 6 } as const;

/** Headline first, then labels, then notes. */
export function placedWords(sheet: ExhibitSheet): readonly PlacedWords[] {
  const { head, plot } = arrange(sheet);
  const { subFrom, height } = drawHead(sheet, head);
  const across = { left: head.x, right: head.x + head.width };
  const words: PlacedWords[] = [
    { kind: "headline", id: "", box: { ...across, top: head.y, bottom: head.y + subFrom } },
    {
      kind: "subline",
      id: "",
      box: { ...across, top: head.y + subFrom, bottom: head.y + Math.max(height, subFrom + 5) },
    },
  ];
  const taken: TextBox[] = [];
  drawShadeName(plot, sheet.shade, taken);
  drawDimensions(plot, sheet.dimensions, taken, (id, box) => words.push({ kind: "label", id, box }));
  const notes = new Map<string, TextBox>();
  drawNotes(plot, sheet.notes, taken, (id, box) => notes.set(id, box));
  for (const { id, laneId, at } of sheet.notes) {
    const lane = laneOf(plot, laneId);
    if (!lane || !isInView(plot, at.time)) continue;
    const point = onPaper(plot, lane, at);
    const [left, top] = [point[0] + waiting.x, point[1] - waiting.y];
    const box = notes.get(id) ?? { left, top, right: left + waiting.width, bottom: top + waiting.height };
    words.push({ kind: "note", id, box, point });
  }
  return words;
}
