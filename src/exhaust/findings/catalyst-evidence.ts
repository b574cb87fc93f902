// What is weighed for and against the catalyst.

import type { Finding, FindingReason, Stretch } from "../terms/analysis.ts";
import type { HandChecks } from "../terms/hand-checks.ts";
import { counted, inPercent } from "../terms/words.ts";
import { type LiftOffEvidence, liftOffEvidence } from "./lift-off-evidence.ts";
import { type RearQuickness, rearQuickness } from "./rear-sensor.ts";
import { type RearSwing, rearSwings } from "./rear-swing.ts";
import { type FindingScene, fitStretches, inStretch, overLiftOffs, reason, validLiftOffs } from "./scene.ts";
import { type SteadyEvidence, steadyEvidence } from "./steady.ts";

export interface Weighed {
  readonly scene: FindingScene;
  readonly steady: readonly SteadyEvidence[];
  readonly worst: SteadyEvidence | null;
  /** In place of `steady` behind a wide-band front. */
  readonly swings: readonly RearSwing[];
  readonly liftOff: LiftOffEvidence;
  readonly rear: RearQuickness;
  /** Findings that must be cleared up before the catalyst is blamed. */
  readonly waitsFor: readonly Finding[];
  readonly speaksFor: readonly (FindingReason | null)[];
  readonly speaksAgainst: readonly (FindingReason | null)[];
}

export function gather(scene: FindingScene, others: readonly Finding[]): Weighed {
  const steady = steadyEvidence(fitStretches(scene), scene.limits);
  const liftOff = liftOffEvidence(validLiftOffs(scene), scene.limits);
  const swings = rearSwings(scene);
  const busy = steady.filter(({ verdict }) => verdict === "busy" || verdict === "partial");
  const calm = steady.filter(({ verdict }) => verdict === "quiet");
  const delay =
    liftOff.delay &&
    reason(
      overLiftOffs("liftOff.delay"),
      `rear fell after the front, ${counted(liftOff.count, "lift-off")}`,
      liftOff.delay,
    );
  return {
    scene,
    steady,
    worst: steady[0] ?? null,
    swings,
    liftOff,
    rear: rearQuickness(scene),
    waitsFor: others.filter(({ id, verdict }) => verdict === "points-to" && mustComeFirst(id, liftOff, scene.byHand)),
    speaksFor: [
      ...busy.flatMap(({ stretch }) => ratios(stretch)),
      wideSwing(scene),
      ...swingsTold(swings, "wide"),
      liftOff.verdict === "short" ? delay : null,
    ],
    speaksAgainst: [
      ...calm.flatMap(({ stretch }) => ratios(stretch)),
      ...swingsTold(swings, "calm"),
      liftOff.verdict === "long" ? delay : null,
    ],
  };
}

/**
 * A slow front sensor shortens the lift-off's delay as well as it makes the rear busy. A leak, a wrong mixture or a misfire
 * makes the rear busy, but leaves the lift-off alone: without fuel there is nothing to burn wrongly. A leak that a test by hand
 * found is put right first all the same: between the sensors it may draw air in while fuel is cut, too.
 */
function mustComeFirst(id: Finding["id"], liftOff: LiftOffEvidence, byHand: HandChecks = {}): boolean {
  if (id === "front-sensor") return true;
  if (id === "air-leak" && (byHand["leak-ahead"] === "at-fault" || byHand["leak-between"] === "at-fault")) return true;
  return (id === "air-leak" || id === "mixture" || id === "misfire") && liftOff.verdict !== "short";
}

function ratios(stretch: Stretch): (FindingReason | null)[] {
  if (!stretch.activity) return [];
  const { amplitudeRatio, crossingRatio } = stretch.activity;
  return [
    reason(inStretch("amplitudeRatio", stretch), "rear swing over front swing", inPercent(amplitudeRatio)),
    reason(inStretch("crossingRatio", stretch), "rear crossings over front crossings", inPercent(crossingRatio)),
  ];
}

const swingsTold = (swings: readonly RearSwing[], wanted: RearSwing["told"]): (FindingReason | null)[] =>
  swings
    .filter(({ told }) => told === wanted)
    .map(({ stretch, swing }) => reason(inStretch("rear amplitude", stretch), "rear swing", swing));

/** Percentiles do not suffer from slow sampling: a wide rear swing in steady running counts, even at one sample a second. */
function wideSwing({ measured, limits }: FindingScene): FindingReason | null {
  const slow = measured.stretches.find(
    ({ kind, activity, unfit }) =>
      (kind === "idle" || kind === "cruise" || kind === "unsteady") &&
      unfit === "too-slow" &&
      (activity?.amplitudeRatio.low ?? 0) > limits.busyAmplitude,
  );
  if (!slow?.activity) return null;
  return reason(
    inStretch("amplitudeRatio", slow),
    "the rear swings widely, too slowly sampled to count how often",
    inPercent(slow.activity.amplitudeRatio),
  );
}
