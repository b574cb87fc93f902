// What looks wrong with how a recording was made: a clipped channel, front and rear in each other's place.

import type { Bank, Capture, Channel, Remark } from "../../capture/model/capture.ts";
import { remarkOf } from "../../capture/model/remarks.ts";
import { crossingCount, findCrossings } from "../../signal/edges/crossings.ts";
import { type Samples, type Series, timeAt } from "../../signal/series/series.ts";
import { extremesOf } from "../../signal/statistics/extremes.ts";
import { sureNoiseOf } from "../../signal/statistics/noise.ts";

/** What looks wrong, for people; empty where nothing does. Only oxygen sensors of `bank` are looked at. */
export function warningsOf(capture: Capture, bank: Bank): readonly Remark[] {
  const front = sensor(capture, "front-o2", bank);
  const rear = sensor(capture, "rear-o2", bank);
  const clipped = [front, rear].flatMap((channel) => (channel ? clippings(channel) : []));
  return front && rear && looksSwapped(front, rear) ? [...clipped, swapped] : clipped;
}

const swapped: Remark = {
  code: "looks-swapped",
  text: "front and rear look swapped: what is called the rear sensor moves as a front sensor does; check the leads or the roles",
};

function sensor(capture: Capture, role: "front-o2" | "rear-o2", bank: Bank): Channel | null {
  return capture.channels.find((channel) => channel.role === role && channel.bank === bank) ?? null;
}

/** A rail holds at least this share of the samples … */
const railShare = 0.005;
/** … and this many times as many as the twentieth of the range beside it. Both common practice. */
const railOverBeside = 4;
/** Less swing than this is no clipped signal but a quiet one, V. */
const leastSwing = 0.15;
/** Fewer samples than this at a rail prove nothing. */
const leastSamples = 20;

/** A log that is asked for repeats coarse values, 0 V in air above all: a rail cannot be told there. */
function clippings({ name, unit, series, polled }: Channel): Remark[] {
  if (polled) return [];
  const { samples } = series;
  const [low, high] = extremesOf(samples);
  if (!(high - low > leastSwing)) return [];
  const beside = (high - low) / 20;
  return [high, low].flatMap((rail) => {
    const { at, near, present } = crowdAt(samples, rail, beside);
    const isRail = at >= leastSamples && at > railShare * present && at > railOverBeside * near;
    return isRail && !settlesAt(samples, rail, beside)
      ? [remarkOf([`${name} looks clipped at `, { value: rail, unit }], { code: "looks-clipped", count: at })]
      : [];
  });
}

/** How many samples lie on the rail exactly, how many beside it within `reach`, and how many there are. */
function crowdAt(samples: Samples, rail: number, reach: number) {
  let at = 0;
  let near = 0;
  let present = 0;
  for (let i = 0; i < samples.length; i++) {
    const distance = Math.abs(samples[i]! - rail);
    if (distance === 0) at++;
    else if (distance < reach) near++;
    if (distance >= 0) present++;
  }
  return { at, near, present };
}

/**
 * What is cut off arrives at the rail as quickly as it went before; what settles there by itself slows down. A first-order course
 * takes three times as long for the last twentieth of the range, down to half a hundredth, as for the one before it (ln 10 to ln 2);
 * a sine that is cut off at half its height or below, 1.1 times.
 */
const settlingSlows = 1.6;

/** Whether the signal comes to the rail slower and slower. Without noise the plateaus of a sensor lie on one value too. */
function settlesAt(samples: Samples, rail: number, reach: number): boolean {
  let [last, before] = [0, 0];
  let [lastNow, beforeNow] = [0, 0];
  let isComing = false;
  for (let i = 0; i < samples.length; i++) {
    const distance = Math.abs(samples[i]! - rail);
    if (distance >= 2 * reach) [isComing, lastNow, beforeNow] = [true, 0, 0];
    else if (distance >= reach) beforeNow++;
    else if (distance > 0) lastNow++;
    else if (isComing) [last, before, isComing] = [last + lastNow, before + beforeNow, false];
  }
  return last > settlingSlows * before;
}

/** Samples that are looked at to tell which sensor is which: the middle of a longer recording. */
const looked = 2_000_000;

/**
 * Whether the rear switches where the front hardly does. Counts of one recording, passages of the switch level. Own choice:
 * ten are no accident, and no store makes three of one.
 */
export function switchesInstead(frontCount: number, rearCount: number): boolean {
  return rearCount >= 10 && rearCount > 3 * frontCount;
}

/** The rear switches where the front hardly does, or falls first at lift-offs. */
function looksSwapped(front: Channel, rear: Channel): boolean {
  const [first, second] = [middle(front.series), middle(rear.series)];
  const [frontCount, rearCount] = [switches(first), switches(second)];
  if (switchesInstead(frontCount, rearCount)) return true;
  return rearFallsFirst(longLean(first), longLean(second), doubtOf(front) + doubtOf(rear));
}

function middle(series: Series): Series {
  const { samples, time } = series;
  if (samples.length <= looked) return series;
  const from = Math.floor((samples.length - looked) / 2);
  const part = samples.subarray(from, from + looked);
  if (time.kind === "even") return { samples: part, time: { ...time, start: timeAt(time, from), count: looked } };
  return { samples: part, time: { ...time, stamps: time.stamps.subarray(from, from + looked) } };
}

function doubtOf({ series }: Channel): number {
  const { early = 0, late = 0 } = series.time.doubt ?? {};
  return early + late;
}

/** Passages of 0.45 V with the hysteresis of the readings. */
function switches(series: Series): number {
  return crossingCount(series, { level: 0.45, hysteresis: Math.max(0.05, 4 * sureNoiseOf(series.samples)) });
}

/** A sensor stays below this in air; longer than a control swing it means a fuel cut. V, s; common practice. */
const leanLevel = 0.15;
const leanFor = 1;

interface Fall {
  readonly low: number;
  readonly high: number;
}

/** Falls below the lean level that last. */
function longLean(series: Series): Fall[] {
  const { times, low, high, rising } = findCrossings(series, { level: leanLevel, hysteresis: 0.03 });
  const falls: Fall[] = [];
  for (let i = 0; i < times.length; i++) {
    const isShort = i + 1 < times.length && times[i + 1]! - times[i]! < leanFor;
    if (!rising[i] && !isShort) falls.push({ low: low[i]!, high: high[i]! });
  }
  return falls;
}

/** Falls of both sensors this close belong to the same lift-off, s. */
const sameEvent = 5;

/** In most lift-offs, and more than one, the rear fell before the front could have. */
function rearFallsFirst(front: readonly Fall[], rear: readonly Fall[], doubt: number): boolean {
  let earlier = 0;
  let pairs = 0;
  for (const fall of front) {
    const mate = rear.find(({ low }) => Math.abs(low - fall.low) < sameEvent);
    if (!mate) continue;
    pairs++;
    if (mate.high + doubt < fall.low) earlier++;
  }
  return earlier > 1 && earlier * 3 >= pairs * 2;
}
