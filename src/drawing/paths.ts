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

/**
 * Walks along a line, a dense column entered at the end nearer to where the line comes from. A NaN value comes once per
 * missing sample or column.
 */
export function walk(line: Polyline, visit: (time: number, value: number) => void): void {
  const { times, values, dense } = line;
  const count = Math.min(times.length, values.length);
  let last = Number.NaN;
  for (let i = 0; i < count; i += dense ? 2 : 1) {
    let first = values[i]!;
    let second = dense ? values[i + 1]! : first;
    if (Math.abs(second - last) < Math.abs(first - last)) [first, second] = [second, first];
    const isMissing = Number.isNaN(first + second);
    visit(times[i]!, isMissing ? Number.NaN : first);
    if (!isMissing && second !== first) visit(times[i]!, second);
    last = isMissing ? Number.NaN : second;
  }
}

/** Draws a window; the pen is lifted over every gap. A lone sample between gaps is a line of no length: a round cap shows it. */
export function drawLine(line: Polyline, x: Mapping, y: Mapping, pen: Pen): void {
  let isDown = false;
  walk(line, (time, value) => {
    if (Number.isNaN(value)) {
      isDown = false;
      return;
    }
    const [px, py] = [toPixel(x, time), toPixel(y, value)];
    if (!isDown) pen.moveTo(px, py);
    pen.lineTo(px, py);
    isDown = true;
  });
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
