// What the steps of stamps say that come part by part, and are never all in memory.

import type { Reading } from "../numbers/reading.ts";
import type { Seconds } from "../numbers/units.ts";
import { StepCounts } from "../series/gaps.ts";
import { countOf, type TimeBase, timeAt } from "../series/series.ts";
import { rateOfSteps } from "./time-base.ts";

interface Step {
  readonly from: Seconds;
  readonly to: Seconds;
}

interface Bin {
  count: number;
  covered: Seconds;
  /** The first ones. */
  readonly steps: Step[];
}

/** Of so many holes the places are kept. */
export const mostPlaces = 40;

/**
 * Gap limit, holes and rate, as `longestStep` and `describeStamps` tell them of stamps in memory. Lengths are told apart to
 * 1/32 octave: a step within 3 % of the limit may count on the other side of it than there.
 */
export class StepTally {
  private readonly counts = new StepCounts();
  private readonly bins = new Map<number, Bin>();
  private start: Seconds = Number.NaN;
  private last: Seconds = Number.NaN;

  /** @param time  rises on from what came last. */
  take(time: TimeBase): void {
    const count = countOf(time);
    if (count === 0) return;
    if (Number.isNaN(this.start)) this.start = timeAt(time, 0);
    this.step(this.last, timeAt(time, 0), 1);
    if (time.kind === "even") this.step(time.start, timeAt(time, 1), count - 1);
    else for (let i = 1; i < count; i++) this.step(time.stamps[i - 1]!, time.stamps[i]!, 1);
    this.last = timeAt(time, count - 1);
  }

  /** Longest step that joins two samples, s; Infinity without steps. */
  get longest(): Seconds {
    return this.counts.longest;
  }

  /** Half of the steps are shorter than this, or as long, s; Infinity without steps. */
  get usual(): Seconds {
    return this.counts.upperEdge(this.counts.below(0.5));
  }

  /** Steps in which nothing was recorded, and the places of the first of them, in order. */
  get holes(): { readonly count: number; readonly where: readonly Step[] } {
    const { long } = this.split();
    const where = long.flatMap(({ steps }) => steps).sort((a, b) => a.from - b.from);
    return { count: long.reduce((sum, { count }) => sum + count, 0), where: where.slice(0, mostPlaces) };
  }

  /** Hz; `not-resolvable` with fewer than two stamps. */
  get rate(): Reading {
    const { joined } = this.split();
    const [low, high] = [0.95, 0.05].map((share) => this.counts.upperEdge(this.counts.below(share)));
    const tally = {
      joined: joined.reduce((sum, { count }) => sum + count, 0),
      covered: joined.reduce((sum, { covered }) => sum + covered, 0),
    };
    return rateOfSteps(tally, Math.max(joined.length > 0 ? high! - low! : 0, Math.abs(this.start) * 1e-15));
  }

  private step(from: Seconds, to: Seconds, times: number): void {
    const step = to - from;
    if (!(step > 0) || times === 0) return;
    this.counts.add(step, times);
    const bin = this.counts.binOf(step);
    const known = this.bins.get(bin);
    if (known) {
      known.count += times;
      known.covered += times * step;
      if (known.steps.length < mostPlaces) known.steps.push({ from, to });
    } else this.bins.set(bin, { count: times, covered: times * step, steps: [{ from, to }] });
  }

  private split(): { readonly joined: readonly Bin[]; readonly long: readonly Bin[] } {
    const { longest } = this;
    const isLong = ({ steps: [first] }: Bin) => first!.to - first!.from > longest;
    const all = [...this.bins.values()];
    return { joined: all.filter((bin) => !isLong(bin)), long: all.filter(isLong) };
  }
}
