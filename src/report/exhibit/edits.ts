// What the user decided about an exhibit. Kept inside its SVG, so that a revision starts where the last one ended.

import type { Span } from "../../exhaust/terms/analysis.ts";
import { plainText } from "../paper/plain-text.ts";
import type { NoteSide, Paper, SheetNote, SheetShade } from "./sheet.ts";
import { noteSides } from "./sheet.ts";

/** What of the vehicle may be named on the sheet; all off to begin with. */
export interface Ticks {
  readonly plate: boolean;
  readonly vin: boolean;
  readonly customer: boolean;
}

export interface ExhibitEdits {
  readonly view: Span;
  readonly paper: Paper;
  readonly headline: string;
  readonly subline: string;
  readonly notes: readonly SheetNote[];
  readonly shade: SheetShade | null;
  readonly ticks: Ticks;
  /** Where a sound catalyst's rear would have stayed is drawn. */
  readonly sound?: boolean;
  /** Lift-offs stand enlarged beside a long view, unless they are left out. */
  readonly details?: boolean;
  /** Words below the values of dimensions, by id, where they are others than the bench's. */
  readonly labels?: Readonly<Record<string, string>>;
  readonly drawnBy: string;
}

/** For `SheetExtras.metadata`. */
export function editsText(edits: ExhibitEdits): string {
  return JSON.stringify({ tracewright: 1, ...edits });
}

/**
 * The edits inside an exhibit's SVG, as `editsText` wrote them.
 *
 * @returns null where there are none, or where they are not what this version wrote.
 */
export function editsIn(svg: string): ExhibitEdits | null {
  const text = /<metadata>([^<]*)<\/metadata>/.exec(svg)?.[1];
  if (text === undefined) return null;
  try {
    const value: unknown = JSON.parse(plainText(text));
    return isEdits(value) ? value : null;
  } catch {
    return null;
  }
}

type Loose = Readonly<Record<string, unknown>>;

const isLoose = (value: unknown): value is Loose => typeof value === "object" && value !== null;
const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);
const isText = (value: unknown): value is string => typeof value === "string";

function isSpan(value: unknown): value is Span {
  return isLoose(value) && isNumber(value.from) && isNumber(value.to) && value.from < value.to;
}

function isNote(value: unknown): value is SheetNote {
  if (!isLoose(value) || !isLoose(value.at)) return false;
  const { id, laneId, text, side, at } = value;
  const words = isText(id) && isText(laneId) && isText(text);
  return words && noteSides.includes(side as NoteSide) && isNumber(at.time) && isNumber(at.level);
}

const isShade = (value: unknown): value is SheetShade => isLoose(value) && isSpan(value.span) && isText(value.label);

const isTicks = (value: unknown): value is Ticks =>
  isLoose(value) && [value.plate, value.vin, value.customer].every((tick) => typeof tick === "boolean");

function isEdits(value: unknown): value is ExhibitEdits {
  if (!isLoose(value) || value.tracewright !== 1 || !isSpan(value.view) || !isTicks(value.ticks)) return false;
  const { paper, headline, subline, drawnBy, notes, shade, sound = false, details = true, labels = {} } = value;
  if (typeof sound !== "boolean" || typeof details !== "boolean") return false;
  if (!isLoose(labels) || !Object.values(labels).every(isText)) return false;
  const words = [headline, subline, drawnBy].every(isText) && (paper === "A4" || paper === "Letter");
  return words && Array.isArray(notes) && notes.every(isNote) && (shade === null || isShade(shade));
}
