// All seven findings, in the order in which they are told: the catalyst first, though it is made last.

import type { Finding, FindingId } from "../terms/analysis.ts";
import { changedForFindings } from "../terms/limits.ts";
import { airLeakFinding } from "./air-leak.ts";
import { withHandChecks } from "./by-hand.ts";
import { stepsLeft } from "./by-hand-steps.ts";
import { catalystFinding } from "./catalyst.ts";
import { frontSensorFinding } from "./front-sensor.ts";
import { misfireFinding } from "./misfire.ts";
import { mixtureFinding } from "./mixture.ts";
import { rearSensorFinding } from "./rear-sensor.ts";
import { recordingFinding } from "./recording.ts";
import { type FindingScene, finding, toPutRight } from "./scene.ts";

/** Stretches, crossings and lift-offs rest on limits too: one that the job changed is named under every finding. */
export function findingsOf(scene: FindingScene): Finding[] {
  const changed = changedForFindings(scene.limits);
  return plainFindings(scene).map((one) => ({
    ...one,
    dependsOn: [...new Set([...one.dependsOn, ...changed])],
    next: stepsLeft(one.next, scene.byHand ?? {}),
  }));
}

const ofSensors: readonly FindingId[] = ["catalyst", "front-sensor", "rear-sensor", "air-leak", "mixture", "misfire"];

function plainFindings(scene: FindingScene): Finding[] {
  const first = toPutRight(scene);
  if (first) {
    const blocked = ofSensors.map((id) => finding(id, id === "catalyst" ? first.catalyst : first.others));
    return [...blocked, recordingFinding(scene)];
  }
  const others = [
    frontSensorFinding,
    rearSensorFinding,
    airLeakFinding,
    mixtureFinding,
    misfireFinding,
    recordingFinding,
  ];
  const made = others.map((make) => withHandChecks(make(scene), scene.byHand ?? {}));
  return [catalystFinding(scene, made), ...made];
}
