// All seven findings, in the order in which they are told: the catalyst first, though it is made last.

import type { Finding, FindingId } from "./analysis.ts";
import { airLeakFinding } from "./findings/air-leak.ts";
import { catalystFinding } from "./findings/catalyst.ts";
import { frontSensorFinding } from "./findings/front-sensor.ts";
import { misfireFinding } from "./findings/misfire.ts";
import { mixtureFinding } from "./findings/mixture.ts";
import { rearSensorFinding } from "./findings/rear-sensor.ts";
import { recordingFinding } from "./findings/recording.ts";
import { type FindingScene, finding, looksSwapped, swapped, untilPutRight } from "./findings/scene.ts";
import { changedForFindings } from "./limits.ts";

/** Stretches, crossings and lift-offs rest on limits too: one that the job changed is named under every finding. */
export function findingsOf(scene: FindingScene): Finding[] {
  const changed = changedForFindings(scene.limits);
  return plainFindings(scene).map((one) => ({ ...one, dependsOn: [...new Set([...one.dependsOn, ...changed])] }));
}

const ofSensors: readonly FindingId[] = ["catalyst", "front-sensor", "rear-sensor", "air-leak", "mixture", "misfire"];

function plainFindings(scene: FindingScene): Finding[] {
  if (looksSwapped(scene)) {
    return [
      ...ofSensors.map((id) => finding(id, id === "catalyst" ? swapped : untilPutRight)),
      recordingFinding(scene),
    ];
  }
  const others = [
    frontSensorFinding,
    rearSensorFinding,
    airLeakFinding,
    mixtureFinding,
    misfireFinding,
    recordingFinding,
  ];
  const made = others.map((make) => make(scene));
  return [catalystFinding(scene, made), ...made];
}
