// One lift-off measured: front fall, rear fall, the delay between them, and the oxygen that passed meanwhile.

import { delayBetween, difference, integralOf, integralTimes, scaled } from "../signal/combine.ts";
import type { Crossings } from "../signal/crossings.ts";
import type { Edge } from "../signal/edge.ts";
import { atLeast, atMost, measured, notResolvable, type Reading } from "../signal/reading.ts";
import { runsOf } from "../signal/runs.ts";
import { indexAt, type Series, type StampDoubt, timeAt, within } from "../signal/series.ts";
import { percentile } from "../signal/statistics.ts";
import { findTransitions } from "../signal/transitions.ts";
import type { Seconds } from "../signal/units.ts";
import type { AnalysisChoices, Awakening, LiftOff } from "./analysis.ts";
import type { BankChannels } from "./channels.ts";
import { crossingsOf, edgeAt, hysteresisFor, type Piece, pieceOf } from "./edges.ts";
import { type CutFacts, cutFactsOf } from "./fuel-cut.ts";
import type { FrontRule, LeanSpell } from "./lean-spells.ts";
import type { Limits } from "./limits.ts";
import { oxygenShare, transportTime } from "./oxygen.ts";
import { quantity } from "./words.ts";

/** What all lift-offs of a capture are measured against. */
export interface LiftOffScene {
  readonly channels: BankChannels;
  readonly limits: Limits;
  readonly front: FrontRule;
  readonly rear: RearScene | null;
  readonly rearAwake: Awakening | null;
  readonly pipe: AnalysisChoices["pipe"] | undefined;
}

interface RearScene {
  readonly piece: Piece;
  readonly crossings: Crossings;
  /** Gap-free runs of the rear, pairs of sample indices. */
  readonly runs: Int32Array;
}

/** The rear counts on its own level, 0.45 V, whatever kind the front is. */
export function rearSceneOf(channels: BankChannels, limits: Limits): RearScene | null {
  const everything = { from: -Infinity, to: Infinity };
  const piece = pieceOf(channels.rear, everything);
  if (!piece) return null;
  const hysteresis = hysteresisFor([piece, pieceOf(channels.front, everything)], limits);
  return { piece, crossings: crossingsOf(piece, limits.switchLevel, hysteresis), runs: runsOf(piece.series) };
}

/** What the rear did in one lean spell of the front. */
interface RearStory {
  readonly fall: Edge | null;
  /** Why there is no fall to speak of; "" where there is one. */
  readonly says: string;
  /** Until when the rear is known not to have fallen, where it did not; else null. */
  readonly richUntil: Seconds | null;
  readonly richBefore: boolean;
  /** Level just before, V; null when unknown. */
  readonly level: number | null;
}

export function measureLiftOff(
  scene: LiftOffScene,
  spell: LeanSpell,
  tag: { readonly id: string; readonly origin: LiftOff["origin"] },
): LiftOff {
  const facts = cutFactsOf(scene.channels, { from: spell.fall.time, to: spell.end }, scene.limits);
  const story = rearStory(scene, spell);
  const delay = delayOf(scene, spell, story);
  const refusals = refusalsOf(scene, spell, story, facts);
  const frontDoubt = scene.front.series.time.doubt;
  return {
    ...tag,
    at: facts.throttleClosed ?? spell.fall.time,
    frontFall: edgeReading(spell.fall, frontDoubt),
    rearFall: story.fall
      ? edgeReading(story.fall, scene.rear?.piece.series.time.doubt)
      : notResolvable("s", story.says),
    delay,
    storedOxygen: oxygenOf(scene, spell, delay, facts),
    fuelCut: facts.fuelCut,
    airFlow: meanFlow(scene, spell, delay),
    engineSpeed: facts.engineSpeed,
    rejected: null,
    fuelReturn: spell.rise
      ? edgeReading(spell.rise, frontDoubt)
      : notResolvable("s", "The recording ends before fuel returned."),
    richAgain: richAgain(scene, spell, story),
    corrected: correctedDelay(scene, delay, meanFlow(scene, spell, delay)),
    rearSwitch: rearSwitch(scene, spell, story),
    valid: refusals.length === 0,
    remarks: [...refusals, facts.says],
  };
}

/** When an edge truly was: a value may be older, or newer, than its stamp says. */
function edgeReading({ time, low, high }: Edge, doubt: StampDoubt | undefined): Reading {
  return measured(time, [low - (doubt?.early ?? 0), high + (doubt?.late ?? 0)], "s");
}

