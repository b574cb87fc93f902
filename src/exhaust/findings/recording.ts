// Whether the recording itself can carry a finding about the catalyst, and if not, what it lacks.

import type { Finding, Stretch } from "../terms/analysis.ts";
import type { StoreStudy } from "../terms/store-study.ts";
import { counted, quantity, stretchInWords, stretchSpan } from "../terms/words.ts";
import { groundSeen } from "./ground-seen.ts";
import { rearSwings } from "./rear-swing.ts";
import { again, recordFlow } from "./record-again.ts";
import { type Draft, type FindingScene, finding, fitStretches, placeOf, validLiftOffs } from "./scene.ts";

export function recordingFinding(scene: FindingScene): Finding {
  const plain = draft(scene);
  const ground = groundSeen(scene);
  return finding("recording", {
    ...plain,
    statement: plain.statement + ground.says,
    next: [...ground.next, ...(plain.next ?? [])],
  });
}

function draft(scene: FindingScene): Draft {
  const fit = judgedStretches(scene);
  const lifts = validLiftOffs(scene);
  const lacks = lacking(scene);
  const cruise = fit.filter(({ kind }) => kind === "cruise");
  if (cruise.length > 0 && lifts.length > 0) {
    return {
      verdict: "points-away",
      statement: `The recording is good enough: steady cruise (${cruise.map(stretchSpan).join("; ")}) and ${counted(lifts.length, "lift-off")} can be judged.`,
      next: lacks,
    };
  }
  if (fit.length > 0 || lifts.length > 0) {
    return {
      verdict: "cannot-say",
      statement: `The recording carries part of the answer: ${steadyTime(fit)} and ${counted(lifts.length, "lift-off")} can be judged.`,
      next: lacks,
    };
  }
  const why = longestSteady(scene.measured.stretches)?.because;
  return {
    verdict: "points-to",
    statement: `The recording itself is the trouble: nothing in it can be judged.${why ? ` ${why}` : ""}`,
    for: scene.measured.stretches
      .slice(0, 6)
      .map((one) => ({ reading: stretchInWords(one), says: one.because, at: placeOf(one) })),
    next: lacks,
  };
}

/** Behind a wide-band front the rear's swing is what steady running can tell. */
const judgedStretches = (scene: FindingScene): Stretch[] => [
  ...fitStretches(scene),
  ...rearSwings(scene).map(({ stretch }) => stretch),
];

function steadyTime(fit: readonly Stretch[]): string {
  const seconds = Math.round(fit.reduce((sum, one) => sum + one.to - one.from, 0));
  return seconds === 0 ? "no steady running" : `${quantity(seconds, "s")} of steady running`;
}

/** The stretch that could have carried a finding: the longest that is neither pull nor overrun nor standstill. */
function longestSteady(stretches: readonly Stretch[]): Stretch | undefined {
  const usable = stretches.filter(({ kind }) => kind !== "load" && kind !== "overrun" && kind !== "not-running");
  const list = usable.length > 0 ? usable : stretches;
  return [...list].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
}

/** The air flow was worked out for an engine of unknown size. */
const wouldSizeHelp = (study: StoreStudy | null): boolean =>
  study !== null && !study.isAirUnknown && study.litres === null;

function lacking(scene: FindingScene): string[] {
  const { channels, measured } = scene;
  const fit = judgedStretches(scene);
  const list: string[] = [];
  if (!channels.front && !channels.frontLambda && !channels.frontPump) list.push(again.frontBesideRear);
  if (!channels.rear) list.push(again.rearBesideFront);
  if (measured.stretches.some(({ unfit }) => unfit === "too-slow")) list.push(again.faster);
  if (!fit.some(({ kind }) => kind === "cruise")) list.push(again.cruiseWithSpeed);
  if (!fit.some(({ kind }) => kind === "idle")) list.push(again.idle);
  if (validLiftOffs(scene).length < 3) list.push(again.liftOffsWithSpeed);
  if (!channels.airFlow) list.push(wouldSizeHelp(measured.storeStudy) ? recordFlow.orSize : recordFlow.forGrams);
  return list;
}
