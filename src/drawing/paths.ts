// A window of samples as a line with gaps, for a canvas or for a drawing's path text.

/** Times rise; a NaN value is a gap. `dense`: two entries per pixel column, its lowest and highest value. */
export interface Polyline {
  readonly times: Float64Array;
  readonly values: Float64Array;
  readonly dense: boolean;
}

/** What a line is drawn into: a Path2D, a canvas context, or `pathText`. */
export interface Pen {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
}

/** From seconds or units to pixels: `offset + value * factor`. */
export interface Mapping {
  readonly offset: number;
  readonly factor: number;
}

/** Maps `low` to `at`, and `high` to `to`. */
export function mapping(low: number, high: number, at: number, to: number): Mapping {
  const factor = (to - at) / (high - low);
  return { offset: at - low * factor, factor };
}

export const toPixel = (map: Mapping, value: number): number => map.offset + value * map.factor;
export const fromPixel = (map: Mapping, pixel: number): number => (pixel - map.offset) / map.factor;

/** Draws a window; the pen is lifted over every gap. A sample alone between gaps is a line of no length: a round cap shows it. */
export function drawLine(line: Polyline, x: Mapping, y: Mapping, pen: Pen): void {
  const { times, values } = line;
  const count = Math.min(times.length, values.length);
  let down = false;
  let last = 0;
  for (let i = 0; i < count; i += line.dense ? 2 : 1) {
    let first = values[i]!;
    let second = line.dense ? values[i + 1]! : first;
    if (Number.isNaN(first + second)) {
      down = false;
      continue;
    }
    if (Math.abs(second - last) < Math.abs(first - last)) [first, second] = [second, first];
    const px = toPixel(x, times[i]!);
    if (down) pen.lineTo(px, toPixel(y, first));
    else pen.moveTo(px, toPixel(y, first));
    if (second !== first || !down) pen.lineTo(px, toPixel(y, second));
    down = true;
    last = second;
  }
}

/** A pen that writes the `d` of an SVG path, to a tenth of a pixel. */
export function textPen(): Pen & { text(): string } {
  let d = "";
  const at = (x: number, y: number) => `${x.toFixed(1)} ${y.toFixed(1)}`;
  return {
    moveTo: (x, y) => {
      d += `M${at(x, y)}`;
    },
    lineTo: (x, y) => {
      d += `L${at(x, y)}`;
    },
    text: () => d,
  };
}

/** Lowest and highest value between two times, both included, with the neighbours just outside; null where there is none. */
export function extentWithin(line: Polyline, from: number, to: number): readonly [low: number, high: number] | null {
  const { times, values } = line;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const end = Math.min(times.length, firstAfter(times, to) + 1);
  for (let i = Math.max(0, firstAfter(times, from) - 1); i < end; i++) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? [low, high] : null;
}

/** Index of the first time after `at`; the length where there is none. Halving: times rise. */
export function firstAfter(times: Float64Array, at: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle]! > at) high = middle;
    else low = middle + 1;
  }
  return low;
}
