// When the throttle closed at speed: the first witness of a lift-off, before any sensor is looked at.

import type { Seconds } from "../../signal/numbers/units.ts";
import { onceWith } from "../../signal/series/once.ts";
import { within } from "../../signal/series/reel.ts";
import { indexAt, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";

export interface Closing {
  /** First sample at which it is closed; the first open one after it, or when the engine has become too slow for a cut. */
  readonly at: Seconds;
  readonly until: Seconds;
}

/** Closings above the speed of a fuel cut, after which the engine slows down. Empty without throttle and engine speed. */
export function closingsOf({ throttle, engineSpeed }: BankChannels, limits: Limits): Closing[] {
  if (!throttle || !engineSpeed) return [];
  const fast = closedSpans(throttle.series, limits.closedThrottle).filter(({ at }) => {
    const { highest, falls } = slowingFrom(engineSpeed.series, at);
    return falls && highest! > limits.cutSpeed;
  });
  return fast.map(({ at, until }) => ({ at, until: Math.min(until, slowFrom(engineSpeed.series, at, limits)) }));
}

/** How long after a closing the engine has surely slowed down, s; two rows at least. */
const slowsWithin: Seconds = 2;

/**
 * The engine's speed about `at`, and whether it is lower soon after, or at `to` where that comes before. The last value before `at`
 * may stem from the pull, when the engine was slower still: the row after it counts as well.
 */
export function slowingFrom(
  speed: Series | undefined,
  at: Seconds,
  to: Seconds = Infinity,
): { readonly highest: number | null; readonly falls: boolean } {
  const row = (speed && usualStep(speed.time)) || 0;
  const near = [at, Math.min(to, at + row)].flatMap((t) => valueNear(speed, t) ?? []);
  const later = valueNear(speed, Math.min(to, at + Math.max(slowsWithin, 2 * row)));
  if (near.length === 0) return { highest: null, falls: false };
  const highest = Math.max(...near);
  return { highest, falls: later !== null && later < highest };
}

/** When the engine first turns more slowly than a cut needs, after `since`; Infinity where it never does. */
function slowFrom({ time, samples }: Series, since: Seconds, { cutSpeed }: Limits): Seconds {
  for (let i = indexAt(time, since); i < samples.length; i++) {
    if (samples[i]! < cutSpeed) return timeAt(time, i);
  }
  return Infinity;
}

/**
 * @param most  above the lowest sample it counts as closed, beyond twice as much as open. In between it is as it was before; where it
 * never closes again before it is open, it left its stop when it first stood there: many cars cruise with hardly more.
 */
const closedSpans = onceWith(({ time, samples }: Series, most: number): Closing[] => {
  const closed = percentiles(samples, [0])[0]!;
  const spans: { at: Seconds; until: Seconds }[] = [];
  let state: "open" | "closed" | "unknown" = "unknown";
  for (let i = 0; i < samples.length; i++) {
    const above = samples[i]! - closed;
    if (above <= most) {
      if (state === "open") spans.push({ at: timeAt(time, i), until: Infinity });
      else if (spans.length > 0) spans[spans.length - 1]!.until = Infinity;
      state = "closed";
    } else if (above > most) {
      if (spans.length > 0) spans[spans.length - 1]!.until = Math.min(spans[spans.length - 1]!.until, timeAt(time, i));
      if (above > 2 * most) state = "open";
    }
  }
  const end = timeAt(time, samples.length - 1);
  return spans.map(({ at, until }) => ({ at, until: Math.min(until, end) }));
});

/** A value further away than this many of its channel's steps, or two seconds if more, says nothing of now. */
const nearSteps = 2;

/** The last sample at or before `t`, else the first after, unless it is too far away. */
export function valueNear(series: Series | undefined, t: Seconds): number | null {
  if (!series || series.samples.length === 0) return null;
  const far = Math.max(2, nearSteps * (usualStep(series.time) || 0));
  const after = indexAt(series.time, t);
  const isAt = after < series.samples.length && timeAt(series.time, after) === t;
  for (const i of isAt ? [after, after - 1] : [after - 1, after]) {
    const value = series.samples[i];
    if (value !== undefined && Number.isFinite(value) && Math.abs(timeAt(series.time, i) - t) <= far) return value;
  }
  return null;
}

/** How far apart the values of a span lie; null with fewer than two. */
export function rangeWithin(
  series: Series | undefined,
  from: Seconds,
  to: Seconds,
): { low: number; high: number } | null {
  if (!series) return null;
  const { samples } = within(series, from, to);
  let [low, high, known] = [Infinity, -Infinity, 0];
  for (const value of samples) {
    if (value - value !== 0) continue;
    if (value < low) low = value;
    if (value > high) high = value;
    known++;
  }
  return known < 2 ? null : { low, high };
}
