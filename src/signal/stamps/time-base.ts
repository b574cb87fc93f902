// What the stamps of a channel say: rate, jitter, holes, repeats; and how often its values were really refreshed.

import { measured, notResolvable, type Reading } from "../numbers/reading.ts";
import type { Seconds } from "../numbers/units.ts";
import { longestStep } from "../series/gaps.ts";
import { type Samples, type Series, type TimeBase, timeAt } from "../series/series.ts";
import { percentiles } from "../statistics/statistics.ts";

export interface StampFacts {
  /** Samples per second where samples come, without the gaps. */
  readonly rate: Reading;
  /** Steps between successive stamps that rise, s; NaN where there is none. */
  readonly step: { readonly median: Seconds; readonly min: Seconds; readonly max: Seconds };
  /** Half of what the middle 90 % of the steps spread, as a share of the median step; 0 for even steps. */
  readonly jitter: number;
  /** Between which two stamps nothing was recorded. */
  readonly gaps: readonly { readonly from: Seconds; readonly to: Seconds }[];
  /** Stamps equal to the one before, and stamps before the one before. */
  readonly duplicates: number;
  readonly backwards: number;
  /** "polled" below 20 values a second, as a log asks for them; else "scope". */
  readonly kind: "scope" | "polled";
}

export interface TimeBaseFacts extends StampFacts {
  /** Share of the samples that repeat the one before, 0 … 1. */
  readonly heldShare: number;
  /** Values per second that are really new: below `rate` where a channel is re-sent faster than it is refreshed. */
  readonly updateRate: Reading;
}

/** Common practice: asking for values over the diagnostic socket yields less, a recorder with its own clock more. */
const polledBelow = 20;

/** Steps looked at for percentiles; more are taken evenly spread. */
const most = 1 << 16;

/**
 * What raw stamps say, before they are made into a time base.
 *
 * @param stamps  s, any order, NaN allowed (left out).
 * @returns rate `not-resolvable` where fewer than two stamps differ: never an infinite rate.
 */
export function describeStamps(stamps: Float64Array): StampFacts {
  const tally = tallySteps(stamps);
  const { duplicates, backwards, rising, min, max, gaps } = tally;
  if (rising === 0) {
    const rate = notResolvable("Hz", "fewer than two different stamps", { count: stamps.length });
    return { rate, step: { median: NaN, min: NaN, max: NaN }, jitter: 0, gaps, duplicates, backwards, kind: "scope" };
  }
  const [p5, median, p95] = percentiles(someSteps(stamps), [0.05, 0.5, 0.95]) as [number, number, number];
  const rate = rateOfSteps(tally, Math.max(p95 - p5, Math.abs(stamps[0]!) * 1e-15));
  const kind = rate.value !== null && rate.value < polledBelow ? "polled" : "scope";
  return { rate, step: { median, min, max }, jitter: (p95 - p5) / 2 / median, gaps, duplicates, backwards, kind };
}

interface StepTally {
  readonly duplicates: number;
  readonly backwards: number;
  readonly rising: number;
  /** Steps within the gap limit, and the time they cover. */
  readonly joined: number;
  readonly covered: Seconds;
  readonly min: Seconds;
  readonly max: Seconds;
  readonly gaps: readonly { readonly from: Seconds; readonly to: Seconds }[];
}

function tallySteps(stamps: Float64Array): StepTally {
  const limit = longestStep(stamps);
  const gaps: { from: Seconds; to: Seconds }[] = [];
  let duplicates = 0;
  let backwards = 0;
  let rising = 0;
  let joined = 0;
  let covered = 0;
  let min = Infinity;
  let max = 0;
  let before = NaN;
  for (let i = 0; i < stamps.length; i++) {
    const now = stamps[i]!;
    if (Number.isNaN(now)) continue;
    const step = now - before;
    before = now;
    if (step === 0) duplicates++;
    else if (step < 0) backwards++;
    if (step === 0 || (step > 0 && step <= limit)) {
      joined++;
      covered += step;
    }
    if (!(step > 0)) continue;
    rising++;
    min = Math.min(min, step);
    max = Math.max(max, step);
    if (step > limit) gaps.push({ from: now - step, to: now });
  }
  return { duplicates, backwards, rising, joined, covered, min, max, gaps };
}

