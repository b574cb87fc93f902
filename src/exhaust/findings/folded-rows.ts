// Whether a fit may rest on a swing that the rows have folded.

import { usualStep } from "../../signal/series/usual-step.ts";
import type { FindingScene } from "./scene.ts";

/**
 * Samples so far apart that the front's own course is not known, and no lift-off with a fuel cut that is at least likely, which both
 * sensors had to follow: a lean spell without one may be a fast swing folded.
 */
export function mayBeFolded({ channels, measured, limits }: FindingScene): boolean {
  const step = channels.front ? usualStep(channels.front.series.time) : 0;
  const isCut = measured.liftOffs.some(({ rejected, fuelCut }) => rejected === null && fuelCut !== "unknown");
  return step * limits.fastestFront > 1 && !isCut;
}
