// The sensor after the catalyst: a slow or sleeping one looks as calm as a good catalyst makes it.

import { medianOf } from "../../signal/combining/combine.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { asWritten } from "../../signal/written/words.ts";
import { restInWords } from "../sensors/rest.ts";
import type { Finding, LiftOff } from "../terms/analysis.ts";
import { describeLimit, type Limits } from "../terms/limits.ts";
import type { StoreStudy } from "../terms/store-study.ts";
import { counted, inWords, quantity, saidOf, withinTime } from "../terms/words.ts";
import { mayBeFolded } from "./folded-rows.ts";
import { runningTime } from "./front-sensor.ts";
import { leakExplains } from "./leak-between.ts";
import { again } from "./record-again.ts";
import { checkOf, type Draft, type FindingScene, finding, overLiftOffs, reason } from "./scene.ts";
import { rivalInWords, separatorInWords } from "./store-words.ts";

export const rearSensorFinding = (scene: FindingScene): Finding => finding("rear-sensor", draft(scene));

/** "slow" hides a dead catalyst; "quick" is shown to be fast enough; else nothing shows it. */
export interface RearQuickness {
  readonly told: "slow" | "quick" | "unknown";
  readonly reading: Reading | null;
  /** Between which levels it was timed; "" when it was not. */
  readonly levels: string;
}

function draft(scene: FindingScene): Draft {
  const { measured, limits, span } = scene;
  const awake = measured.awake.rear;
  if (!awake)
    return {
      verdict: "cannot-say",
      statement: "No channel stands for the rear sensor.",
      next: [again.rearBesideFront],
    };
  if (awake.kind === "five-volt" || awake.kind === "inverted") {
    return {
      verdict: "cannot-say",
      statement: saidOf("rear", awake.says),
      next: [checkOf("rear", awake.kind)],
    };
  }
  if (awake.awakeFrom === null) return asleep(scene, runningTime(measured.stretches, span));
  const quickness = rearQuickness(scene);
  const used = [describeLimit("quickRear", limits), describeLimit("slowRear", limits)];
  if (quickness.told === "slow" && measured.storeStudy && leakExplains(measured.storeStudy)) {
    return {
      verdict: "cannot-say",
      statement: `The rear sensor took ${inWords(quickness.reading!)} ${quickness.levels}, but ${rivalInWords["leak-between"]} draws its fall out as well.`,
      next: [separatorInWords["smoke-test"]],
      dependsOn: used,
    };
  }
  if (quickness.told === "slow") {
    return {
      verdict: "points-to",
      statement: `The rear sensor is slow: it took ${inWords(quickness.reading!)} ${asWritten(inAir)} when air reached it. A slow rear sensor can hide a dead catalyst.`,
      for: [reason(overLiftOffs("rearSwitch, lift-offs"), `rear ${asWritten(inAir)}`, quickness.reading)],
      next: ["Test or renew the rear sensor, then repeat the lift-offs before judging the catalyst."],
      dependsOn: used,
    };
  }
  const slow = slowByFit(scene);
  if (slow && quickness.told !== "quick") return { ...slow, dependsOn: used };
  if (quickness.told === "quick") {
    return {
      verdict: "points-away",
      statement: `The rear sensor is awake and quick: it passed ${quickness.levels} ${withinTime(quickness.reading!)}.`,
      against: [reason(overLiftOffs("rearSwitch"), `rear ${quickness.levels}`, quickness.reading)],
      dependsOn: used,
    };
  }
  return {
    verdict: "cannot-say",
    statement: notShown(quickness),
    next: [again.fallOfRear],
  };
}

/** No car with a quick rear sensor explains the recording as well as one with a slow one. */
export const rearShownSlow = ({ quickRear, best, margin }: StoreStudy): boolean =>
  quickRear !== null && quickRear.cost >= best.cost + margin;

function slowByFit(scene: FindingScene): Draft | null {
  const {
    measured: { storeStudy },
    limits,
  } = scene;
  if (mayBeFolded(scene)) return null;
  if (!storeStudy || storeStudy.explained < limits.leastExplained || leakExplains(storeStudy)) return null;
  if (!rearShownSlow(storeStudy)) return null;
  const lag = quantity(Number(storeStudy.best.guess.lag.toPrecision(2)), "s");
  return {
    verdict: "points-to",
    statement: `The rear sensor is slow: no car with a quick one explains what it did as well as one whose time constant is about ${lag}. A slow rear sensor can hide a dead catalyst.`,
    for: [{ reading: "storeStudy.best.lag", says: `time constant of the rear sensor, fitted: ${lag}` }],
    next: ["Test or renew the rear sensor, then repeat the lift-offs before judging the catalyst."],
  };
}

