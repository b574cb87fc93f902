// All dimensions of the stack laid out together, so that their texts stay off each other.

import type { Box } from "../drawing/boxes.ts";
import { type DimensionGeometry, dimensionGeometry, type Point } from "../drawing/dimension.ts";
import { asFrequency, dimensionTexts } from "../drawing/dimension-text.ts";
import { toPixel } from "../drawing/paths.ts";
import type { Stage } from "./stage.ts";
import { textWidth } from "./text-width.ts";
import type { DimensionLook } from "./types.ts";

export const valueSize = 17;
export const noteSize = 13;

export interface LaidOut {
  readonly geometry: DimensionGeometry;
  readonly texts: readonly string[];
  readonly from: Point;
  readonly to: Point;
  /** Pixel of the dimension line, kept within the lane. */
  readonly place: number;
}

const inset = 14;
/** The lane's title stands here; texts keep off it. */
const headWidth = 230;
const headHeight = 26;

/** @param frequencies ids of time pairs shown as 1/time. */
export function layOutDimensions(
  dimensions: readonly DimensionLook[],
  stage: Stage,
  frequencies: ReadonlySet<string>,
): ReadonlyMap<string, LaidOut> {
  const laid = new Map<string, LaidOut>();
  const taken = new Map<string, Box[]>();
  for (const look of dimensions) {
    const box = stage.boxes().get(look.laneId);
    if (box === undefined) continue;
    const others = taken.get(look.laneId) ?? [headOf(box)];
    const one = layOut(look, stage, box, { isFrequency: frequencies.has(look.id), taken: others });
    laid.set(look.id, one);
    taken.set(look.laneId, [...others, one.geometry.textBox]);
  }
  return laid;
}

function layOut(
  look: DimensionLook,
  stage: Stage,
  box: Box,
  { isFrequency, taken }: { readonly isFrequency: boolean; readonly taken: readonly Box[] },
): LaidOut {
  const [x, y] = [stage.x(), stage.y(look.laneId)];
  const from = { x: toPixel(x, look.from.time), y: toPixel(y, look.from.level) };
  const to = { x: toPixel(x, look.to.time), y: toPixel(y, look.to.level) };
  const place =
    look.kind === "time"
      ? clamp(toPixel(y, look.place), box.top + inset, box.bottom - inset)
      : clamp(toPixel(x, look.place), box.left + inset, box.right - inset);
  const texts = dimensionTexts(isFrequency ? asFrequency(look.reading) : look.reading, look.label);
  const sizes = texts.map((text, i) =>
    i === 0
      ? { width: textWidth(text, valueSize, 600), size: valueSize }
      : { width: textWidth(text, noteSize), size: noteSize },
  );
  const geometry = dimensionGeometry({ kind: look.kind, from, to, place, texts: sizes, within: box, taken });
  return { geometry, texts, from, to, place };
}

const headOf = (box: Box): Box => ({ ...box, right: box.left + headWidth, bottom: box.top + headHeight });

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), Math.max(low, high));
