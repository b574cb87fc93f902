// The sensor before the catalyst: is it quick and wide enough to judge anything by it?

import type { Reading } from "../../signal/numbers/reading.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { asWritten } from "../../signal/written/words.ts";
import { restInWords } from "../sensors/rest.ts";
import type { Finding, Stretch } from "../terms/analysis.ts";
import { describeLimit, type Limits } from "../terms/limits.ts";
import { inWords, quantity, saidOf, withinTime } from "../terms/words.ts";
import { type OneGas, oneGasOf } from "./one-gas.ts";
import { again, frontAgain } from "./record-again.ts";
import { checkOf, type Draft, type FindingScene, finding, inStretch, reason } from "./scene.ts";

export const frontSensorFinding = (scene: FindingScene): Finding => finding("front-sensor", draft(scene));

const test = "Test the front sensor, its heater and its wiring before anything is said about the catalyst.";

function draft(scene: FindingScene): Draft {
  const { channels, measured, limits } = scene;
  const awake = measured.awake.front;
  if (!awake) return cannot("No channel stands for the front sensor.", [again.frontBesideRear]);
  if (awake.kind === "wide-band") return wideBand();
  if (awake.kind === "five-volt" || awake.kind === "inverted")
    return cannot(saidOf("front", awake.says), [checkOf("front", awake.kind)]);
  if (awake.awakeFrom === null) return notSwinging(scene);
  const health = judged(scene);
  if (!health) return cannot("The front sensor was not seen running warm in closed loop.", [frontAgain.warm]);
  const { front } = health;
  const faults = faultsOf(front!, health, scene);
  const used = (["slowSwitch", "leastSwing", "slowPeriod"] as const).map((name) => describeLimit(name, limits));
  if (faults.length > 0) {
    return {
      verdict: "points-to",
      statement: `The front sensor looks tired: ${faults.map(({ says }) => says).join("; ")}.`,
      for: faults.map(({ name, reading, says }) => reason(inStretch(name, health), says, reading)),
      next: [test],
      dependsOn: used,
    };
  }
  const quick = isBelow(front!.richToLean, limits.slowSwitch) && isBelow(front!.leanToRich, limits.slowSwitch);
  if (!quick) return unresolved(front!.richToLean, channels.front?.polled ?? false);
  return {
    verdict: "points-away",
    statement: `The front sensor is quick and swings well: rich to lean ${withinTime(front!.richToLean)}, lean to rich ${withinTime(front!.leanToRich)}.`,
    against: [
      reason(inStretch("richToLean", health), "rich to lean", front!.richToLean),
      reason(inStretch("leanToRich", health), "lean to rich", front!.leanToRich),
      reason(inStretch("maximum", health), "highest", front!.maximum),
      reason(inStretch("minimum", health), "lowest", front!.minimum),
    ],
    dependsOn: used,
  };
}

const cannot = (statement: string, next: readonly string[]): Draft => ({ verdict: "cannot-say", statement, next });

const wideBand = (): Draft =>
  cannot(
    "The front sensor is a wide-band one: it does not switch, and the rules for switching sensors are not applied to it.",
    ["Compare its lambda with the trims, and with the rear sensor in steady running."],
  );

function unresolved(reading: Reading, polled: boolean): Draft {
  const why = reading.because ? ` ${reading.because.charAt(0).toUpperCase()}${reading.because.slice(1)}.` : "";
  return cannot(
    `This recording cannot time how quickly the front sensor switches.${polled ? " The log asks too seldom." : why}`,
    [frontAgain.warm],
  );
}

/** It never was both below 0.3 and above 0.6 V: asleep so far, or not able to. */
function notSwinging(scene: FindingScene): Draft {
  const { channels, measured, limits, span } = scene;
  const awake = measured.awake.front!;
  const running = runningTime(measured.stretches, span);
  const atBias = awake.bias.value !== null && awake.leftBias.value === null;
  if (!atBias && isSlow(channels.front, limits)) {
    return cannot(
      "The front sensor was not seen to swing, but the log asks too seldom to tell that from a quick one.",
      [frontAgain.warm],
    );
  }
  const gas = oneGasOf(scene);
  if (running > limits.wakeTime && gas) return standing(gas, running, scene);
  if (running > limits.wakeTime) {
    const what = atBias
      ? `stayed at ${restInWords(awake.bias.value!, limits)},`
      : asWritten("never swung through both 0.3 and 0.6 V");
    return {
      verdict: "points-to",
      statement: `The front sensor ${what} for ${quantity(Math.round(running), "s")} of running engine: the sensor, its heater or a wire looks faulty.`,
      for: [{ reading: "awake.front.bias", says: awake.says }],
      next: [test],
      dependsOn: [describeLimit("wakeTime", limits)],
    };
  }
  return cannot(saidOf("front", awake.says), [
    "Warm the engine up first, then record again; a sensor at its bias level is neither stuck lean nor stuck rich.",
  ]);
}

