// A channel whose samples lie in storage: bounds of its blocks are in memory, samples are fetched by range.

import type { Span } from "../../src/exhaust/terms/analysis.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import type { Series, TimeBase } from "../../src/signal/series/series.ts";
import { firstFrom, nextFrom } from "./places.ts";
import { blockSize, fanOut, Pyramid } from "./pyramid.ts";
import { PointList, type Points, type Trace, windowOf } from "./window.ts";

/** Lowest and highest of each block of a channel, or of a stretch of it, and when it begins. */
export interface Bounds {
  /** Samples in a block. */
  readonly size: number;
  /** One entry a block: the time of its first sample. */
  readonly times: TimeBase;
  /** From the bounds of blocks; see Pyramid.ofBlocks. */
  readonly pyramid: Pyramid;
}

export interface PagedTrace {
  /** Of the whole channel, in memory. */
  readonly bounds: Bounds;
  /** Those of blocks [from, to) at least, in smaller blocks out of storage; null where there are none. */
  readonly finer: ((from: number, to: number) => Bounds) | null;
  readonly count: number;
  readonly longestStep: Seconds;
  readonly gain: number;
  readonly offset: number;
  /** Samples [from, to) out of storage. */
  fetch(from: number, to: number): Series;
}

/** With fewer blocks than this to a pixel smaller ones are fetched, or the samples: a column is then out by 1/8 pixel at most. */
const blocksPerPixel = 8;

export function pagedWindow(trace: PagedTrace, span: Span, width: number): Points {
  const { bounds, finer } = trace;
  const [from, to] = blocksOver(trace, span);
  const perPixel = (to - from) / width;
  if (perPixel >= blocksPerPixel) return columns(trace, bounds, span, width);
  if (finer && perPixel * fanOut >= blocksPerPixel) return columns(trace, finer(from, to), span, width);
  return windowOf(fetched(trace, span), span, width);
}

/** The part of the channel that holds `span` and a sample past each edge, in memory. */
export function fetched(trace: PagedTrace, span: Span): Trace {
  const [from, to] = blocksOver(trace, span);
  const { size } = trace.bounds;
  const series = trace.fetch(from * size, Math.min(trace.count, to * size));
  const { longestStep, gain, offset } = trace;
  return { series, pyramid: new Pyramid(series.samples), longestStep, gain, offset };
}

/** Blocks of `bounds` that hold `span` and a sample past each edge. */
export function blocksOver(
  { bounds: { size, times }, count }: Pick<PagedTrace, "bounds" | "count">,
  span: Span,
): readonly [from: number, to: number] {
  const last = Math.ceil(count / size);
  return [Math.max(0, firstFrom(times, span.from) - 1), Math.min(last, firstFrom(times, span.to) + 1)];
}

/** As for samples in memory, with blocks in their place: each counts for the column in which it begins. */
function columns({ gain, offset }: PagedTrace, { times, pyramid }: Bounds, span: Span, width: number): Points {
  const step = (span.to - span.from) / width;
  const first = Math.floor(span.from / step) - 1;
  const last = Math.ceil(span.to / step) + 1;
  const points = new PointList(3 * (last - first));
  const bounds = new Float64Array(2);
  const nothing = new Float64Array(0);
  let to = firstFrom(times, first * step);
  for (let column = first; column < last; column++) {
    const from = to;
    to = nextFrom(times, (column + 1) * step, from);
    const middle = (column + 0.5) * step;
    pyramid.bounds(nothing, from * blockSize, to * blockSize, bounds);
    if (bounds[0]! > bounds[1]!) points.addGap(middle);
    else {
      points.add(middle, bounds[gain < 0 ? 1 : 0]! * gain + offset);
      points.add(middle, bounds[gain < 0 ? 0 : 1]! * gain + offset);
    }
  }
  return points.taken(true);
}
