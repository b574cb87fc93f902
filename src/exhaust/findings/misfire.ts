// Unburnt air from a cylinder that missed: not judged yet, and said so.

import type { Finding } from "../analysis.ts";
import { describeLimit } from "../limits.ts";
import { type Draft, type FindingScene, finding } from "./scene.ts";

export const misfireFinding = (scene: FindingScene): Finding => finding("misfire", draft(scene));
function draft({ limits }: FindingScene): Draft {
  return {
    verdict: "cannot-say",
    statement: "Short lean spikes of the front were not looked at.",
    next: ["Read misfire counts and codes."],
    dependsOn: [describeLimit("spikeRate", limits)],
  };
}
