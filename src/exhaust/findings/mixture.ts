// Rich or lean running: what the module has to correct, and what it can no longer.

import { medianOf } from "../../signal/combining/combine.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Finding } from "../terms/analysis.ts";
import { describeLimit } from "../terms/limits.ts";
import { inWords } from "../terms/words.ts";
import { recordTrims } from "./record-again.ts";
import { type Draft, type FindingScene, finding, inStretch, reason } from "./scene.ts";
import { frontSwitches, type TrimSeen, trimsSeen } from "./trims-seen.ts";

export const mixtureFinding = (scene: FindingScene): Finding => finding("mixture", draft(scene));

const cure =
  "Check fuel pressure, injectors, purge valve, air-flow meter and intake leaks; the catalyst is judged after that.";

function draft(scene: FindingScene): Draft {
  const { limits } = scene;
  const seen = trimsSeen(scene);
  const dependsOn = [
    describeLimit("trimInvestigate", limits),
    describeLimit("richShareHigh", limits),
    describeLimit("richShareLow", limits),
  ];
  const oneSided = oneSidedFront(scene);
  if (oneSided) return { ...oneSided, dependsOn };
  // A leak shows at idle only; the mixture is judged where it shows least.
  const trim = seen.cruise ?? seen.idle;
  if (!trim) {
    return {
      verdict: "cannot-say",
      statement: "Rich or lean running cannot be told without fuel trims.",
      next: [recordTrims],
      dependsOn,
    };
  }
  return { ...byTrim(trim, scene), dependsOn };
}

function byTrim(trim: TrimSeen, { limits }: FindingScene): Draft {
  const { total, stretch } = trim;
  const told = reason(inStretch("trims.total", stretch), "total trim", total);
  if ((total.low ?? 0) > limits.trimInvestigate) {
    return {
      verdict: "points-to",
      side: "lean",
      statement: `The engine runs lean by itself: the module has to add ${inWords(total)} of fuel.`,
      for: [told],
      next: [cure],
    };
  }
  if ((total.high ?? 0) < -limits.trimInvestigate) {
    return {
      verdict: "points-to",
      side: "rich",
      statement: `The engine runs rich by itself: the module has to take ${inWords(turned(total))} of fuel away.`,
      for: [told],
      next: [cure],
    };
  }
  if (!frontSwitches(stretch)) {
    return {
      verdict: "cannot-say",
      statement: `The total fuel trim is ${inWords(total)}, but the front sensor did not switch there, so nothing shows that this is enough.`,
      for: [told],
      next: ["Test the front sensor, then record it at steady cruise together with both trims.", cure],
    };
  }
  const inside =
    (total.low ?? -Infinity) >= -limits.trimInvestigate && (total.high ?? Infinity) <= limits.trimInvestigate;
  if (!inside)
    return {
      verdict: "cannot-say",
      statement: `The total fuel trim is ${inWords(total)}: near the limit.`,
      for: [told],
      next: [cure],
    };
  return {
    verdict: "points-away",
    statement: `The mixture is near right: total fuel trim ${inWords(total)}.`,
    against: [told],
  };
}

const turned = (reading: Reading): Reading => ({
  ...reading,
  value: reading.value === null ? null : -reading.value,
  low: reading.high === null ? null : -reading.high,
  high: reading.low === null ? null : -reading.low,
});

/**
 * Long steady running with the front on one side: the module has run out of correction, or the sensor is wrong. It may never
 * have swung through both levels; that it is not just asleep is shown by the module, which closes its loop on it.
 */
function oneSidedFront({ measured, limits }: FindingScene): Draft | null {
  const isAwake = measured.awake.front?.awakeFrom != null;
  const steady = measured.stretches.filter(
    ({ kind, from, to, front, trims }) =>
      front && (kind === "idle" || kind === "cruise") && to - from >= 5 && (isAwake || trims?.closedLoop === "known"),
  );
  const shares = steady.map(({ front }) => front!.richShare).filter(({ grade }) => grade !== "not-resolvable");
  if (shares.length === 0) return null;
  const share = medianOf(shares, "%");
  if (share.value === null) return null;
  const high = share.grade !== "at-most" && share.value > limits.richShareHigh;
  if (!high && share.value >= limits.richShareLow) return null;
  return {
    verdict: "points-to",
    side: high ? "rich" : "lean",
    statement: `The front sensor reads ${high ? "rich" : "lean"} ${howLong(high ? share : rest(share))} steady running: the mixture is ${high ? "too rich" : "too lean"}, or air or a fault misleads the sensor.`,
    for: [reason("richShare, steady running", "front rich share", share)],
    next: [cure],
  };
}

/** "for 92 % (90 to 94) of", "all through" */
const howLong = (share: Reading): string =>
  (share.low ?? 0) > 99.5 || share.value === 100 ? "all through" : `for ${inWords(share)} of`;

const turnedGrade = { "at-most": "at-least", "at-least": "at-most" } as const;

const rest = (share: Reading): Reading => ({
  ...share,
  grade: share.grade === "at-most" || share.grade === "at-least" ? turnedGrade[share.grade] : share.grade,
  value: 100 - share.value!,
  low: share.high === null ? null : 100 - share.high,
  high: share.low === null ? null : 100 - share.low,
});
