// One lift-off measured: front fall, rear fall, the delay between them, and the oxygen that passed meanwhile.

import { delayBetween, difference, integralOf, integralTimes, scaled } from "../../signal/combining/combine.ts";
import type { Edge } from "../../signal/edges/edge.ts";
import { findTransitions } from "../../signal/edges/transitions.ts";
import { atLeast, atMost, measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { within } from "../../signal/series/reel.ts";
import { runsOf } from "../../signal/series/runs.ts";
import { type Series, type StampDoubt, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { asWritten } from "../../signal/written/words.ts";
import type { AnalysisChoices, Awakening, LiftOff } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import { edgeAt } from "../terms/edges.ts";
import { mayFold } from "../terms/folded.ts";
import type { Limits } from "../terms/limits.ts";
import { clause, quantity } from "../terms/words.ts";
import { bridged } from "./bridged.ts";
import { type CutFacts, cutFactsOf } from "./fuel-cut.ts";
import type { FrontRule, LeanSpell } from "./lean-spells.ts";
import { oxygenShare, transportTime } from "./oxygen.ts";
import { doubtOf, type RearScene, type RearStory, rearStory } from "./rear-story.ts";
import { mayBeLean } from "./stands-out.ts";
import { anyMoves, hasWitness, nothingMoves, steadyThrough } from "./steady.ts";

/** What all lift-offs of a capture are measured against. */
export interface LiftOffScene {
  readonly channels: BankChannels;
  readonly limits: Limits;
  readonly front: FrontRule;
  readonly rear: RearScene | null;
  readonly rearAwake: Awakening | null;
  readonly pipe: AnalysisChoices["pipe"] | undefined;
  /** Taken off both sensors, V. */
  readonly offset: number;
  /** Whether the front alone tells a lean spell from the loop's own. */
  readonly standsOut: (spell: LeanSpell) => boolean;
}

export function measureLiftOff(
  scene: LiftOffScene,
  spell: LeanSpell,
  tag: { readonly id: string; readonly origin: LiftOff["origin"] },
): LiftOff {
  const facts = cutFactsOf(scene.channels, { from: spell.fall.time, to: spell.end }, scene.limits);
  const story = rearStory(scene, spell);
  const isFolded = isFoldedSwing(scene, spell, story, facts);
  const delay = isFolded
    ? notResolvable("s", foldedSpell)
    : delayOf(scene, { ...spell, fall: lastFall(scene, spell, facts) }, story);
  const refusals = isFolded ? [clause(foldedSpell)] : refusalsOf(scene, spell, story, facts);
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
    ...(refusals.length > 0
      ? { rejected: refusals.join("; "), setAside: "rule" as const }
      : { rejected: null, setAside: null }),
    fuelReturn: spell.rise
      ? edgeReading(spell.rise, frontDoubt)
      : notResolvable("s", returnUnseen, { low: spell.end - (frontDoubt?.early ?? 0) }),
    richAgain: richAgain(scene, spell, story),
    corrected: correctedDelay(scene, delay, meanFlow(scene, spell, delay)),
    rearSwitch: rearSwitch(scene, spell, story, facts),
    valid: refusals.length === 0,
    remarks: [...refusals, facts.says, ...saidOffset(scene.offset)],
  };
}

const returnUnseen = "The recording ends, or has a gap, before fuel returned.";

const saidOffset = (offset: number): string[] =>
  offset === 0
    ? []
    : [
        `in air both sensors read ${quantity(Math.abs(offset), "V")} too ${offset > 0 ? "high" : "low"}, which comes of a poor ground of sensors or recorder; it is taken off here`,
      ];

/** When an edge truly was: a value may be older, or newer, than its stamp says. */
function edgeReading({ time, low, high }: Edge, doubt: StampDoubt | undefined): Reading {
  return measured(time, [low - (doubt?.early ?? 0), high + (doubt?.late ?? 0)], "s");
}

/** So many rich rows one after the other, and no fewer, show that a loop no longer switched between them. Own choice. */
const unseen = 4;
/** The front may fall, and turn rich again, so much later than the throttle moves, s. */
export const behind: Seconds = 1.5;

/**
 * Where a front that still switched is asked so seldom that it may have come back between two samples and fallen once more, the
 * fall that counts may be a later one: until the gas of the closed throttle is there. One that was rich for long came from a pull.
 */
function lastFall({ front, limits }: LiftOffScene, { fall, richFor }: LeanSpell, { throttleClosed }: CutFacts): Edge {
  const wasSteady = richFor > limits.richPlateau + unseen * (usualStep(front.series.time) || 0);
  if (wasSteady || !mayFold(front.series, limits)) return fall;
  return { ...fall, high: Math.max(fall.high, throttleClosed ?? fall.high) + behind };
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

const foldedSpell =
  "The samples are so far apart that a fast swing could look like this lean spell, and nothing that was recorded moves as when a foot is lifted.";

/**
 * No cut is shown, nothing else moves, or nothing else was recorded and the rear stayed rich as well; and the front may have swung
 * to and fro between the samples all the while.
 */
function isFoldedSwing(
  { channels, limits, front, rear }: LiftOffScene,
  { fall }: LeanSpell,
  story: RearStory,
  { fuelCut }: CutFacts,
): boolean {
  if (!mayFold(front.series, limits) || fuelCut !== "unknown") return false;
  const isUnwitnessed = rear !== null && story.fall === null && !hasWitness(channels);
  return isUnwitnessed || nothingMoves(channels, fall.time, limits);
}

/** What speaks against judging by this event; empty when it is valid. */
function refusalsOf(
  { channels, rearAwake, limits, front, standsOut }: LiftOffScene,
  spell: LeanSpell,
  story: RearStory,
  facts: CutFacts,
): string[] {
  const list: string[] = [];
  const asleep = !rearAwake || rearAwake.awakeFrom === null || rearAwake.awakeFrom > spell.fall.time;
  if (story.level !== null && asleep) {
    const isAtBias = rearAwake?.bias.value != null;
    list.push(isAtBias ? "the rear sensor was not awake" : "nothing shows that the rear sensor was awake");
  } else if (!story.fall && story.richUntil === null) list.push(clause(story.says));
  else if (!story.richBefore) list.push("the rear was not clearly rich before, so the store may not have been empty");
  const slack = doubtOf(front.series);
  if (spell.richFor + slack < limits.richPlateau) {
    list.push(
      `the front was rich for only ${quantity(spell.richFor, "s")} before, so the store may not have been empty`,
    );
  }
  if (facts.fuelCut === "unknown" && steadyThrough(channels, { from: spell.fall.time, to: spell.end }, limits))
    list.push("nothing that was recorded moved as it does when a foot is lifted");
  else if (facts.fuelCut === "unknown" && !anyMoves(channels, spell.fall.time, limits) && !standsOut(spell))
    list.push(mayBeLean);
  if (facts.engineSpeed !== null && facts.engineSpeed < limits.engineRuns) list.push("the engine was not running");
  return list;
}

function oxygenOf({ channels, limits }: LiftOffScene, spell: LeanSpell, delay: Reading, facts: CutFacts): Reading {
  if (!channels.airFlow) return notResolvable("g", "No air flow was recorded. Record it with the next lift-off.");
  if (delay.grade === "not-resolvable") return notResolvable("g", delay.because ?? "The delay could not be measured.");
  if (!isCovered(channels.airFlow.series, spell.fall.time, spell.fall.time + (delay.high ?? delay.value ?? 0)))
    return notResolvable("g", "The air flow was not being recorded all through this lift-off.");
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
  if (!isCovered(channels.airFlow.series, spell.fall.time, spell.fall.time + length)) return null;
  const flow = integralOf(channels.airFlow.series, spell.fall.time, spell.fall.time + length) / length;
  return Number.isFinite(flow) ? flow : null;
}

/** Whether one gap-free run of the air flow, single missing cells left out, holds the span but for a row at either end. */
function isCovered(airFlow: Series, from: Seconds, to: Seconds): boolean {
  const series = bridged(airFlow);
  const row = (usualStep(series.time) || 0) + doubtOf(series);
  const runs = runsOf(series);
  for (let r = 0; r < runs.length; r += 2) {
    if (timeAt(series.time, runs[r]!) <= from + row && timeAt(series.time, runs[r + 1]! - 1) >= to - row) return true;
  }
  return false;
}

/** Rear rise after front rise: the rear has to use up the oxygen first. */
function richAgain({ front, rear }: LiftOffScene, spell: LeanSpell, story: RearStory): Reading {
  if (!rear || !story.fall) return notResolvable("s", story.says || "The rear did not fall.");
  if (!spell.rise) return notResolvable("s", returnUnseen);
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
function rearSwitch({ rear, limits }: LiftOffScene, spell: LeanSpell, story: RearStory, facts: CutFacts): Reading {
  if (!rear || !story.fall) return notResolvable("s", story.says || "The rear did not fall.");
  const { series, noise } = rear.piece;
  if (facts.fuelCut === "unknown" && mayFold(series, limits)) {
    return notResolvable("s", "The samples are too far apart to tell one slow fall from a faster swing.");
  }
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
  return notResolvable("s", asWritten("The rear did not pass cleanly from 0.3 to 0.15 V."));
}