/**
 * Whether the catalyst may have drawn the fall out, letting air through little by little as its store filled: the rear held
 * on for longer than a sensor as slow as its fall explains (see `liftOffEvidence`), and is not so slow that the sensor must be.
 */
function isDrawnOut({ high }: Reading, liftOffs: readonly LiftOff[], limits: Limits): boolean {
  const holds = liftOffs.flatMap(({ setAside, delay }) => (setAside === null && delay.low !== null ? [delay.low] : []));
  if (high === null || high >= 2 * limits.slowRear || holds.length === 0) return false;
  return Math.min(...holds) - high >= limits.longDelay;
}

/** Between quick and slow, or not timed at all. */
function notShown({ reading, levels }: RearQuickness): string {
  if (!reading || levels === "")
    return "The rear sensor is awake, but nothing in this recording shows how quick it is.";
  return `The rear sensor is awake and neither clearly quick nor clearly slow: it passed ${levels} in ${inWords(reading)}.`;
}

/** A hard pull or a cut must move a sensor that is awake; behind a sound catalyst nothing else need. */
const wasAsked = ({ stretches, liftOffs, storeStudy }: FindingScene["measured"]): boolean =>
  liftOffs.length > 0 ||
  (storeStudy?.cuts ?? 0) > 0 ||
  stretches.some(({ kind }) => kind === "load" || kind === "overrun");

function asleep({ measured, limits }: FindingScene, running: number): Draft {
  const awake = measured.awake.rear!;
  const atBias = awake.bias.value !== null && awake.leftBias.value === null;
  if (atBias && running > limits.wakeTime && wasAsked(measured)) {
    return {
      verdict: "points-to",
      statement: `The rear sensor stayed at ${restInWords(awake.bias.value!, limits)}, for ${quantity(Math.round(running), "s")} of running engine: the sensor, its heater or a wire looks faulty.`,
      for: [{ reading: "awake.rear.bias", says: awake.says }],
      next: ["Test the rear sensor, its heater and its wiring; the catalyst cannot be judged without it."],
      dependsOn: [describeLimit("wakeTime", limits)],
    };
  }
  const cuts = measured.liftOffs.filter(({ setAside, delay }) => setAside !== "hand" && delay.grade === "at-least");
  if (!atBias && cuts.length > 0) {
    return {
      verdict: "cannot-say",
      statement: `${saidOf("rear", awake.says)} It did not fall in ${counted(cuts.length, "lift-off")} either: a large store would keep it rich, and so would a fault of the sensor or its wire.`,
      next: [
        "Stay off the throttle for longer, so that the rear sensor falls; if it never does, test the sensor and its wiring.",
      ],
    };
  }
  if (atBias && running > limits.wakeTime) {
    return {
      verdict: "cannot-say",
      statement: `${saidOf("rear", awake.says)} But nothing was recorded that must move it: behind a sound catalyst it may rest there as well.`,
      next: [again.pullAndLiftOff],
      dependsOn: [describeLimit("wakeTime", limits)],
    };
  }
  const next = atBias
    ? ["Let the rear sensor warm up, three minutes at 2500 rpm or a hot drive, then record again."]
    : [again.fallOfRear];
  return { verdict: "cannot-say", statement: saidOf("rear", awake.says), next };
}

const inAir = "from 0.3 to 0.15 V";

/**
 * From its falls in lift-offs, when air reaches it at once; switching in steady running can show it quick, never slow: there
 * the catalyst sets the pace.
 */
export function rearQuickness({ measured, limits }: FindingScene): RearQuickness {
  const falls = measured.liftOffs.filter((one) => one.setAside !== "hand").map((one) => one.rearSwitch);
  const timed = falls.filter(({ low, high }) => low !== null && high !== null);
  const inCuts = timed.length > 0 ? medianOf(timed, "s") : null;
  if (inCuts?.low != null && inCuts.low > limits.slowRear) {
    const told = isDrawnOut(inCuts, measured.liftOffs, limits) ? "unknown" : "slow";
    return { told, reading: inCuts, levels: asWritten(inAir) };
  }
  const steady = measured.sensors.rear?.richToLean ?? null;
  const isQuick = (reading: Reading | null) => reading?.high != null && reading.high < limits.quickRear;
  if (isQuick(inCuts)) return { told: "quick", reading: inCuts, levels: asWritten(inAir) };
  if (isQuick(steady)) return { told: "quick", reading: steady, levels: asWritten("from 0.6 to 0.3 V") };
  const timedAtAll = inCuts?.grade === "measured";
  return { told: "unknown", reading: inCuts ?? steady, levels: timedAtAll ? asWritten(inAir) : "" };
}
