// The verdict on the catalyst from its store in grams: what explains the recording, and what explains it as well.

import type { Finding } from "../terms/analysis.ts";
import type { HandChecks } from "../terms/hand-checks.ts";
import type { Limits } from "../terms/limits.ts";
import type { Explanation, Rival, Separator, StoreStudy } from "../terms/store-study.ts";
import { quantity } from "../terms/words.ts";
import { beforeParts } from "./by-hand-steps.ts";
import type { Weighed } from "./catalyst-evidence.ts";
import { calmIn, delaySentence, follows, putRight, putRightFirst, swingSentence, weakFirst } from "./catalyst-words.ts";
import { leakExplains } from "./leak-between.ts";
import { rearShownSlow } from "./rear-sensor.ts";
import { compare } from "./record-again.ts";
import type { Draft, FindingScene } from "./scene.ts";
import { rivalInWords, separatorInWords, storeSentence } from "./store-words.ts";

/** A study that can carry a verdict: rows close enough, grams known, two cuts or a long cruise; null without one. */
function tellingStudy({ measured, limits }: FindingScene): StoreStudy | null {
  const study = measured.storeStudy;
  if (!study || study.row * limits.storeRows > 1) return null;
  const cruise = measured.stretches
    .filter(({ kind }) => kind === "cruise")
    .reduce((sum, { from, to }) => sum + to - from, 0);
  return study.cuts >= 2 || cruise >= limits.storeCruise ? study : null;
}

/**
 * @param others  the other findings, made before: what points to itself is a rival.
 * @param byTime  what delays and swings alone say: it may clear a catalyst whose grams no recorded air flow tells.
 */
export function storeVerdict(all: Weighed, others: readonly Finding[], byTime: Draft): Draft | null {
  const study = tellingStudy(all.scene);
  if (!study) return null;
  const { limits } = all.scene;
  const found = storeClass(study, all.scene);
  const seen = storeSentence(study, limits);
  if (study.explained < limits.leastExplained) {
    return byTimeAlone(study, all.scene, byTime) ?? unexplained(study, others, all.scene.byHand ?? {}, seen);
  }
  if (leakExplains(study)) return cannot(seen, { best: "leak-between", asGood: found, separatedBy: "smoke-test" });
  if (found === "dead") {
    const { leak, best, margin } = study;
    const isLeak = leak !== null && leak.cost < best.cost + margin;
    const rival = isLeak ? "leak-between" : rivalOf(all.waitsFor, all.scene.byHand);
    if (rival) {
      const draft = cannot(seen, { best: found, asGood: rival, separatedBy: separator[rival] ?? "lift-offs" });
      if (all.waitsFor.length === 0) return draft;
      const statement = `${draft.statement} ${putRightFirst(all.waitsFor)}`;
      return { ...draft, statement, next: [putRight(all.waitsFor), ...(draft.next ?? [])] };
    }
    if (byTime.verdict === "points-away" || heldOn(all)) return clearedByTime(seen, all);
    return hasWitness(study, all, others) ? pointsTo(seen, all) : unwitnessed(seen);
  }
  if (found === "sound") {
    const isDenied = byTime.verdict === "points-to" || followsAllTheSame(all);
    if (isDenied) return contradicts(seen, all);
    return showsStore(study, all, byTime) ? pointsAway(study, seen, all) : cannot(seen, unsettled(study, all.scene));
  }
  return byWitnesses(study, all, byTime) ?? cannot(seen, unsettled(study, all.scene));
}

/**
 * Something beside the fit that could have cleared the catalyst and does not: lift-offs, running in which the rear is not calm, or cuts,
 * in which the mixture is known, unless the rear was calm in all that could be judged.
 */
function hasWitness({ cuts }: StoreStudy, { steady, swings, liftOff }: Weighed, others: readonly Finding[]): boolean {
  if (others.some(({ id, verdict }) => id === "recording" && verdict === "points-to")) return false;
  const isRestless = steady.some(({ verdict, stretch }) => verdict !== "quiet" && stretch.kind !== "idle");
  if (liftOff.verdict !== "none" || isRestless || swings[0]?.told === "wide") return true;
  return cuts >= 2 && !steady.some(({ verdict }) => verdict === "quiet");
}

/**
 * Steady running and lift-offs that point to the catalyst by themselves, where the fit leaves a dead store open, tells that no leak
 * behind it explains the recording nearly as well, and is merely not certain; or a rear that falls at once and a best fit that is dead.
 */
function byWitnesses(study: StoreStudy, all: Weighed, byTime: Draft): Draft | null {
  const { near, value, leak, best, margin } = study;
  const { limits } = all.scene;
  const { deadStore } = limits;
  const leakWorse = limits.leakWorse * airDoubtOf(study, limits);
  if (near.low > deadStore || leak === null || leak.cost < best.cost + leakWorse * margin) return null;
  const explanation = { best: "dead", asGood: null, separatedBy: null } as const;
  const seen = storeSentence(study, limits);
  if (byTime.verdict === "points-to") return { ...byTime, statement: `${byTime.statement} ${seen}`, explanation };
  const fallsAtOnce = all.liftOff.verdict === "short" && value <= deadStore;
  if (!fallsAtOnce || all.waitsFor.length > 0) return null;
  const statement = `${seen} ${delaySentence(all.liftOff)} Both together point to the catalyst.`;
  return { verdict: "points-to", statement, next: beforeParts, explanation };
}

