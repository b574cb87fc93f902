// A channel as it is seen through a filter: the whole of it where that is not too much, else what is looked at.

import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { type Filter, filtered, reachOf, refusalOf, shiftOf } from "../../src/signal/filters/filter.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import { indexAt, slice } from "../../src/signal/series/series.ts";
import { usualStep } from "../../src/signal/series/usual-step.ts";
import type { ChannelSummary } from "../protocol.ts";
import { Pyramid } from "./pyramid.ts";
import type { Trace } from "./window.ts";

/** What samples are asked of. */
export interface Recorded {
  factsOf(channelId: string): Pick<ChannelSummary, "samples" | "from" | "to">;
  over(channelId: string, span: Span): Trace;
}

export interface FilteredTrace extends Trace {
  /** See `shiftOf`. */
  readonly shift: Seconds;
}

/** Samples that are filtered at once: some tenths of a second of work. */
const most = 4_000_000;
/** Channels that are kept as filtered. */
const mostKept = 4;

interface Kept extends Span {
  readonly trace: FilteredTrace;
}

const kept = new WeakMap<Recorded, Map<string, Kept>>();

/** At least `span` of it; null where the filter does not fit the channel, or the span holds too much to be filtered. */
export function throughFilter(from: Recorded, channelId: string, filter: Filter, span: Span): FilteredTrace | null {
  const facts = from.factsOf(channelId);
  const known = kept.get(from) ?? new Map<string, Kept>();
  kept.set(from, known);
  const key = JSON.stringify([channelId, filter, facts.samples]);
  const there = known.get(key);
  const over = { from: Math.max(span.from, facts.from), to: Math.min(span.to, facts.to) };
  if (there && there.from <= over.from && there.to >= over.to) return there.trace;
  const step = (facts.to - facts.from) / Math.max(1, facts.samples - 1);
  if (!(step > 0) || refusalOf(filter, step)) return null;
  const wide = facts.samples <= most ? facts : widened(over, reachOf(filter, step));
  if ((wide.to - wide.from) / step > most) return null;
  const trace = filteredOver(from.over(channelId, wide), wide, filter);
  if (!trace) return null;
  known.delete(key);
  known.set(key, { from: over.from, to: over.to, ...(facts.samples <= most ? facts : {}), trace });
  for (const old of [...known.keys()].slice(0, -mostKept)) known.delete(old);
  return trace;
}

const widened = ({ from, to }: Span, by: Seconds): Span => ({ from: from - by, to: to + by });

function filteredOver(trace: Trace, { from, to }: Span, filter: Filter): FilteredTrace | null {
  const { time } = trace.series;
  const series = slice(trace.series, indexAt(time, from) - 1, indexAt(time, to) + 2);
  const step = usualStep(series.time);
  if (!(step > 0) || refusalOf(filter, step)) return null;
  const samples = filtered(series, filter);
  return {
    ...trace,
    series: { time: series.time, samples },
    pyramid: new Pyramid(samples),
    shift: shiftOf(filter, series),
  };
}
