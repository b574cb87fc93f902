// Spells in which the front was lean: the ordinary half-cycles of closed loop, and those long enough to be a lift-off.

import { type Crossings, findCrossings } from "../../signal/edges/crossings.ts";
import type { Edge } from "../../signal/edges/edge.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { runsOf } from "../../signal/series/runs.ts";
import { indexAt, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { noiseOf, sureNoiseOf } from "../../signal/statistics/noise.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import type { BankChannels } from "../terms/channels.ts";
import { edgeAt, hysteresisFor, pieceOf } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";
import { bridged } from "./bridged.ts";

/** One fall of the front, and what came of it. */
export interface LeanSpell {
  readonly fall: Edge;
  /** The front's rise that ends it; null where the recording or a gap ends it. */
  readonly rise: Edge | null;
  /** The rise, or the last sample before the end. */
  readonly end: Seconds;
  /** How long the front had been rich before, s. */
  readonly richFor: Seconds;
  /** Deep enough and long enough to be a lift-off. */
  readonly isLiftOff: boolean;
  /** Shown to be one by what cut the fuel: the loop's own half-cycles need not be shorter. */
  readonly isProven: boolean;
}

/** What was recorded of the fuel while the front was lean, and of the throttle: cut, not cut, or neither shown (null). */
export type CutProof = (lean: { readonly from: Seconds; readonly to: Seconds }) => boolean | null;

/** What is looked for on the front: a falling voltage, or with a wide-band sensor a rising lambda. */
export interface FrontRule {
  readonly series: Series;
  /** Crossed downwards by the (turned) signal when it goes lean. */
  readonly level: number;
  readonly hysteresis: number;
  readonly noise: number;
  /** +1: lean is low; -1: lean is high. */
  readonly sign: 1 | -1;
  /** Beyond this it is lean through and through; and beyond that it was rich. */
  readonly deep: number;
  readonly rich: number;
}

/** @returns null without a front sensor. The narrow-band sensor goes before the wide-band one where both were recorded. */
export function frontRuleOf(channels: BankChannels, limits: Limits): FrontRule | null {
  const everything = { from: -Infinity, to: Infinity };
  const front = pieceOf(channels.front, everything);
  if (front && channels.front?.unit !== "1") {
    const hysteresis = hysteresisFor([front, pieceOf(channels.rear, everything)], limits);
    const { cutLevel: deep, highLevel: rich, switchLevel: level } = limits;
    return { series: bridged(front.series), noise: front.noise, level, hysteresis, sign: 1, deep, rich };
  }
  const wide = channels.frontLambda ?? channels.front;
  if (!wide) return channels.frontPump && pumpRule(channels.frontPump.series, limits);
  const noise = noiseOf(wide.series.samples);
  const [level, deep] = [limits.cutLambda, limits.cutLambda];
  return {
    series: wide.series,
    noise,
    level,
    hysteresis: Math.max(0.02, 4 * sureNoiseOf(wide.series.samples)),
    sign: -1,
    deep,
    rich: 1.03,
  };
}

/** Rich or in balance below this, mA: as a lambda of 1.03 is, about. From memory. */
const balancedCurrent = 0.1;

function pumpRule(series: Series, { cutPump }: Limits): FrontRule {
  const hysteresis = Math.max(0.1, 4 * sureNoiseOf(series.samples));
  const noise = noiseOf(series.samples);
  return { series, noise, level: cutPump, hysteresis, sign: -1, deep: cutPump, rich: balancedCurrent };
}

/** With so many lean spells or more, those that are like the others are the loop's own, however slow. Own choice. */
const enoughToCompare = 6;

/**
 * Every fall of the front from rich, in order of time.
 *
 * A lift-off: the front falls from rich and stays beyond `cutLevel` for longer than both `cutTime` and
 * `cutAgainstHalfCycle` times the longest lean half-cycle before it (of the last `cutMemory` seconds, lift-offs themselves
 * left out). Nothing is taken across a gap. Where a fuel cut is shown, or the throttle closed for as long as the front was
 * lean, the half-cycles have no say: there is no loop to compare with while fuel is cut, and a slow log that samples a fast
 * loop shows half-cycles that never were. Where a cut is refuted, the spell is the loop's own; and where samples lie further
 * apart than `cutTime`, nothing shows that the front stayed lean between them, and only a shown cut counts.
 */
export function leanSpells(rule: FrontRule, limits: Limits, isCut: CutProof): LeanSpell[] {
  const { series, level, hysteresis, noise } = rule;
  const crossings = findCrossings(series, { level, hysteresis, noise });
  const runs = runsOf(series);
  const isSeen = !(usualStep(series.time) > limits.cutTime);
  const spells: LeanSpell[] = [];
  const halfCycles: { readonly at: Seconds; readonly length: Seconds }[] = [];
  for (let k = 0; k < crossings.times.length; k++) {
    if ((crossings.rising[k] === 1) === (rule.sign === 1)) continue;
    const run = crossings.runs[k]!;
    const [begin, finish] = [timeAt(series.time, runs[2 * run]!), timeAt(series.time, runs[2 * run + 1]! - 1)];
    const fall = edgeAt(crossings, k);
    const rise = neighbour(crossings, k, 1);
    const before = neighbour(crossings, k, -1);
    const end = rise?.time ?? finish;
    const deep = deepTime(rule, crossings.indices[k]!, end);
    const isLong = wasRich(rule, before?.time ?? begin, fall.time) && deep > limits.cutTime;
    const proof = isLong ? isCut({ from: fall.time, to: end }) : null;
    const isProven = proof === true;
    const usual = limits.cutAgainstHalfCycle * longestSince(halfCycles, fall.time - limits.cutMemory);
    const isLiftOff = isProven || (isSeen && proof !== false && isLong && deep > usual);
    if (rise && !isLiftOff) halfCycles.push({ at: rise.time, length: rise.time - fall.time });
    spells.push({ fall, rise, end, richFor: fall.time - (before?.time ?? begin), isLiftOff, isProven });
  }
  return loopLeftOut(spells, limits);
}

/** A slow loop's half-cycles are no lift-offs: those must stand out from the middle one of all lean spells. */
function loopLeftOut(spells: readonly LeanSpell[], limits: Limits): LeanSpell[] {
  if (spells.length < enoughToCompare) return [...spells];
  const usual = medianOfNumbers(spells.map(({ fall, end }) => end - fall.time));
  return spells.map((spell) => ({
    ...spell,
    isLiftOff: spell.isProven || (spell.isLiftOff && spell.end - spell.fall.time > limits.cutAgainstHalfCycle * usual),
  }));
}

/** Longest of the half-cycles that ended at or after `since`; 0 of none. Walks back from the latest. */
function longestSince(
  halfCycles: readonly { readonly at: Seconds; readonly length: Seconds }[],
  since: Seconds,
): Seconds {
  let longest = 0;
  for (let k = halfCycles.length - 1; k >= 0 && halfCycles[k]!.at >= since; k--) {
    longest = Math.max(longest, halfCycles[k]!.length);
  }
  return longest;
}

/** The crossing before or after, in the same gap-free run. */
function neighbour(crossings: Crossings, k: number, way: 1 | -1): Edge | null {
  return crossings.runs[k + way] === crossings.runs[k] ? edgeAt(crossings, k + way) : null;
}

/** From the first sample beyond `deep` to the last before one comes back by more than the hysteresis. */
function deepTime({ series, deep, hysteresis, sign }: FrontRule, from: number, end: Seconds): Seconds {
  let [first, last] = [-1, -1];
  for (let i = from; i < series.samples.length && timeAt(series.time, i) <= end; i++) {
    const above = sign * (series.samples[i]! - deep);
    if (Number.isNaN(above)) break;
    if (above < 0) {
      if (first < 0) first = i;
      last = i;
    } else if (first >= 0 && above > hysteresis) break;
  }
  return first < 0 ? 0 : timeAt(series.time, last) - timeAt(series.time, first);
}

/** Whether the front was rich through and through at some time since `from`. */
function wasRich({ series, rich, sign }: FrontRule, from: Seconds, to: Seconds): boolean {
  const end = Math.min(series.samples.length, indexAt(series.time, to) + 1);
  for (let i = Math.max(0, indexAt(series.time, from) - 1); i < end; i++) {
    if (sign * (series.samples[i]! - rich) > 0) return true;
  }
  return false;
}