/** Delays and swings alone, where no air flow was recorded, the fit leans the same way, and no leak explains it as well. */
function byTimeAlone(study: StoreStudy, { limits }: FindingScene, byTime: Draft): Draft | null {
  const { airDoubt, best, value, leak, margin } = study;
  if (airDoubt <= limits.sureAir || (leak !== null && leak.cost < best.cost + margin)) return null;
  const leans = value >= limits.soundStore ? "points-away" : "points-to";
  const isBetween = value > limits.deadStore && value < limits.soundStore;
  return !isBetween && byTime.verdict === leans ? byTime : null;
}

/**
 * Dead where no sound one's size explains the recording as well; sound where no dead one's does, a least size could be told, and the
 * best is nearer to a sound one; else worn. The sizes are those with the air flow as taken: a larger engine
 * has a larger catalyst, so what an engine of unknown size leaves open weighs on both sides. Where nothing speaks of air at
 * all, both limits move apart.
 */
function storeClass(study: StoreStudy, { limits }: FindingScene): "dead" | "worn" | "sound" {
  const { reading, near, value } = study;
  const apart = airDoubtOf(study, limits);
  const [dead, sound] = [limits.deadStore, limits.soundStore];
  if (value <= dead && near.high * apart <= sound) return "dead";
  // A slow rear sensor hides what passes: behind it a store must be sound for certain.
  const least = rearShownSlow(study) ? sound : dead;
  const isBounded = (reading.low ?? 0) > 0;
  if (isBounded && value >= between(limits) && near.low >= least * apart) return "sound";
  return "worn";
}

/** How much further apart all must lie where nothing recorded speaks of air; else 1. */
const airDoubtOf = ({ isAirUnknown }: StoreStudy, limits: Limits): number => (isAirUnknown ? limits.storeAirDoubt : 1);

/** Which explanation an accused finding stands for. */
const rivalOfFinding: Readonly<Partial<Record<Finding["id"], Rival>>> = {
  "front-sensor": "slow-front",
  "air-leak": "leak-ahead",
  misfire: "misfire",
};

const separator: Readonly<Partial<Record<Rival, Separator>>> = {
  "slow-front": "front-test",
  "slow-rear": "rear-test",
  "rear-asleep": "rear-test",
  "leak-ahead": "smoke-test",
  "leak-between": "smoke-test",
  rich: "mixture-cured",
  lean: "mixture-cured",
  misfire: "mixture-cured",
  "swapped-leads": "leads-checked",
  "swapped-banks": "leads-checked",
};

/** What explains a dead store as well; null where nothing does. `others`: findings that must be cleared up first. */
function rivalOf(others: readonly Finding[], byHand: HandChecks = {}): Rival | null {
  for (const { id, verdict, side } of others) {
    if (verdict !== "points-to") continue;
    if (id === "mixture") return side ?? "rich";
    if (id === "air-leak" && byHand["leak-between"] === "at-fault") return "leak-between";
    const rival = rivalOfFinding[id];
    if (rival) return rival;
  }
  return null;
}

/** What steady running and lift-offs show by themselves: further evidence, in words. */
function besides({ steady, worst, liftOff, scene }: Weighed): string {
  const busy = steady.find(({ verdict, stretch }) => verdict === "busy" && stretch.kind !== "idle") ?? worst;
  const calmIdle = steady.some(({ verdict, stretch }) => verdict === "quiet" && stretch.kind === "idle");
  const swing = busy?.verdict === "busy" ? follows(busy.stretch, scene.limits) : "";
  const weak = calmIdle && busy?.stretch.kind === "cruise" && swing ? weakFirst : "";
  return [swing, weak, delaySentence(liftOff)].filter(Boolean).join(" ");
}

function pointsTo(seen: string, all: Weighed): Draft {
  const least = quantity(all.scene.limits.soundStore, "g");
  return {
    verdict: "points-to",
    statement: `${seen} ${besides(all)} Neither a sound catalyst (${least} or more) nor any other fault that was tried explains the recording as well: this points to the catalyst.`,
    next: [...beforeParts, compare.likeCarOrLimit],
    explanation: { best: "dead", asGood: null, separatedBy: null },
  };
}

/**
 * The rear goes with the front in steady running, swings as widely, or falls at once in a cut: no sound store does that, whatever
 * the fit says.
 */
const followsAllTheSame = ({ worst, swings, liftOff }: Weighed): boolean =>
  worst?.verdict === "busy" || swings[0]?.told === "wide" || liftOff.verdict === "short";

function contradicts(seen: string, all: Weighed): Draft {
  const explanation = { best: "sound", asGood: "worn", separatedBy: "lift-offs" } as const;
  const draft = cannot(seen, explanation);
  return { ...draft, statement: `Two witnesses disagree. ${draft.statement} ${besidesTheFit(all)}` };
}

