// All dimensions of the stack laid out together, so that their texts stay off each other.

import type { Box } from "../../drawing/boxes.ts";
import {
  type DimensionGeometry,
  type DimensionRequest,
  dimensionGeometry,
  type Point,
} from "../../drawing/dimension.ts";
import { asFrequency, dimensionTexts } from "../../drawing/dimension-text.ts";
import { toPixel } from "../../drawing/paths.ts";
import { headHeight, headroom } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import type { DimensionLook } from "../stage/types.ts";

export const valueSize = () => letterSize(17);
export const noteSize = () => letterSize(13);

export interface LaidOut {
  readonly geometry: DimensionGeometry;
  readonly texts: readonly string[];
  readonly from: Point;
  readonly to: Point;
  /** Pixel of the dimension line, kept within the lane. */
  readonly place: number;
}

const inset = 14;
/** Half the room a line takes from a text. */
const lineHalf = 3;
/** A low lane's title stands over the traces; texts keep off it. */
const headWidth = 230;

/** @param frequencies ids of time pairs shown as 1/time. */
export function layOutDimensions(
  dimensions: readonly DimensionLook[],
  stage: Stage,
  frequencies: ReadonlySet<string>,
): ReadonlyMap<string, LaidOut> {
  const requests = dimensions.flatMap((look) => request(look, stage, frequencies.has(look.id)) ?? []);
  const laid = new Map<string, LaidOut>();
  const inLane = new Map<string, Box[]>();
  for (const { look, ...one } of requests) {
    const others = requests.filter((other) => other.look !== look && other.look.laneId === look.laneId);
    const texts = inLane.get(look.laneId) ?? [];
    const taken = [...texts, ...headOf(look.laneId, stage), ...others.flatMap((other) => lineBoxes(other.alone))];
    const geometry = dimensionGeometry({ ...one.asked, taken });
    inLane.set(look.laneId, [...texts, geometry.textBox]);
    laid.set(look.id, { geometry, texts: one.texts, from: one.asked.from, to: one.asked.to, place: one.asked.place });
  }
  return laid;
}

interface Requested {
  readonly look: DimensionLook;
  readonly texts: readonly string[];
  readonly asked: DimensionRequest;
  /** Its lines do not depend on where its text finds room. */
  readonly alone: DimensionGeometry;
}

function request(look: DimensionLook, stage: Stage, isFrequency: boolean): Requested | null {
  const within = stage.plots().get(look.laneId);
  if (within === undefined) return null;
  const [x, y] = [stage.x(), stage.y(look.laneId)];
  const from = { x: toPixel(x, look.from.time), y: toPixel(y, look.from.level) };
  const to = { x: toPixel(x, look.to.time), y: toPixel(y, look.to.level) };
  const place =
    look.kind === "time"
      ? clamp(toPixel(y, look.place), within.top + inset, within.bottom - inset)
      : clamp(toPixel(x, look.place), within.left + inset, within.right - inset);
  const texts = dimensionTexts(isFrequency ? asFrequency(look.reading) : look.reading, look.label);
  const asked = { kind: look.kind, from, to, place, texts: texts.map(textSize), within };
  return { look, texts, asked, alone: dimensionGeometry(asked) };
}

const textSize = (text: string, line: number) =>
  line === 0
    ? { width: textWidth(text, valueSize(), 600), size: valueSize() }
    : { width: textWidth(text, noteSize()), size: noteSize() };

function headOf(laneId: string, stage: Stage): Box[] {
  const box = stage.boxes().get(laneId);
  if (box === undefined || headroom(box.bottom - box.top) > 0) return [];
  return [{ ...box, right: box.left + headWidth, bottom: box.top + headHeight }];
}

const lineBoxes = ({ lines, extensions }: DimensionGeometry): Box[] =>
  [...lines, ...extensions].map(({ from, to }) => ({
    left: Math.min(from.x, to.x) - lineHalf,
    right: Math.max(from.x, to.x) + lineHalf,
    top: Math.min(from.y, to.y) - lineHalf,
    bottom: Math.max(from.y, to.y) + lineHalf,
  }));

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), Math.max(low, high));
