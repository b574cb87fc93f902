// All seven findings, in the order in which they are told: the catalyst first, though it is made last.

import type { Finding } from "./analysis.ts";
import { airLeakFinding } from "./findings/air-leak.ts";
import { catalystFinding } from "./findings/catalyst.ts";
import { frontSensorFinding } from "./findings/front-sensor.ts";
import { misfireFinding } from "./findings/misfire.ts";
import { mixtureFinding } from "./findings/mixture.ts";
import { rearSensorFinding } from "./findings/rear-sensor.ts";
import { recordingFinding } from "./findings/recording.ts";
import type { FindingScene } from "./findings/scene.ts";

export function findingsOf(scene: FindingScene): Finding[] {
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