/** g; as far from a worn-out store as from a sound one, in the logarithm. */
const between = ({ deadStore, soundStore }: Limits): number => Math.sqrt(deadStore * soundStore);

/**
 * Near a worn-out one's size a fit alone clears nobody: then what delays and swings tell, a calm rear in steady running, or a lift-off in
 * which more was stored than a worn-out one holds must speak for it.
 */
const showsStore = ({ near }: StoreStudy, all: Weighed, byTime: Draft): boolean =>
  near.low >= between(all.scene.limits) ||
  byTime.verdict === "points-away" ||
  heldOn(all) ||
  all.steady.some(({ verdict, stretch }) => verdict === "quiet" && stretch.kind !== "idle");

/** Lift-offs in which more was stored than a worn-out catalyst holds. */
const heldOn = ({ liftOff, scene }: Weighed): boolean =>
  liftOff.verdict === "long" || (liftOff.stored ?? 0) > scene.limits.deadStore;

/** The fit speaks for a dead one, and what delays and swings tell by themselves for a sound one. */
function clearedByTime(seen: string, all: Weighed): Draft {
  const draft = cannot(seen, { best: "dead", asGood: "sound", separatedBy: "lift-offs" });
  const calm = all.steady.find(({ verdict }) => verdict === "quiet");
  const held = [calm ? calmIn(calm.stretch) : "", delaySentence(all.liftOff)].filter(Boolean).join(" ");
  return { ...draft, statement: `Two witnesses disagree. ${draft.statement} ${held}` };
}

function besidesTheFit({ swings, worst, liftOff, scene }: Weighed): string {
  if (worst?.verdict === "busy") return follows(worst.stretch, scene.limits);
  return swings[0]?.told === "wide" ? swingSentence(swings) : delaySentence(liftOff);
}

/** No more is said of the store than its bounds leave: that it is sound, or that it is no worn-out one's. */
function pointsAway(study: StoreStudy, seen: string, all: Weighed): Draft {
  const { deadStore, soundStore } = all.scene.limits;
  const isSound = study.near.low >= soundStore;
  const store = isSound
    ? "That is a sound store"
    : `A worn-out catalyst (${quantity(deadStore, "g")} or less) does not explain the recording as well`;
  return {
    verdict: "points-away",
    statement: `${seen} ${besides(all)} ${store}: this points away from the catalyst.`,
    next: all.worst ? [] : [compare.likeCar],
    explanation: { best: "sound", asGood: null, separatedBy: null },
  };
}

/** A fit alone accuses nobody: where neither steady running nor a lift-off can be judged, nothing else would speak for it. */
function unwitnessed(seen: string): Draft {
  return {
    verdict: "cannot-say",
    statement: `${seen} That looks like a worn catalyst, but nothing else in this recording can be judged to confirm it.`,
    next: [separatorInWords["lift-offs"]],
    explanation: { best: "dead", asGood: null, separatedBy: "lift-offs" },
  };
}

function cannot(seen: string, explanation: Explanation): Draft {
  const { best, asGood, separatedBy } = explanation;
  const told =
    best === "leak-between" && asGood !== null
      ? `What explains the recording best is ${rivalInWords[best]}, not the catalyst.`
      : best && asGood
        ? `${capital(rivalInWords[best])} and ${rivalInWords[asGood]} cannot be told apart by it.`
        : "";
  return {
    verdict: "cannot-say",
    statement: `${seen} ${told}`.trim(),
    next: separatedBy ? [separatorInWords[separatedBy]] : [],
    explanation,
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Neither dead nor sound for certain. */
function unsettled(study: StoreStudy, { limits }: FindingScene): Explanation {
  const { near, value, cuts, row } = study;
  const mayHide = rearShownSlow(study) && value >= limits.soundStore;
  if (mayHide && near.low < limits.soundStore) return { best: "sound", asGood: "slow-rear", separatedBy: "rear-test" };
  const separatedBy: Separator = cuts < 2 ? "lift-offs" : row > 0.02 ? "faster" : "lift-offs";
  if (near.low > limits.deadStore) return { best: "worn", asGood: "sound", separatedBy };
  const mayBeSound = near.high > limits.soundStore;
  if (!mayBeSound) return { best: "worn", asGood: "dead", separatedBy };
  return value > limits.deadStore
    ? { best: "sound", asGood: "dead", separatedBy }
    : { best: "dead", asGood: "sound", separatedBy };
}

/** The fit explains too little: something else is at work. */
function unexplained(study: StoreStudy, others: readonly Finding[], byHand: HandChecks, seen: string): Draft {
  const rival = leakExplains(study) ? "leak-between" : rivalOf(others, byHand);
  const separatedBy = (rival && separator[rival]) ?? "rear-test";
  return {
    verdict: "cannot-say",
    statement: `${seen} That is too little for a verdict${rival ? `; ${rivalInWords[rival]} explains it better` : ": something else moves the rear sensor"}.`,
    next: [separatorInWords[separatedBy]],
    explanation: { best: rival, asGood: null, separatedBy },
  };
}
