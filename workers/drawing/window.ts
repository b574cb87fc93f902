// What a channel holds in a span, in at most a few values per pixel.

import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf, type Series, timeAt } from "../../src/signal/series/series.ts";
import { firstFrom, nextFrom } from "./places.ts";
import { blockSize, type Pyramid } from "./pyramid.ts";

export interface Points {
  readonly times: Float64Array<ArrayBuffer>;
  readonly values: Float64Array<ArrayBuffer>;
  readonly dense: boolean;
}

/** One channel as it can be looked at. */
export interface Trace {
  readonly series: Series;
  readonly pyramid: Pyramid;
  /** Two samples further apart than this have a gap between them. */
  readonly longestStep: Seconds;
  /** value shown = sample * gain + offset. */
  readonly gain: number;
  readonly offset: number;
}

/** Samples in a column from which on blocks are not divided between columns. */
const manyBlocks = 64 * blockSize;

/** Up to this many samples per pixel they are sent themselves. */
const samplesPerPixel = 3;

/**
 * The points that draw `span` on `width` device pixels; see TraceWindow for their form.
 *
 * Exact at every zoom: every sample counts in one pixel column, and the lowest and highest of each column are those of
 * its samples. Columns stand on a grid that does not move with the span, so that a trace does not flicker while it is
 * panned.
 */
export function windowOf(trace: Trace, span: Span, width: number): Points {
  const { time } = trace.series;
  const from = Math.max(0, firstFrom(time, span.from) - 1);
  const to = Math.min(countOf(time), firstFrom(time, span.to) + 1);
  if (to <= from) return { times: new Float64Array(0), values: new Float64Array(0), dense: false };
  return to - from > samplesPerPixel * width ? columns(trace, span, width) : samples(trace, from, to);
}

/** The samples [from, to) themselves, NaN between two that have a gap between them. */
function samples({ series, longestStep, gain, offset }: Trace, from: number, to: number): Points {
  const points = new PointList(2 * (to - from));
  for (let i = from; i < to; i++) {
    const time = timeAt(series.time, i);
    const before = i > from ? timeAt(series.time, i - 1) : time;
    if (time - before > longestStep) points.addGap((before + time) / 2);
    points.add(time, series.samples[i]! * gain + offset);
  }
  return points.taken(false);
}

function columns(trace: Trace, span: Span, width: number): Points {
  const { series, pyramid, gain, offset } = trace;
  const step = (span.to - span.from) / width;
  const first = Math.floor(span.from / step) - 1;
  const last = Math.ceil(span.to / step) + 1;
  const points = new PointList(3 * (last - first));
  const bounds = new Float64Array(2);
  const count = countOf(series.time);
  // Where a column holds many blocks, a block belongs to one column as a whole: 1/64 of a pixel at most beside its place.
  const grain =
    (firstFrom(series.time, span.to) - firstFrom(series.time, span.from)) / width > manyBlocks ? blockSize : 1;
  let next = firstFrom(series.time, first * step);
  let to = Math.floor(next / grain) * grain;
  for (let column = first; column < last; column++) {
    const from = to;
    next = nextFrom(series.time, (column + 1) * step, next);
    to = next === count ? count : Math.floor(next / grain) * grain;
    if (to === from) continue;
    if (isBroken(trace, from)) points.addGap(column * step);
    pyramid.bounds(series.samples, from, to, bounds);
    const one = bounds[0]! * gain + offset;
    const other = bounds[1]! * gain + offset;
    const middle = (column + 0.5) * step;
    if (bounds[0]! > bounds[1]!) points.addGap(middle);
    else {
      points.add(middle, Math.min(one, other));
      points.add(middle, Math.max(one, other));
    }
  }
  return points.taken(true);
}

/** True when nothing joins sample `i` to the one before it. */
export function isBroken({ series, longestStep }: Trace, i: number): boolean {
  if (i === 0) return false;
  if (Number.isNaN(series.samples[i - 1]!) || Number.isNaN(series.samples[i]!)) return true;
  return timeAt(series.time, i) - timeAt(series.time, i - 1) > longestStep;
}

/** Points in the order of time; gaps that follow each other become one. */
export class PointList {
  private readonly times: Float64Array<ArrayBuffer>;
  private readonly values: Float64Array<ArrayBuffer>;
  private count = 0;

  constructor(room: number) {
    this.times = new Float64Array(room);
    this.values = new Float64Array(room);
  }

  add(time: Seconds, value: number): void {
    if (Number.isNaN(value)) this.addGap(time);
    else this.put(time, value);
  }

  addGap(time: Seconds): void {
    if (this.count > 0 && Number.isNaN(this.values[this.count - 1]!)) return;
    this.put(time, Number.NaN);
  }

  private put(time: Seconds, value: number): void {
    this.times[this.count] = time;
    this.values[this.count++] = value;
  }

  /** Copies, so that what is transferred holds the points and nothing else. */
  taken(dense: boolean): Points {
    return { times: this.times.slice(0, this.count), values: this.values.slice(0, this.count), dense };
  }
}
