// All dimensions of the stack laid out together, so that their texts stay off each other.

import type { Box } from "../../drawing/boxes.ts";
import {
  type DimensionGeometry,
  type DimensionRequest,
  dimensionGeometry,
  lineOfText,
  type Point,
} from "../../drawing/dimension.ts";
import { asFrequency, dimensionTexts } from "../../drawing/dimension-text.ts";
import { struck } from "../../drawing/line-room.ts";
import { type Polyline, toPixel } from "../../drawing/paths.ts";
import { TakenRoom } from "../../drawing/taken.ts";
import { headHeight } from "../stage/layout.ts";
import { letterSize } from "../stage/letters.ts";
import type { Stage } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import type { DimensionLook } from "../stage/types.ts";

export const valueSize = () => letterSize(17);
export const noteSize = () => letterSize(13);

export interface LaidOut {
  readonly geometry: DimensionGeometry;
  readonly texts: readonly string[];
  /** Lines of its words that a trace runs through, however they are placed: they need a ground of their own. */
  readonly grounds: readonly Box[];
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

/** A trace through a text is as bad as words so high on it, px. */
const traceRoom = 14;

/** About a line of text, px: what lies further apart does not stand on it. */
const field = { width: 96, height: 32 };
/** More in one view cannot be told apart, and would hold up the page. */
const mostDrawn = 300;
/** Of more, words have enough to do to keep off each other. */
const mostClear = 40;

export interface Layout {
  readonly laid: ReadonlyMap<string, LaidOut>;
  /** In the view, but not drawn: too many stand there. */
  readonly left: number;
}

export interface LayingOut {
  /** Ids of time pairs shown as 1/time. */
  readonly frequencies: ReadonlySet<string>;
  /** Whether a dimension is laid out wherever it stands: it may be in the hand. */
  kept(look: DimensionLook): boolean;
  /** The traces of a lane, which its texts keep off where they can. */
  linesIn(laneId: string): readonly Polyline[];
}

/**
 * What lies beside the view is not laid out, but for what is kept.
 *
 */
export function layOutDimensions(
  dimensions: readonly DimensionLook[],
  stage: Stage,
  { frequencies, kept, linesIn }: LayingOut,
): Layout {
  const all = dimensions.flatMap((look) => request(look, stage, frequencies.has(look.id)) ?? []);
  const seen = all.filter((one) => kept(one.look) || isInView(one));
  const first = seen.filter(({ look }) => kept(look));
  const requests =
    seen.length <= mostDrawn ? seen : [...first, ...seen.filter((one) => !first.includes(one))].slice(0, mostDrawn);
  const rooms = roomsOf(requests, stage);
  const laid = new Map<string, LaidOut>();
  for (const { look, ...one } of requests) {
    const room = rooms.get(look.laneId)!;
    const scales = [stage.x(), stage.y(look.laneId)] as const;
    const lines = requests.length <= mostClear ? linesIn(look.laneId) : [];
    const struckIn = (box: Box) => lines.reduce((sum, line) => sum + struck(line, box, scales), 0);
    const geometry = dimensionGeometry({
      ...one.asked,
      taken: (box) => room.overlapOf(box, look) + traceRoom * struckIn(box),
    });
    room.add(geometry.textBox);
    const words = geometry.texts.map((place, i) => lineOfText(place, one.asked.texts[i]!));
    const grounds = words.filter((box) => struckIn(box) > 0);
    const { from, to, place } = one.asked;
    laid.set(look.id, { geometry, texts: one.texts, grounds, from, to, place });
  }
  return { laid, left: seen.length - requests.length };
}

/** Heads and lines of each lane; texts come to them as they find their place. */
function roomsOf(requests: readonly Requested[], stage: Stage): ReadonlyMap<string, TakenRoom> {
  const rooms = new Map<string, TakenRoom>();
  for (const { look, asked, alone } of requests) {
    let room = rooms.get(look.laneId);
    if (!room) {
      room = new TakenRoom(asked.within, field);
      for (const head of headOf(look.laneId, stage)) room.add(head);
      rooms.set(look.laneId, room);
    }
    for (const line of lineBoxes(alone)) room.add(line, look);
  }
  return rooms;
}

/** Lines and words reach so far beyond what is measured, px. */
const beyond = 300;

function isInView({ look, asked: { from, to, place, within } }: Requested): boolean {
  const places = look.kind === "time" ? [from.x, to.x] : [from.x, to.x, place];
  return Math.max(...places) > within.left - beyond && Math.min(...places) < within.right + beyond;
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

/** A low lane's title, which stands over the traces; none where it has a strip of its own. */
export function headOf(laneId: string, stage: Stage): Box[] {
  const box = stage.boxes().get(laneId);
  if (box === undefined || stage.plots().get(laneId)!.top > box.top) return [];
  return [{ ...box, right: box.left + headWidth, bottom: box.top + headHeight }];
}

/** What of a lane's dimensions other words keep off: their words and their lines. */
export const takenIn = (laid: Layout["laid"], dimensions: readonly DimensionLook[], laneId: string): readonly Box[] =>
  dimensions.flatMap((look) => {
    const geometry = look.laneId === laneId ? laid.get(look.id)?.geometry : undefined;
    return geometry ? [geometry.textBox, ...lineBoxes(geometry)] : [];
  });

const lineBoxes = ({ lines, extensions }: DimensionGeometry): Box[] =>
  [...lines, ...extensions].map(({ from, to }) => ({
    left: Math.min(from.x, to.x) - lineHalf,
    right: Math.max(from.x, to.x) + lineHalf,
    top: Math.min(from.y, to.y) - lineHalf,
    bottom: Math.max(from.y, to.y) + lineHalf,
  }));

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), Math.max(low, high));
