// Rich or lean running: what the module has to correct, and what it can no longer.

import { medianOf } from "../../signal/combine.ts";
import type { Reading } from "../../signal/reading.ts";
import type { Finding } from "../analysis.ts";
import { describeLimit } from "../limits.ts";
import { inWords } from "../words.ts";
import { type Draft, type FindingScene, finding, inStretch, reason } from "./scene.ts";
import { type TrimSeen, trimsSeen } from "./trims-seen.ts";

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
      next: ["Record short and long fuel trim, at idle and at steady cruise."],
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
      statement: `The engine runs lean by itself: the module has to add ${inWords(total)} of fuel.`,
      for: [told],
      next: [cure],
    };
  }
  if ((total.high ?? 0) < -limits.trimInvestigate) {
    return {
      verdict: "points-to",
      statement: `The engine runs rich by itself: the module has to take ${inWords(turned(total))} of fuel away.`,
      for: [told],
      next: [cure],
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

/** Long steady running with the front on one side: the module has run out of correction, or the sensor is wrong. */
function oneSidedFront({ measured, limits }: FindingScene): Draft | null {
  const steady = measured.stretches.filter(
    ({ kind, from, to, front }) => front && (kind === "idle" || kind === "cruise") && to - from >= 5,
  );
  const shares = steady.map(({ front }) => front!.richShare);
  if (shares.length === 0 || measured.awake.front?.awakeFrom == null) return null;
  const share = medianOf(shares, "%");
  if (share.value === null) return null;
  const high = share.value > limits.richShareHigh;
  if (!high && share.value >= limits.richShareLow) return null;
  return {
    verdict: "points-to",
    statement: `The front sensor reads ${high ? "rich" : "lean"} for ${inWords(high ? share : rest(share))} of steady running: the mixture is ${high ? "too rich" : "too lean"}, or air or a fault misleads the sensor.`,
    for: [reason("richShare, steady running", "front rich share", share)],
    next: [cure],
  };
}

const rest = (share: Reading): Reading => ({
  ...share,
  value: 100 - share.value!,
  low: share.high === null ? null : 100 - share.high,
  high: share.low === null ? null : 100 - share.low,
});
