// What the rear sensor did while the front was lean: rich before or not, and when it fell.

import type { Crossings } from "../../signal/edges/crossings.ts";
import type { Edge } from "../../signal/edges/edge.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { runsOf } from "../../signal/series/runs.ts";
import { countOf, indexAt, type Series, timeAt } from "../../signal/series/series.ts";
import { percentile } from "../../signal/statistics/statistics.ts";
import type { BankChannels } from "../terms/channels.ts";
import { crossingsOf, edgeAt, hysteresisFor, type Piece, pieceOf } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";
import { bridged } from "./bridged.ts";
import type { FrontRule, LeanSpell } from "./lean-spells.ts";

/** The rear over the whole capture. */
export interface RearScene {
  readonly piece: Piece;
  readonly crossings: Crossings;
  /** Gap-free runs of the rear, pairs of sample indices. */
  readonly runs: Float64Array;
  /** Rich above, lean below, V. */
  readonly level: number;
}

/** The rear counts on its own level, a zirconia sensor's, whatever kind the front is. */
export function rearSceneOf(channels: BankChannels, limits: Limits): RearScene | null {
  const everything = { from: -Infinity, to: Infinity };
  const piece = pieceOf(channels.rear, everything);
  if (!piece) return null;
  const hysteresis = hysteresisFor([piece, pieceOf(channels.front, everything)], limits);
  const level = limits.switchLevel;
  const whole = { ...piece, series: bridged(piece.series) };
  return { piece: whole, crossings: crossingsOf(whole, level, hysteresis), runs: runsOf(whole.series), level };
}

/** What the rear did in one lean spell of the front. */
export interface RearStory {
  readonly fall: Edge | null;
  /** Why there is no fall to speak of; "" where there is one. */
  readonly says: string;
  /** Until when the rear is known not to have fallen, where it did not; else null. */
  readonly richUntil: Seconds | null;
  readonly richBefore: boolean;
  /** Level just before, V; null when unknown. */
  readonly level: number | null;
}

/** The rear's state at the front's fall, and its first fall after it and before fuel came back. */
export function rearStory(
  { rear, limits, front }: { readonly rear: RearScene | null; readonly limits: Limits; readonly front: FrontRule },
  spell: LeanSpell,
): RearStory {
  const none = { fall: null, richUntil: null, richBefore: false, level: null };
  if (!rear) return { ...none, says: "No channel stands for the rear sensor." };
  const { crossings, piece, runs } = rear;
  const run = runAround(piece.series, runs, spell.fall.time);
  if (run === null) return { ...none, says: "The rear was not being recorded when the front fell." };
  const slack = doubtOf(piece.series) + doubtOf(front.series);
  const k = fallOfSpell(crossings, spell, slack);
  const level = levelBefore(piece.series, spell.fall.time);
  const isOfSpell = k >= 0 && crossings.runs[k] === run && crossings.low[k]! <= spell.end + slack;
  const before = sideBefore(rear, run, isOfSpell ? crossings.times[k]! : spell.fall.time);
  if (before === "lean") return { ...none, level, says: whyLean(crossings, spell.fall.time) };
  const richBefore = level !== null && level > limits.highLevel;
  const until = Math.min(spell.rise?.low ?? Infinity, timeAt(piece.series.time, runs[2 * run + 1]! - 1));
  const falls = k >= 0 && crossings.runs[k] === run && crossings.low[k]! <= Math.max(until, spell.rise?.high ?? until);
  if (!falls) {
    const says = whyNoFall(piece.series, spell, until);
    return {
      fall: null,
      richUntil: stillRich(piece.series, spell.fall.time, until, rear.level),
      richBefore,
      level,
      says,
    };
  }
  return { fall: edgeAt(crossings, k), richUntil: null, richBefore, level, says: "" };
}

/** How far a stamp may be off, both ways together, s. */
export const doubtOf = ({ time }: Series): Seconds => (time.doubt ? time.doubt.early + time.doubt.late : 0);

/** Until when no sample lay below the level: one that did, though no clear fall was seen, ends what is known. */
function stillRich({ time, samples }: Series, from: Seconds, until: Seconds, level: number): Seconds {
  let known = from;
  for (let i = indexAt(time, from); i < samples.length && timeAt(time, i) <= until; i++) {
    if (samples[i]! < level) return known;
    known = timeAt(time, i);
  }
  return until;
}

function whyNoFall({ time }: Series, spell: LeanSpell, until: Seconds): string {
  if (spell.rise && until >= spell.rise.low) {
    return "The rear had not fallen when fuel returned. A longer lift-off would tell.";
  }
  if (until < timeAt(time, countOf(time) - 1)) return "The recording of the rear has a hole before it fell.";
  return "The recording of the rear ends before it fell.";
}

/** A rear that fell so shortly before belongs to the same closing, s. */
const justBefore: Seconds = 2;

/** The rear was lean before the front was: long since, or it fell first. */
function whyLean({ times, rising }: Crossings, fall: Seconds): string {
  const last = times.findLastIndex((time) => time < fall);
  if (last < 0 || rising[last] === 1 || fall - times[last]! > justBefore) {
    return "The rear was lean already when the front fell.";
  }
  return `The rear fell ${quantity(fall - times[last]!, "s")} before the front: air leaks in between them, or the front is the slower sensor.`;
}

/** Number of the gap-free run that holds `t`; null where none does. */
function runAround(series: Series, runs: Float64Array, t: Seconds): number | null {
  for (let r = 0; r < runs.length; r += 2) {
    if (timeAt(series.time, runs[r]!) <= t && t <= timeAt(series.time, runs[r + 1]! - 1)) return r / 2;
  }
  return null;
}

/** The rear's first fall that may belong to this spell: not one it had risen from again before the front fell. */
function fallOfSpell({ high, rising, times }: Crossings, { fall }: LeanSpell, slack: Seconds): number {
  for (let k = 0; k < high.length; k++) {
    if (rising[k] === 1 || high[k]! < fall.low - slack) continue;
    const roseAgain = rising[k + 1] === 1 && times[k + 1]! < fall.low;
    if (!roseAgain) return k;
  }
  return -1;
}

/** On which side of the level the rear last was before `t`, in the same run. */
function sideBefore({ crossings, piece, runs, level }: RearScene, run: number, t: Seconds): "rich" | "lean" {
  for (let k = crossings.times.length - 1; k >= 0; k--) {
    if (crossings.runs[k] !== run || crossings.times[k]! >= t) continue;
    return crossings.rising[k] === 1 ? "rich" : "lean";
  }
  // No crossing before: it has stood on one side since the run began.
  return piece.series.samples[runs[2 * run]!]! > level || crossingFollowsDown(crossings, run) ? "rich" : "lean";
}

const crossingFollowsDown = ({ rising, runs }: Crossings, run: number): boolean => {
  const first = runs.indexOf(run);
  return first >= 0 && rising[first] === 0;
};

/** Median over the half second before, or of the last two samples of a slow log. */
function levelBefore(series: Series, t: Seconds): number | null {
  const end = indexAt(series.time, t);
  const first = Math.min(indexAt(series.time, t - 0.5), Math.max(0, end - 2));
  const level = percentile(series.samples.subarray(first, end), 0.5);
  return Number.isFinite(level) ? level : null;
}
