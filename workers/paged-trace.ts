// A channel whose samples lie in storage: bounds of its blocks are in memory, samples are fetched by range.

import type { Span } from "../src/exhaust/analysis.ts";
import type { Series, TimeBase } from "../src/signal/series.ts";
import type { Seconds } from "../src/signal/units.ts";
import { firstFrom, nextFrom } from "./places.ts";
import { blockSize, Pyramid } from "./pyramid.ts";
import { PointList, type Points, type Trace, windowOf } from "./window.ts";

export interface PagedTrace {
  /** One entry a block: the time of its first sample. */
  readonly blockTimes: TimeBase;
  readonly count: number;
  /** From the bounds of blocks; see Pyramid.ofBlocks. */
  readonly pyramid: Pyramid;
  readonly longestStep: Seconds;
  readonly gain: number;
  readonly offset: number;
  /** Samples [from, to) out of storage. */
  fetch(from: number, to: number): Series;
}

/** Lowest and highest of each block of a channel, and when it begins. */
export type Bounds = Pick<PagedTrace, "pyramid" | "blockTimes">;

/** With fewer blocks than this to a pixel the samples themselves are fetched: a column is then out by 1/8 pixel at most. */
const blocksPerPixel = 8;

export function pagedWindow(trace: PagedTrace, span: Span, width: number): Points {
  const [from, to] = blocksOver(trace, span);
  return (to - from) / width < blocksPerPixel
    ? windowOf(fetched(trace, span), span, width)
    : columns(trace, span, width);
}

/** The part of the channel that holds `span` and a sample past each edge, in memory. */
export function fetched(trace: PagedTrace, span: Span): Trace {
  const [from, to] = blocksOver(trace, span);
  const series = trace.fetch(from * blockSize, Math.min(trace.count, to * blockSize));
  const { longestStep, gain, offset } = trace;
  return { series, pyramid: new Pyramid(series.samples), longestStep, gain, offset };
}

function blocksOver({ blockTimes, count }: PagedTrace, span: Span): readonly [from: number, to: number] {
  const last = Math.ceil(count / blockSize);
  return [Math.max(0, firstFrom(blockTimes, span.from) - 1), Math.min(last, firstFrom(blockTimes, span.to) + 1)];
}

/** As for samples in memory, with blocks in their place: each counts for the column in which it begins. */
function columns({ blockTimes, pyramid, gain, offset }: PagedTrace, span: Span, width: number): Points {
  const step = (span.to - span.from) / width;
  const first = Math.floor(span.from / step) - 1;
  const last = Math.ceil(span.to / step) + 1;
  const points = new PointList(3 * (last - first));
  const bounds = new Float64Array(2);
  const nothing = new Float64Array(0);
  let to = firstFrom(blockTimes, first * step);
  for (let column = first; column < last; column++) {
    const from = to;
    to = nextFrom(blockTimes, (column + 1) * step, from);
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
