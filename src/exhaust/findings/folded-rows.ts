// Whether a fit may rest on a swing that the rows have folded.

import { mayFold } from "../terms/folded.ts";
import type { FindingScene } from "./scene.ts";

/**
 * Samples so far apart that the front's own course is not known, and no lift-off with a fuel cut that is at least likely, which both
 * sensors had to follow: a lean spell without one may be a fast swing folded.
 */
export function mayBeFolded({ channels, measured, limits }: FindingScene): boolean {
  const isCut = measured.liftOffs.some(({ rejected, fuelCut }) => rejected === null && fuelCut !== "unknown");
  return channels.front !== null && mayFold(channels.front.series, limits) && !isCut;
}
