// Where room is taken on a drawing: asked for what stands near, so that a thousand texts do not each look at all others.

import { type Box, overlap } from "./boxes.ts";

/** Size of a field, in the drawing's own measure: about a line of text and its width. */
export interface FieldSize {
  readonly width: number;
  readonly height: number;
}

interface Entry {
  readonly box: Box;
  readonly owner: unknown;
  /** The question that counted it last: it lies in several fields, and counts once. */
  seen: number;
}

export class TakenRoom {
  private readonly fields = new Map<number, Entry[]>();
  private readonly within: Box;
  private readonly size: FieldSize;
  private questions = 0;

  /** @param within  where what is drawn should stay; what lies outside counts for the fields at its edge. */
  constructor(within: Box, size: FieldSize) {
    this.within = within;
    this.size = size;
  }

  add(box: Box, owner: unknown = null): void {
    const entry: Entry = { box, owner, seen: 0 };
    for (const key of this.keysOf(box)) {
      const field = this.fields.get(key);
      if (field) field.push(entry);
      else this.fields.set(key, [entry]);
    }
  }

  /** Area of the box that others than `owner` take; what two take counts twice. */
  overlapOf(box: Box, owner?: unknown): number {
    const question = ++this.questions;
    let area = 0;
    for (const key of this.keysOf(box)) {
      for (const entry of this.fields.get(key) ?? none) {
        if (entry.seen === question || (owner !== undefined && entry.owner === owner)) continue;
        entry.seen = question;
        area += overlap(box, entry.box);
      }
    }
    return area;
  }

  /** How many boxes are looked at for it. */
  near(box: Box): number {
    return [...this.keysOf(box)].reduce((sum, key) => sum + (this.fields.get(key)?.length ?? 0), 0);
  }

  private *keysOf({ left, right, top, bottom }: Box): Generator<number> {
    const { within, size } = this;
    const [columns, rows] = [
      count(within.right - within.left, size.width),
      count(within.bottom - within.top, size.height),
    ];
    const at = (place: number, step: number, most: number) => Math.min(most, Math.max(0, Math.floor(place / step) + 1));
    const [x1, x2] = [at(left - within.left, size.width, columns), at(right - within.left, size.width, columns)];
    const [y1, y2] = [at(top - within.top, size.height, rows), at(bottom - within.top, size.height, rows)];
    for (let x = x1; x <= x2; x++) for (let y = y1; y <= y2; y++) yield x * (rows + 1) + y;
  }
}

/** Fields along one side, and one for what lies beyond each end. */
const count = (length: number, step: number): number => Math.max(1, Math.ceil(length / step)) + 1;

const none: readonly Entry[] = [];