/** Steps over time; either end of the span may be off by half of what single steps spread. */
export function rateOfSteps({ joined, covered }: Pick<StepTally, "joined" | "covered">, spread: Seconds): Reading {
  if (!(covered > 0)) return notResolvable("Hz", "stamps do not advance", { count: joined + 1 });
  const value = joined / covered;
  const low = joined / (covered + spread);
  const high = spread < covered ? joined / (covered - spread) : null;
  if (high === null || high - low > value) {
    return notResolvable("Hz", "steps are too uneven for a rate; a longer recording would tell", { low, high });
  }
  return measured(value, [low, high], "Hz", { count: joined + 1 });
}

function someSteps(stamps: Float64Array): Float64Array {
  const count = Math.min(stamps.length - 1, most);
  const steps = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const i = 1 + Math.floor((k * (stamps.length - 1)) / count);
    const step = stamps[i]! - stamps[i - 1]!;
    steps[k] = step > 0 ? step : NaN;
  }
  return steps;
}

/**
 * What the time base and the values of a channel say about its sampling. Missing samples (NaN) do not count as held.
 *
 * @param series  any length; NaN samples are missing.
 * @returns rates in Hz, `not-resolvable` where too few stamps or changes tell; steps in s, NaN where there is none.
 */
export function describeTimeBase(series: Series): TimeBaseFacts {
  const facts = series.time.kind === "even" ? evenFacts(series.time) : describeStamps(series.time.stamps);
  return { ...facts, ...heldFacts(series, facts.rate) };
}

function evenFacts({ step, count }: Extract<TimeBase, { kind: "even" }>): StampFacts {
  const rate =
    count < 2 || !(step > 0 && step < Infinity)
      ? notResolvable("Hz", "fewer than two samples", { count })
      : measured(1 / step, [1 / step, 1 / step], "Hz", { count });
  const known = count < 2 ? NaN : step;
  return {
    rate,
    step: { median: known, min: known, max: known },
    jitter: 0,
    gaps: [],
    duplicates: 0,
    backwards: 0,
    kind: rate.value !== null && rate.value < polledBelow ? "polled" : "scope",
  };
}

function heldFacts({ time, samples }: Series, rate: Reading): Pick<TimeBaseFacts, "heldShare" | "updateRate"> {
  const { pairs, repeats, first, last } = tallyRepeats(samples);
  if (pairs === 0 || rate.value === null) {
    return { heldShare: 0, updateRate: notResolvable("Hz", "fewer than two neighbouring samples", { count: pairs }) };
  }
  const heldShare = repeats / pairs;
  const changes = pairs - repeats;
  if (changes < 2) {
    const because = "the values hardly change, so fresh ones cannot be told from repeated ones";
    return { heldShare, updateRate: notResolvable("Hz", because, { high: rate.high, count: changes }) };
  }
  // A value that happens to come out the same is not seen as fresh: the count of changes is a lower bound.
  const span = timeAt(time, last) - timeAt(time, first);
  const value = Math.min(rate.value * (1 - heldShare), rate.value);
  const low = Math.max(0, Math.min(value, (changes - 1) / span));
  return {
    heldShare,
    updateRate: measured(value, [low, Math.max(rate.high ?? value, value)], "Hz", { count: changes }),
  };
}

function tallyRepeats(samples: Samples): { pairs: number; repeats: number; first: number; last: number } {
  let pairs = 0;
  let repeats = 0;
  let first = -1;
  let last = -1;
  for (let i = 1; i < samples.length; i++) {
    const [a, b] = [samples[i - 1]!, samples[i]!];
    if (!(Math.abs(a) < Infinity && Math.abs(b) < Infinity)) continue;
    pairs++;
    if (first < 0) first = i - 1;
    last = i;
    if (a === b) repeats++;
  }
  return { pairs, repeats, first, last };
}
