// A crowded line as one filled outline. A stroke of thousands of segments costs a software canvas several times as
// much as filling the outline of what it covers, column by column; and where it covers whole areas, a bar per column costs
// a fraction of an outline that goes up and down in every one (tests/bench/crowded-lines.ts).

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

/** One pixel column of a crowded stretch, pixels. */
export type Bar = (left: number, top: number, height: number) => void;

export interface BandPens {
  readonly pen: Pen;
  /** Takes crowded stretches, where the line covers whole areas, column by column; without it all goes to `pen`. */
  readonly bar?: Bar;
}

/** A stretch is crowded where the line covers this much of each column, averaged over so many columns either way. */
const crowdedHeight = 30;
const crowdedReach = 10;

/** Draws the outline of a line of the given thickness: closed rings, none across a gap. */
export function drawBand(line: Polyline, x: Mapping, y: Mapping, shape: BandShape, { pen, bar }: BandPens): void {
  const covered = coverColumns(line, x, y, shape);
  const kinds = dashed(columnKinds(covered, bar !== undefined), covered, shape);
  for (let from = 0; from < shape.columns; from++) {
    const kind = kinds[from]!;
    if (kind === empty) continue;
    let to = from;
    while (to + 1 < shape.columns && kinds[to + 1] === kind) to++;
    if (kind === full) drawBars(covered, [from, to], shape, bar!);
    else if (kind === steep) drawSteep(covered, [from, to], shape, pen);
    else drawRun(covered, [from, to], shape, pen);
    from = to;
  }
}

const [empty, thin, full, steep] = [0, 1, 2, 3];

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
  const tall = dash[0] + dash[1];
  const height = (c: number) => Math.max(0, (bottom[c] ?? 0) - (top[c] ?? 0)) || 0;
  // A fall takes a column or two; where all around are as tall the line covers an area.
  const isLone = (c: number) => height(c) > tall && Math.min(height(c - lone), height(c + lone)) < tall / 2;
  return kinds.map((kind, c) => {
    const isDrawn = isOn(c, (top[c]! + bottom[c]!) / 2);
    if (kind === thin && isLone(c)) return steep;
    return kind !== empty && isDrawn ? kind : empty;
  });
}

/** A steep fall or rise is over within so many columns. */
const lone = 4;

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
    const at = (column: number) => lastY + (py - lastY) * ((column - lastX) / (px - lastX));
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

type Run = readonly [from: number, to: number];

/** Out along the upper edge, back along the lower. */
function drawRun(covered: Covered, run: Run, shape: BandShape, pen: Pen): void {
  const { left, from, end, top, bottom } = widened(covered, run, shape);
  pen.moveTo(left + from, top(from));
  for (let c = from; c <= end; c++) pen.lineTo(left + c + 0.5, top(c));
  pen.lineTo(left + end + 1, top(end));
  pen.lineTo(left + end + 1, bottom(end));
  for (let c = end; c >= from; c--) pen.lineTo(left + c + 0.5, bottom(c));
  pen.lineTo(left + from, bottom(from));
}

/** Dashes down a column, at the same heights in all: whichever part of a fall a column holds, it is seen to fall. */
function drawSteep({ top, bottom }: Covered, [from, to]: Run, { left, thickness, dash }: BandShape, pen: Pen): void {
  const [on, off] = dash!;
  const extra = Math.max(0, thickness - ownWidth) / 2;
  for (let c = from; c <= to; c++) {
    const [first, last] = [top[c]! - thickness / 2, bottom[c]! + thickness / 2];
    for (let y = Math.floor(first / (on + off)) * (on + off); y < last; y += on + off) {
      const [upper, lower] = [Math.max(y, first), Math.min(y + on, last)];
      if (lower <= upper) continue;
      const [before, after] = [left + c - extra, left + c + 1 + extra];
      pen.moveTo(before, upper);
      pen.lineTo(after, upper);
      pen.lineTo(after, lower);
      pen.lineTo(before, lower);
      pen.lineTo(before, upper);
    }
  }
}

function drawBars(covered: Covered, run: Run, shape: BandShape, bar: Bar): void {
  const { left, from, end, top, bottom } = widened(covered, run, shape);
  // On whole pixels: neighbours that shared one would both be seen through there.
  for (let c = from; c <= end; c++) bar(Math.round(left) + c, top(c), bottom(c) - top(c));
}

/** The edges of a run of columns once the line has its thickness. */
function widened({ top, bottom }: Covered, [from, to]: Run, { left, thickness }: BandShape) {
  const extra = Math.max(0, Math.round(thickness - ownWidth));
  const edge = (column: number, ys: Float64Array, pick: (...ys: number[]) => number) => {
    const last = Math.min(to, column);
    let best = ys[last]!;
    for (let c = Math.max(from, column - extra); c < last; c++) best = pick(best, ys[c]!);
    return best;
  };
  return {
    left: left - extra / 2,
    from,
    end: to + extra,
    top: (column: number) => edge(column, top, Math.min) - thickness / 2,
    bottom: (column: number) => edge(column, bottom, Math.max) + thickness / 2,
  };
}
