// Whether front and rear were recorded at the same time: what one did while the other was not recorded compares with nothing.

import type { Seconds } from "../../signal/numbers/units.ts";
import { onceOf } from "../../signal/series/once.ts";
import { runsOf } from "../../signal/series/runs.ts";
import { type AnySeries, countOf, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { quantity } from "../terms/words.ts";

/** Shorter holes than this, or than three rows, are none: single cells are missing in many logs. s; own choice. */
const shortest: Seconds = 0.5;
/** Less than this is not worth a word, s. */
const worthAWord: Seconds = 2;
/** Each may have been recorded for so much of its time without the other. Own choice. */
const alone = 0.1;

/** Stretches begin and end on a quarter of a second, and the last value of a slow channel holds for longer than that, s. */
const nearby: Seconds = 2.5;

interface Recorded {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** When a channel was recorded, in order; short holes are passed over. */
const recordedIn = onceOf((series: AnySeries): Recorded[] => {
  const runs = runsOf(series);
  const spans: Recorded[] = [];
  const least = Math.max(shortest, 3.001 * (usualStep(series.time) || 0));
  for (let r = 0; r < runs.length; r += 2) {
    const [from, to] = [timeAt(series.time, runs[r]!), timeAt(series.time, runs[r + 1]! - 1)];
    const last = spans.at(-1);
    if (last && from - last.to < least) spans[spans.length - 1] = { from: last.from, to };
    else spans.push({ from, to });
  }
  return spans;
});

const secondsOf = (spans: readonly Recorded[]): Seconds => spans.reduce((sum, { from, to }) => sum + to - from, 0);

/** Seconds in which both were recorded; both lists are in order. */
function shared(one: readonly Recorded[], other: readonly Recorded[]): Seconds {
  let [i, k, sum] = [0, 0, 0];
  while (i < one.length && k < other.length) {
    const [a, b] = [one[i]!, other[k]!];
    sum += Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from));
    if (a.to < b.to) i++;
    else k++;
  }
  return sum;
}

/** For people: why the two do not compare; null where they were recorded together, but for a tenth of their time. */
export function whyApart(front: AnySeries, rear: AnySeries): string | null {
  const [f, r] = [recordedIn(front), recordedIn(rear)];
  const both = shared(f, r);
  const each = Math.max(secondsOf(f), secondsOf(r));
  if (each - both <= Math.max(alone * each, worthAWord)) return null;
  return `Front and rear were recorded together for only ${quantity(both, "s")} of ${quantity(each, "s")}. Record both at once.`;
}

/** " 80 s of it were not recorded." of a span in which a channel has holes, or in how many pieces it lies; "" where it is whole. */
export function holesIn(series: AnySeries): string {
  const count = countOf(series.time);
  const pieces = runsOf(series).length / 2;
  if (count === 0 || pieces < 2) return "";
  const missing = timeAt(series.time, count - 1) - timeAt(series.time, 0) - secondsOf(recordedIn(series));
  if (missing >= worthAWord) return ` ${quantity(missing, "s")} of it were not recorded.`;
  return ` Missing values part it into ${pieces} pieces, and no cycle is counted across them.`;
}

/** " It ends at a hole of 12 s." of a span of the channel that lasts until, or from, where it was not recorded; "" of any other. */
export function holesBeside(series: AnySeries, span: Recorded): string {
  const spans = recordedIn(series);
  const near = nearby + 2 * (usualStep(series.time) || 0);
  const holes = spans.slice(1).map(({ from }, i): Recorded => ({ from: spans[i]!.to, to: from }));
  const long = holes.filter(({ from, to }) => to - from >= worthAWord);
  const before = long.find(({ to }) => Math.abs(to - span.from) <= near);
  const after = long.find(({ from }) => Math.abs(from - span.to) <= near);
  const told = ({ from, to }: Recorded) => `a hole of ${quantity(to - from, "s")}`;
  if (before && after) return ` It lies between ${told(before)} and ${told(after)}.`;
  if (after) return ` It ends at ${told(after)}.`;
  return before ? ` It begins after ${told(before)}.` : "";
}
