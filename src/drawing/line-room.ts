// Whether a line runs through the room that a text would take.

import type { Box } from "./boxes.ts";
import { firstAfter, fromPixel, type Mapping, type Polyline, toPixel } from "./paths.ts";

/** A text is looked at in strips of about this width, in the drawing's own measure times its scale. */
const strip = 6;

/**
 * How much of a box's width a line runs through, in the drawing's own measure; 0 where the line keeps clear of the box.
 *
 * @param scale  what the drawing is enlarged by, as in a dimension's request; 1 on screen.
 */
export function struck(line: Polyline, box: Box, [x, y]: readonly [Mapping, Mapping], scale = 1): number {
  const strips = Math.max(1, Math.ceil((box.right - box.left) / (strip * scale)));
  const width = (box.right - box.left) / strips;
  let sum = 0;
  for (let i = 0; i < strips; i++) {
    const left = box.left + i * width;
    const extent = extentBetween(line, fromPixel(x, left), fromPixel(x, left + width));
    if (!extent) continue;
    const [top, bottom] = [toPixel(y, extent[1]), toPixel(y, extent[0])];
    if (bottom > box.top && top < box.bottom) sum += width;
  }
  return sum;
}

/** Lowest and highest value that the line takes from one time to another, read off between its samples; null in a gap. */
function extentBetween(line: Polyline, from: number, to: number): readonly [low: number, high: number] | null {
  const { times, values } = line;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const take = (value: number) => {
    if (value < low) low = value;
    if (value > high) high = value;
  };
  const first = firstAfter(times, from);
  const last = firstAfter(times, to);
  take(between(line, first, from));
  for (let i = first; i < last; i++) take(values[i]!);
  take(between(line, last, to));
  return low <= high ? [low, high] : null;
}

/** The value at a time, between the sample before `next` and that one; NaN beyond the ends and beside a gap. */
function between({ times, values }: Polyline, next: number, at: number): number {
  const [before, after] = [times[next - 1], times[next]];
  if (before === undefined) return NaN;
  if (before === at) return values[next - 1]!;
  if (after === undefined) return NaN;
  return values[next - 1]! + ((values[next]! - values[next - 1]!) * (at - before)) / (after - before);
}