/** It stood as in gas that never changes, and nothing shows that the gas did. */
function standing(gas: OneGas, running: number, { limits }: FindingScene): Draft {
  const [level, enough] = gas === "lean" ? [limits.lowLevel, "below"] : [limits.highLevel, "above"];
  const asIn =
    gas === "lean"
      ? "as it does without a signal, and as it does in lean gas: nothing recorded shows that the gas was ever rich"
      : "as a faulty one does, and as it does in rich gas: nothing recorded shows that the gas was ever lean";
  const next =
    gas === "lean"
      ? "Record a hard pull, where the mixture is made rich: a front sensor that works goes above 0.6 V there. If it stays low, test the sensor, its heater and its wiring."
      : "Record a lift-off from speed, where fuel is cut: a front sensor that works falls to nearly 0 V there. If it stays high, test the sensor and its wiring.";
  const seconds = quantity(Math.round(running), "s");
  return cannot(`The front sensor stood ${enough} ${quantity(level, "V")} for ${seconds} of running engine, ${asIn}.`, [
    asWritten(next),
  ]);
}

/** Asked less than twice in the fastest cycle, a sensor may be met at the same part of every swing. */
const isSlow = (channel: FindingScene["channels"]["front"], { fastestFront }: Limits): boolean =>
  channel !== null && !(2 * fastestFront * usualStep(channel.series.time) <= 1);

/** Time in stretches in which the engine is known, or not known not, to run. */
export function runningTime(
  stretches: readonly Stretch[],
  span: { readonly from: number; readonly to: number },
): number {
  const off = stretches.filter(({ kind }) => kind === "not-running").reduce((sum, one) => sum + one.to - one.from, 0);
  return span.to - span.from - off;
}

/** The steady stretch with the most transitions. */
function judged({ measured }: FindingScene): Stretch | null {
  const usable = measured.stretches.filter(
    ({ kind, front }) => front && kind !== "not-running" && kind !== "cold" && kind !== "overrun",
  );
  const steady = usable.filter(({ kind, fit }) => fit || kind === "idle" || kind === "cruise");
  const list = steady.length > 0 ? steady : usable.filter(({ kind }) => kind === "unsteady");
  const weight = ({ front, from, to }: Stretch) => (front!.richToLean.count ?? 0) * 1000 + (to - from);
  return list.reduce<Stretch | null>((best, one) => (!best || weight(one) > weight(best) ? one : best), null);
}

interface Fault {
  readonly name: string;
  readonly says: string;
  readonly reading: Reading;
}

function faultsOf(front: NonNullable<Stretch["front"]>, stretch: Stretch, { limits }: FindingScene): Fault[] {
  const list: Fault[] = [];
  const add = (name: string, reading: Reading, says: string) => list.push({ name, reading, says });
  const slow = (reading: Reading) => reading.low !== null && reading.low > limits.slowSwitch;
  if (slow(front.richToLean))
    add("richToLean", front.richToLean, `slow from rich to lean, ${inWords(front.richToLean)}`);
  if (slow(front.leanToRich))
    add("leanToRich", front.leanToRich, `slow from lean to rich, ${inWords(front.leanToRich)}`);
  const swing = spanOf(front.minimum, front.maximum);
  if (swing !== null && swing < limits.leastSwing && to10(stretch)) {
    add("maximum", front.maximum, `it swings only ${quantity(swing, "V")}`);
  }
  const period = front.period;
  if (period.low !== null && period.low > limits.slowPeriod)
    add("period", period, `one cycle takes ${inWords(period)}`);
  return list;
}

const to10 = ({ from, to }: Stretch): boolean => to - from >= 10;

/** Largest swing the bounds allow, V; null where one is open. */
function spanOf(minimum: Reading, maximum: Reading): number | null {
  return minimum.low === null || maximum.high === null ? null : maximum.high - minimum.low;
}

const isBelow = (reading: Reading, most: number): boolean => reading.high !== null && reading.high <= most;