/** The rear's state at the front's fall, and its first fall after it and before fuel came back. */
function rearStory({ rear, limits, front }: LiftOffScene, spell: LeanSpell): RearStory {
  const none = { fall: null, richUntil: null, richBefore: false, level: null };
  if (!rear) return { ...none, says: "No rear sensor was recorded." };
  const { crossings, piece, runs } = rear;
  const run = runAround(piece.series, runs, spell.fall.time);
  if (run === null) return { ...none, says: "The rear was not being recorded when the front fell." };
  const slack = doubtOf(piece.series) + doubtOf(front.series);
  const k = fallOfSpell(crossings, spell, slack);
  const before = sideBefore(rear, run, k >= 0 && crossings.runs[k] === run ? crossings.times[k]! : spell.fall.time);
  const level = levelBefore(piece.series, spell.fall.time);
  if (before === "lean") return { ...none, level, says: "The rear was lean already when the front fell." };
  const richBefore = level !== null && level > limits.highLevel;
  const until = Math.min(spell.rise?.low ?? Infinity, timeAt(piece.series.time, runs[2 * run + 1]! - 1));
  const falls = k >= 0 && crossings.runs[k] === run && crossings.low[k]! <= Math.max(until, spell.rise?.high ?? until);
  if (!falls) return { fall: null, richUntil: until, richBefore, level, says: whyNoFall(spell, until) };
  return { fall: edgeAt(crossings, k), richUntil: null, richBefore, level, says: "" };
}

const doubtOf = ({ time }: Series): Seconds => (time.doubt ? time.doubt.early + time.doubt.late : 0);

function whyNoFall(spell: LeanSpell, until: Seconds): string {
  if (spell.rise && until >= spell.rise.low) {
    return "The rear had not fallen when fuel returned. A longer lift-off would tell.";
  }
  return "The recording of the rear ends before it fell.";
}

