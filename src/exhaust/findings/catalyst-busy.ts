// The rear is busy, or fell at once after lifting off: when that points to the catalyst, and when something else comes first.

import type { Stretch } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";
import { asShare, quantity } from "../terms/words.ts";
import { beforeParts, leakTestBetween } from "./by-hand-steps.ts";
import type { Weighed } from "./catalyst-evidence.ts";
import {
  delaySentence,
  follows,
  lower,
  putRight,
  putRightFirst,
  swingSentence,
  weakFirst,
  whereCapital,
} from "./catalyst-words.ts";
import { again, compare } from "./record-again.ts";
import type { Draft } from "./scene.ts";

/** A mimic that points to itself comes first; a slow rear does not matter here, for it can only hide. */
export function busy(all: Weighed): Draft {
  const busyOnes = all.steady.filter(({ verdict }) => verdict === "busy");
  const { stretch } = busyOnes.find((one) => one.stretch.kind !== "idle") ?? all.worst!;
  const seen = `${follows(stretch, all.scene.limits)} ${delaySentence(all.liftOff)}`.trim();
  if (all.waitsFor.length > 0) return waiting(all, seen);
  if (mayIdle(stretch, all.scene.limits) && all.liftOff.verdict !== "short") return idleBusy(all, stretch, seen);
  const idleCalm = all.steady.some((one) => one.verdict === "quiet" && one.stretch.kind === "idle");
  const where = idleCalm && stretch.kind === "cruise" ? ` ${weakFirst}` : "";
  return {
    verdict: "points-to",
    statement: `${seen}${where} The catalyst stores hardly any oxygen there: this points to the catalyst.`,
    next: [...(all.liftOff.verdict === "none" ? [again.liftOffsAsWitness] : []), ...beforeParts, compare.orLimit],
  };
}

/** At idle, or at a speed that nothing tells and the front does not switch too fast for idle. */
function mayIdle({ kind, front }: Stretch, limits: Limits): boolean {
  if (kind !== "unsteady") return kind === "idle";
  const period = front?.period.high ?? null;
  return period === null || period * limits.idleFastest > 1;
}

/** A catalyst that cools while it idles lets everything through, and so does a leak, which shows at idle most. */
function idleBusy(all: Weighed, { kind }: Stretch, seen: string): Draft {
  const calmCruise = all.steady.some(({ stretch, verdict }) => stretch.kind === "cruise" && verdict === "quiet");
  const but =
    kind === "unsteady"
      ? "nothing recorded says at what engine speed this was"
      : calmCruise
        ? "at cruise it is calm"
        : "no cruise could be judged";
  return {
    verdict: "cannot-say",
    statement: `${seen} That looks like a worn catalyst, but ${but}, and idle alone does not settle it: a catalyst that has cooled down at idle, or an exhaust leak, looks the same.`,
    next: [again.hot, leakTestBetween],
  };
}

function waiting({ waitsFor }: Weighed, seen: string): Draft {
  return {
    verdict: "cannot-say",
    statement: `${seen} ${putRightFirst(waitsFor)}`,
    next: [putRight(waitsFor)],
    dependsOn: waitsFor.map(({ statement }) => statement),
  };
}

/** Busy in steady running, yet a long delay. */
export function contradiction({ worst, liftOff, scene }: Weighed): Draft {
  return {
    verdict: "cannot-say",
    statement: `Two witnesses disagree. ${follows(worst!.stretch, scene.limits)} ${delaySentence(liftOff)} A store that is quickly used up at this flow would do that, and so would a leak or a rich-running engine.`,
    next: ["Look for exhaust leaks between the sensors, and at the fuel trims.", again.oneRecording],
  };
}

/** A rear that swings widely behind a front that does not switch: evidence, but nothing to set it against. */
export function swingsBehindWideBand({ swings, liftOff }: Weighed): Draft {
  return {
    verdict: "cannot-say",
    statement: `${swingSentence(swings)} ${delaySentence(liftOff)} ${liftOff.verdict === "long" ? "Two witnesses disagree: the" : "The"} swing looks like a worn catalyst, but behind a wide-band front sensor it alone does not settle it.`,
    next: [again.fallAtOnce, leakTestBetween],
  };
}

/** Swings far but seldom, or often but little. */
export function partial(all: Weighed): Draft {
  const { worst, liftOff } = all;
  const { amplitudeRatio, crossingRatio } = worst!.stretch.activity!;
  const large = (amplitudeRatio.value ?? 0) > (crossingRatio.value ?? 0);
  const seen = large
    ? `${whereCapital(worst!.stretch)} the rear swings far (${asShare(amplitudeRatio)} of the front) but seldom: the catalyst fills and empties now and then, a partial loss.`
    : `${whereCapital(worst!.stretch)} the rear crosses often (${asShare(crossingRatio)} of the front) but swings little: ripple about the middle.`;
  if (large && liftOff.verdict === "short") {
    if (all.waitsFor.length > 0) return waiting(all, seen);
    return {
      verdict: "points-to",
      statement: `${seen} ${delaySentence(liftOff)} Both together point to the catalyst.`,
      next: beforeParts,
    };
  }
  return {
    verdict: "cannot-say",
    statement: `${seen} ${delaySentence(liftOff)} The two measures disagree, and nothing else settles it.`,
    next: [again.higherFlow],
  };
}

/** A short delay without a rear that is busy. */
export function shortOnly(all: Weighed): Draft {
  const { liftOff, worst } = all;
  const seen = delaySentence(liftOff);
  if (worst?.verdict === "quiet") {
    return {
      verdict: "cannot-say",
      statement: `Two witnesses disagree. In steady running the rear is calm, but ${lower(seen)}`,
      next: [again.lowerSpeed],
    };
  }
  if (worst && isActive(worst.stretch, all.scene.limits))
    return shortAndActive(all, follows(worst.stretch, all.scene.limits));
  if (all.swings[0]?.told === "wide") return shortAndActive(all, swingSentence(all.swings));
  const enough = liftOff.count >= 2 && liftOff.airFlow !== null && liftOff.airFlow <= all.scene.limits.shortDelayFlow;
  if (!enough) {
    return {
      verdict: "cannot-say",
      statement: `${seen} That is soon, but lift-offs alone do not settle it here${liftOff.airFlow === null ? ": the air flow is not known" : ""}.`,
      next: [again.cruiseAndFlow],
    };
  }
  if (all.waitsFor.length > 0) return waiting(all, seen);
  return {
    verdict: "points-to",
    statement: `${seen} At ${quantity(liftOff.airFlow!, "g/s")} of air that leaves room for hardly any stored oxygen: this points to the catalyst.`,
    next: [again.cruiseAsWitness, ...beforeParts],
  };
}

/** Clearly more than a calm rear, though not as busy as one that follows: with a short lift-off that is enough. */
function isActive({ activity }: Stretch, limits: Limits): boolean {
  if (!activity) return false;
  const { amplitudeRatio, crossingRatio, ownLevelRatio } = activity;
  const often = Math.max(crossingRatio.low ?? 0, ownLevelRatio.low ?? 0);
  return (amplitudeRatio.low ?? 0) > limits.quietAmplitude && often > limits.quietCrossing;
}

function shortAndActive(all: Weighed, active: string): Draft {
  const seen = `${active} ${delaySentence(all.liftOff)}`;
  if (all.waitsFor.length > 0) return waiting(all, seen);
  return {
    verdict: "points-to",
    statement: `${seen} Both together point to the catalyst.`,
    next: beforeParts,
  };
}
