// A crowded line as one filled outline. A stroke of thousands of segments costs a software canvas several times as
// much as filling the outline of what it covers, column by column (tests/bench/crowded-lines.ts).

import type { Mapping, Pen, Polyline } from "./paths.ts";
import { toPixel, walk } from "./paths.ts";

export interface BandShape {
  /** First pixel column and how many. */
  readonly left: number;
  readonly columns: number;
  /** Of the line, pixels. */
  readonly thickness: number;
  /** Columns drawn and left out in turn, for a trace laid under for comparison. */
  readonly dash?: readonly [on: number, off: number];
}

export interface BandPens {
  readonly pen: Pen;
  /** Takes what lies in crowded stretches, where the line covers whole areas; without it all goes to `pen`. */
  readonly crowded?: Pen;
}

/** A stretch is crowded where the line covers this much of each column, averaged over so many columns either way. */
const crowdedHeight = 30;
const crowdedReach = 10;

/** Draws the outline of a line of the given thickness: closed rings, none across a gap. */
export function drawBand(
  line: Polyline,
  x: Mapping,
  y: Mapping,
  shape: BandShape,
  { pen, crowded = pen }: BandPens,
): void {
  const covered = coverColumns(line, x, y, shape);
  const kinds = dashed(columnKinds(covered, crowded !== pen), covered, shape);
  for (let from = 0; from < shape.columns; from++) {
    const kind = kinds[from]!;
    if (kind === empty) continue;
    let to = from;
    while (to + 1 < shape.columns && kinds[to + 1] === kind) to++;
    drawRun(covered, [from, to], shape, kind === full ? crowded : pen);
    from = to;
  }
}

const [empty, thin, full] = [0, 1, 2];

/** Of each column: nothing there, a line, or part of a crowded stretch. */
function columnKinds({ top, bottom }: Covered, splits: boolean): Uint8Array {
  const height = Float64Array.from(top, (value, c) => Math.max(0, bottom[c]! - value) || 0);
  let sum = height.slice(0, crowdedReach).reduce((total, one) => total + one, 0);
  return Uint8Array.from(top, (value, c) => {
    sum += (height[c + crowdedReach] ?? 0) - (height[c - crowdedReach - 1] ?? 0);
    if (value > bottom[c]!) return empty;
    return splits && sum > crowdedHeight * (2 * crowdedReach + 1) ? full : thin;
  });
}

function dashed(kinds: Uint8Array, { top, bottom }: Covered, { dash }: BandShape): Uint8Array {
  if (!dash) return kinds;
  const isOn = dashesAlong(dash, smoothing);
  return kinds.map((kind, c) => (kind !== empty && isOn(c, (top[c]! + bottom[c]!) / 2) ? kind : empty));
}

/** Columns over which a crowded line is smoothed before its way is measured. */
const smoothing = 5;

/**
 * Dashes of a crowded line, which goes up and down in every column: by the way of its smoothed course, so that a steep
 * fall keeps its dashes as a level stretch does.
 *
 * @param reach  length along x over which it is smoothed; same unit as x, y and the dash.
 * @returns asked point by point with rising x, whether the line is drawn there.
 */
export function dashesAlong([on, off]: readonly [number, number], reach: number): (x: number, y: number) => boolean {
  let [lastX, smooth, way] = [Number.NaN, Number.NaN, 0];
  return (x, y) => {
    if (!Number.isFinite(y)) return false;
    const step = Number.isNaN(lastX) ? 0 : x - lastX;
    const next = Number.isNaN(smooth) ? y : smooth + (y - smooth) * (1 - Math.exp(-step / reach));
    way += Math.hypot(step, Number.isNaN(smooth) ? 0 : next - smooth);
    [lastX, smooth] = [x, next];
    return way % (on + off) < on;
  };
}

interface Covered {
  /** Smallest and largest y in each column; top > bottom where nothing is. */
  readonly top: Float64Array;
  readonly bottom: Float64Array;
}

/** What each pixel column holds of the line, joins between samples included. */
export function coverColumns(line: Polyline, x: Mapping, y: Mapping, { left, columns }: BandShape): Covered {
  const top = new Float64Array(columns).fill(Number.POSITIVE_INFINITY);
  const bottom = new Float64Array(columns).fill(Number.NEGATIVE_INFINITY);
  let [lastX, lastY] = [Number.NaN, Number.NaN];
  walk(line, (time, value) => {
    const px = toPixel(x, time) - left;
    const py = toPixel(y, value);
    const hasLast = !Number.isNaN(lastY);
    const at = (column: number) => lastY + ((py - lastY) * (column - lastX)) / (px - lastX);
    const first = Math.max(0, Math.floor(hasLast ? lastX : px));
    const last = Number.isNaN(py) ? -1 : Math.min(columns - 1, Math.floor(px));
    for (let c = first; c <= last; c++) {
      const leave = c + 1 >= px ? py : at(c + 1);
      const enter = !hasLast ? leave : c <= lastX ? lastY : at(c);
      top[c] = Math.min(top[c]!, enter, leave);
      bottom[c] = Math.max(bottom[c]!, enter, leave);
    }
    [lastX, lastY] = [px, py];
  });
  return { top, bottom };
}

/** Steep parts come out a column or two wide by themselves; thicker lines are widened by what is missing. */
const ownWidth = 1.4;

/** Out along the upper edge, back along the lower. */
function drawRun({ top, bottom }: Covered, [from, to]: readonly [number, number], shape: BandShape, pen: Pen): void {
  const extra = Math.max(0, Math.round(shape.thickness - ownWidth));
  const left = shape.left - extra / 2;
  const half = shape.thickness / 2;
  const end = to + extra;
  const edge = (column: number, ys: Float64Array, pick: (...ys: number[]) => number) => {
    const last = Math.min(to, column);
    let best = ys[last]!;
    for (let c = Math.max(from, column - extra); c < last; c++) best = pick(best, ys[c]!);
    return best;
  };
  pen.moveTo(left + from, edge(from, top, Math.min) - half);
  for (let c = from; c <= end; c++) pen.lineTo(left + c + 0.5, edge(c, top, Math.min) - half);
  pen.lineTo(left + end + 1, edge(end, top, Math.min) - half);
  pen.lineTo(left + end + 1, edge(end, bottom, Math.max) + half);
  for (let c = end; c >= from; c--) pen.lineTo(left + c + 0.5, edge(c, bottom, Math.max) + half);
  pen.lineTo(left + from, edge(from, bottom, Math.max) + half);
}