/** Number of the gap-free run that holds `t`; null where none does. */
function runAround(series: Series, runs: Int32Array, t: Seconds): number | null {
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
function sideBefore({ crossings, piece, runs }: RearScene, run: number, t: Seconds): "rich" | "lean" {
  for (let k = crossings.times.length - 1; k >= 0; k--) {
    if (crossings.runs[k] !== run || crossings.times[k]! >= t) continue;
    return crossings.rising[k] === 1 ? "rich" : "lean";
  }
  // No crossing before: it has stood on one side since the run began.
  return piece.series.samples[runs[2 * run]!]! > 0.45 || crossingFollowsDown(crossings, run) ? "rich" : "lean";
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

function delayOf({ front, rear }: LiftOffScene, spell: LeanSpell, story: RearStory): Reading {
  if (!rear || (!story.fall && story.richUntil === null)) return notResolvable("s", story.says);
  const doubts = { a: front.series.time.doubt, b: rear.piece.series.time.doubt };
  if (story.fall) {
    const raw = delayBetween(spell.fall, story.fall, doubts);
    if (story.richBefore || raw.low === null || raw.grade !== "measured") return raw;
    const because = "The rear was not clearly rich before, so the store may not have been empty: a lower bound.";
    return atLeast(raw.low, "s", { because });
  }
  const low = story.richUntil! - (doubts.b?.early ?? 0) - (spell.fall.high + (doubts.a?.late ?? 0));
  return low > 0 ? atLeast(low, "s", { because: story.says }) : notResolvable("s", story.says, { low: 0 });
}

/** What speaks against judging by this event; empty when it is valid. */
function refusalsOf(
  { rearAwake, limits, front }: LiftOffScene,
  spell: LeanSpell,
  story: RearStory,
  facts: CutFacts,
): string[] {
  const list: string[] = [];
  const asleep = !rearAwake || rearAwake.awakeFrom === null || rearAwake.awakeFrom > spell.fall.time;
  if (story.level !== null && asleep) list.push("the rear sensor was not awake");
  else if (!story.fall && story.richUntil === null) list.push(story.says.replace(/\.$/, "").replace(/^The/, "the"));
  else if (!story.richBefore) list.push("the rear was not clearly rich before, so the store may not have been empty");
  const slack = doubtOf(front.series);
  if (spell.richFor + slack < limits.richPlateau) {
    list.push(
      `the front was rich for only ${quantity(spell.richFor, "s")} before, so the store may not have been empty`,
    );
  }
  if (facts.engineSpeed !== null && facts.engineSpeed < limits.engineRuns) list.push("the engine was not running");
  return list;
}

function oxygenOf({ channels, limits }: LiftOffScene, spell: LeanSpell, delay: Reading, facts: CutFacts): Reading {
  if (!channels.airFlow) return notResolvable("g", "No air flow was recorded. Record it with the next lift-off.");
  if (delay.grade === "not-resolvable") return notResolvable("g", delay.because ?? "The delay could not be measured.");
  const rule = { factor: oxygenShare, tolerance: limits.airFlowDoubt / 100, unit: "g" as const };
  const passed = integralTimes(channels.airFlow.series, spell.fall.time, delay, rule);
  if (passed.grade === "not-resolvable") return passed;
  const because = `The oxygen that passed from front fall to rear fall, gas transport included: a ceiling for what was stored. Fuel cut ${facts.fuelCut}.${passed.grade === "at-least" ? ` ${delay.because ?? ""}` : ""}`;
  if (facts.fuelCut !== "unknown") return { ...passed, because };
  if (passed.high === null) return notResolvable("g", `Neither bound is known. ${because}`);
  return atMost(passed.high, "g", { because: `${because} Without a cut less oxygen passed.` });
}

/** Between front and rear fall where both are known; over the lean spell where they are not. */
function meanFlow({ channels }: LiftOffScene, spell: LeanSpell, delay: Reading): number | null {
  if (!channels.airFlow) return null;
  const length = Math.max(0.05, Math.min(delay.value ?? Infinity, spell.end - spell.fall.time));
  const flow = integralOf(channels.airFlow.series, spell.fall.time, spell.fall.time + length) / length;
  return Number.isFinite(flow) ? flow : null;
}

/** Rear rise after front rise: the rear has to use up the oxygen first. */
function richAgain({ front, rear }: LiftOffScene, spell: LeanSpell, story: RearStory): Reading {
  if (!rear || !story.fall) return notResolvable("s", story.says || "The rear did not fall.");
  if (!spell.rise) return notResolvable("s", "The recording ends before fuel returned.");
  const { crossings } = rear;
  const fallIndex = crossings.times.indexOf(story.fall.time);
  const next = fallIndex + 1;
  if (crossings.runs[next] !== crossings.runs[fallIndex])
    return notResolvable("s", "The rear was not seen to turn rich again.");
  const doubts = { a: front.series.time.doubt, b: rear.piece.series.time.doubt };
  return delayBetween(spell.rise, edgeAt(crossings, next), doubts);
}

/** Raw delay less the gas's way from front to rear. Sensor lags of like sensors cancel. */
function correctedDelay({ pipe }: LiftOffScene, delay: Reading, flow: number | null): Reading | null {
  if (!pipe || flow === null || !(flow > 0)) return null;
  const transport = transportTime({ litres: pipe.litres, kelvin: pipe.kelvin ?? 800, gramsPerSecond: flow });
  const way = scaled(measured(transport, [transport, transport], "s"), 1, "s", { tolerance: 0.2 });
  return difference(delay, way, "s", { nonNegative: true, because: "Gas transport taken off, ± 20 %." });
}

/**
 * How long the rear itself takes: from 0.3 to 0.15 V, behind its fall through 0.45 V. Higher up a good catalyst lets go
 * gradually and the sensor only follows; down here there is air, and a first-order lag that ends at 0 V takes tau ln 2
 * from 0.3 to 0.15 V as it does from 0.6 to 0.3 V.
 */
function rearSwitch({ rear, limits }: LiftOffScene, spell: LeanSpell, story: RearStory): Reading {
  if (!rear || !story.fall) return notResolvable("s", story.says || "The rear did not fall.");
  const { series, noise } = rear.piece;
  const part = within(series, story.fall.low - 5, Math.max(spell.end, story.fall.high) + 5);
  const { ends, durations, low, high } = findTransitions(part, {
    from: limits.lowLevel,
    to: limits.cutLevel,
    noise,
  });
  for (let k = 0; k < durations.length; k++) {
    if (ends[k]! < story.fall.low) continue;
    const because = "One transition only.";
    if (high[k]! - low[k]! > durations[k]!) {
      return notResolvable("s", "The samples are too far apart to time the rear's fall.", {
        low: low[k]!,
        high: high[k]!,
      });
    }
    return measured(durations[k]!, [low[k]!, high[k]!], "s", { count: 1, because });
  }
  return notResolvable("s", "The rear did not pass cleanly from 0.3 to 0.15 V.");
}
