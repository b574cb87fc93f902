// Repetition: frequency from crossings, spread of the periods, and the share of time above a level.

import type { Crossings } from "../edges/crossings.ts";
import { EdgeCount } from "../edges/edge-count.ts";
import { askedRateFor } from "../numbers/asked-rate.ts";
import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import { coverage } from "../numbers/student.ts";
import type { Hertz, Seconds } from "../numbers/units.ts";
import { blockAt, blockBoundsOf, blockLength } from "../series/block-bounds.ts";
import { cutOut, stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import { type AnySeries, timeAt } from "../series/series.ts";
import { noiseOf } from "../statistics/noise.ts";
import { quantisationOf } from "../statistics/quantisation.ts";
import { formatValue } from "../written/reading-text.ts";
import { meanPeriodBounds, type Period, type PeriodBounds } from "./mean-period.ts";
import { steadyParts } from "./steady-wave.ts";

/** Fewer samples per cycle than this, and the count of cycles itself is in doubt. Common practice. */
const leastPerCycle = 4;

export interface FrequencyRule {
  /** Highest frequency the quantity can have, Hz, where known: an alias of it is then told apart by `frequencyOf`. */
  readonly fastest?: Hertz;
  /** The samples that the crossings were found in: a wave in them that repeats itself bounds its frequency more closely. */
  readonly series?: AnySeries;
  /** Standard deviation of their noise; estimated from them where absent. */
  readonly noise?: number;
}

/**
 * Consecutive periods between rising crossings, s, without those that would span a gap.
 *
 * @param crossings  of one channel, in the order of time.
 * @returns new array, all > 0; empty with fewer than two rising crossings in a run.
 */
export function periodsOf(crossings: Crossings): Float64Array {
  return Float64Array.from(cyclesOf(crossings).periods, ({ length }) => length);
}

/**
 * Mean frequency, (n - 1) / (last - first) over the rising crossings of each gap-free run, runs taken together.
 *
 * @param crossings  of one channel, in the order of time.
 * @param rule  `series` and `noise` as the crossings were found with.
 * @returns Hz; count = cycles. `not-resolvable` with fewer than one cycle, with fewer than four samples per cycle (the
 *          count of cycles is then a lower bound, given as `low`), or where the bounds would be wider than the value.
 *
 * Bounds: those of the true mean period, which noise at the edges, the cycles' own spread and what sampling leaves open at
 * the crossings leave; where the cycles are regular all crossings count for them, not the first and last alone
 * (`meanPeriodBounds`). Where one periodic wave explains every sample, the phases of its parts stand in for the crossings
 * (`steadyParts`), and the narrower of the two is taken. The value is the same either way, so that anyone can count it over,
 * and the bounds hold it. Even sampling cannot tell f from |rate - f|: where `fastest` leaves that open, no number is claimed.
 */
export function frequencyOf(crossings: Crossings, rule: FrequencyRule = {}): Reading {
  const { fastest } = rule;
  const { periods, edgeDoubt } = cyclesOf(crossings);
  const count = periods.length;
  const span = periods.reduce((sum, { length }) => sum + length, 0);
  if (count === 0 || !(span > 0))
    return notResolvable("Hz", "less than one full cycle between rising crossings", { count });
  const value = count / span;
  const byCrossings = meanPeriodBounds(periods, { endsOpen: edgeDoubt + crossings.slack });
  const byWave = steadyBounds(crossings, count, rule);
  const mean = byWave !== null && widthOf(byWave) < widthOf(byCrossings) ? byWave : byCrossings;
  const low = Math.min(value, 1 / mean.high);
  const high = mean.low > 0 ? Math.max(value, 1 / mean.low) : null;
  const alias = aliasTrouble(value, crossings.step, fastest);
  if (alias !== null) return notResolvable("Hz", alias, { low, count });
  if (high === null || high - low > value) {
    return notResolvable("Hz", "too few cycles for a mean; a longer span would tell", { low, high, count });
  }
  const because = aliasRemark(value, crossings.step);
  return measured(value, [low, high], "Hz", because === null ? { count } : { count, because });
}

const widthOf = ({ low, high }: PeriodBounds): Seconds => high - low;

/**
 * Bounds of the mean period of a wave that repeats itself (`steadyParts`); null where none is shown to. Crossings whose
 * scatter about a straight line exceeds their own bounds show at once that there is none.
 */
function steadyBounds(crossings: Crossings, cycles: number, { series, noise }: FrequencyRule): PeriodBounds | null {
  const { times, rising, runs } = crossings;
  const [first, last] = [rising.indexOf(1), rising.lastIndexOf(1)];
  if (!series || crossings.slack > 0 || runs[first] !== runs[last] || !isRegular(crossings)) return null;
  const [from, to] = runsOf(series).subarray(2 * runs[first]!, 2 * runs[first]! + 2);
  const period = (times[last]! - times[first]!) / cycles;
  const parts = steadyParts(cutOut(series, from!, to!), { period, noise: noise ?? noiseOf(series.samples) });
  if (parts === null) return null;
  const bounds = meanPeriodBounds(parts.periods, parts);
  return { low: bounds.low / parts.cycles, high: bounds.high / parts.cycles };
}

/** Whether the rising crossings lie about a straight line as closely as their bounds do about each. */
function isRegular({ times, low, high, rising }: Crossings): boolean {
  const at = times.filter((_, k) => rising[k] === 1);
  const middle = (at.length - 1) / 2;
  const mean = at.reduce((sum, t) => sum + t, 0) / at.length;
  const spread = at.reduce((sum, _, k) => sum + (k - middle) ** 2, 0);
  const period = at.reduce((sum, t, k) => sum + (k - middle) * (t - mean), 0) / spread;
  const scatter = at.reduce((sum, t, k) => sum + (t - mean - period * (k - middle)) ** 2, 0);
  const allowed = times.reduce((sum, _, k) => sum + (rising[k] === 1 ? ((high[k]! - low[k]!) / 2) ** 2 : 0), 0);
  return scatter <= allowed + at.length * (1e-6 * period) ** 2;
}

interface Cycles {
  readonly periods: readonly Period[];
  /** By how much sampling at the ends of the runs may shorten or lengthen the sum of all periods, s. */
  readonly edgeDoubt: Seconds;
}

function cyclesOf({ times, low, high, deviations, rising, runs }: Crossings): Cycles {
  const periods: Period[] = [];
  const rest = (k: number) => Math.max(0, (high[k]! - low[k]!) / 2 - coverage * deviations[k]!);
  // What is left beside noise is spread evenly over its width: variance half² / 3. Where noise is the larger part, that
  // differs from edge to edge as noise does; else sampling may err alike at many edges, and then change slowly (a beat).
  const isHidden = (k: number) => rest(k) > coverage * deviations[k]!;
  const open = (k: number) => (isHidden(k) ? rest(k) : 0);
  const edge = (k: number) => {
    const [noise, even] = [deviations[k]! ** 2, rest(k) ** 2 / 3];
    return isHidden(k) ? { noise, open: even } : { noise: noise + even, open: 0 };
  };
  let edgeDoubt = 0;
  let before = -1;
  let isLinked = false;
  for (let k = 0; k < times.length; k++) {
    if (rising[k] !== 1) continue;
    const isNext = before >= 0 && runs[k] === runs[before];
    if (isNext) {
      periods.push({ length: times[k]! - times[before]!, start: edge(before), end: edge(k), isLinked });
      if (!isLinked) edgeDoubt += open(before);
    } else if (isLinked) edgeDoubt += open(before);
    isLinked = isNext;
    before = k;
  }
  if (isLinked) edgeDoubt += open(before);
  return { periods, edgeDoubt };
}

function aliasTrouble(frequency: Hertz, step: Seconds, fastest: Hertz | undefined): string | null {
  const rate = 1 / step;
  const wanted = askedRateFor(10 * (fastest ?? frequency));
  if (frequency * step * leastPerCycle > 1) {
    const perCycle = formatValue(rate / frequency, "1");
    return `only ${perCycle} samples per cycle, so cycles may be missed; record ${wanted}`;
  }
  if (fastest !== undefined && rate - frequency < fastest) {
    return `at ${formatValue(rate, "1")} samples/s a faster swing looks like this one; record ${wanted}`;
  }
  return null;
}

/** Below 20 samples per second a sensor's swing may be faster than half the rate. */
function aliasRemark(frequency: Hertz, step: Seconds): string | null {
  if (step < 0.05) return null;
  const mirror = 1 / step - frequency;
  return `if the true swing were near ${formatValue(mirror, "Hz")}, it would look the same at this sampling rate`;
}

/**
 * Share of time above a level, %.
 *
 * @param series  any length, one unit; read only. NaN and gaps end a run.
 * @param level  unit of the samples.
 * @returns count = samples looked at. `not-resolvable` where no two samples hang together, or the bounds leave all open.
 *
 * Time above is interpolated between samples. Each change of side may lie anywhere between its two samples; those errors
 * are independent of each other (uniform, deviation step / sqrt 12 each) except for their common part, which cancels
 * between rising and falling; the bounds allow for twice that, and for one whole step at the ends. Of a wave that runs in step
 * with the samples every edge errs alike: then spells of one side hold the same number of samples time after time, and only
 * as many edges count as independent as that number changes, and one (`EdgeCount`). What reads as the level
 * itself, to half a voltage step, may lie on either side: half of it counts, and the bounds hold all of it.
 */
export function dutyOf(series: AnySeries, level: number): Reading {
  const { above, total, doubt, either, longest, count, edges } = timeAbove(series, level);
  if (!(total > 0)) return notResolvable("%", "no two samples hang together in this span", { count });
  const value = Math.min(100, (100 * above) / total);
  const locked = Math.max(2, edges.alike);
  const passages = doubt > 0 ? locked * coverage * Math.sqrt(doubt) + longest / 2 : 0;
  const half = (100 * (passages + either / 2)) / total;
  if (half > 50) {
    const because = "the edges hide between samples that keep step with them; another rate would tell";
    return notResolvable("%", because, { low: Math.max(0, value - half), high: Math.min(100, value + half), count });
  }
  return measured(value, [Math.max(0, value - half), Math.min(100, value + half)], "%", { count: count + 1 });
}

interface TimeAbove {
  /** s above, in all, and where what is read may be the level itself. */
  readonly above: Seconds;
  readonly total: Seconds;
  readonly either: Seconds;
  /** s², of the errors where the side changes. */
  readonly doubt: number;
  /** The longest step, s. */
  readonly longest: Seconds;
  readonly count: number;
  readonly edges: EdgeCount;
}

/** Sums over all stretches without a gap; blocks that stay on one side are passed over whole. */
function timeAbove(series: AnySeries, level: number): TimeAbove {
  const onLevel = (quantisationOf(series.samples) / 2) * (1 - 1e-6);
  const even = series.time.kind === "even" ? series.time.step : 0;
  let above = 0;
  let total = 0;
  let doubt = 0;
  let either = 0;
  let longest = 0;
  let count = 0;
  let b = NaN;
  let now = NaN;
  const edges = new EdgeCount();
  const bounds = blockBoundsOf(series.samples);
  for (const { series: part, at, from, to, isStart } of stretchesOf(series, runsOf(series))) {
    const { time, samples } = part;
    if (isStart) {
      b = samples[from]! - level;
      now = timeAt(time, from);
    }
    for (let i = isStart ? from + 1 : from; i < to; i++) {
      const block = even > 0 ? blockAt(at + i, at + to) : -1;
      const isAbove = block >= 0 && b > onLevel && bounds.low[block]! - level > onLevel;
      if (isAbove || (block >= 0 && b < -onLevel && bounds.high[block]! - level < -onLevel)) {
        // A block that stays on the side where the signal was.
        i += blockLength - 1;
        b = samples[i]! - level;
        if (isAbove) above += blockLength * even;
        total += blockLength * even;
        longest = Math.max(longest, even);
        count += blockLength;
        continue;
      }
      const before = now;
      if (even === 0) now = timeAt(time, i);
      const step = even || now - before;
      const a = b;
      b = samples[i]! - level;
      total += step;
      if (step > longest) longest = step;
      count++;
      if (a < onLevel && a > -onLevel) either += step;
      if (a === 0 && b === 0) above += step / 2;
      else if (a > 0 && b > 0) above += step;
      else if (a > 0 || b > 0) {
        above += (step * Math.max(a, b)) / (Math.abs(a) + Math.abs(b));
        doubt += (step * step) / 12;
        edges.change(count, b > 0);
      }
    }
  }
  return { above, total, doubt, either, longest, count, edges };
}
