// The conditions under which a code was stored, and whether a recording has been there again.

import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";

/** Roles of channels that a freeze frame tells as well. */
export const frameQuantities = [
  "engine-speed",
  "road-speed",
  "engine-load",
  "air-flow",
  "manifold-pressure",
  "throttle",
  "coolant-temp",
  "catalyst-temp",
  "fuel-status",
] as const;
export type FrameQuantity = (typeof frameQuantities)[number];

/** What the freeze frame says, in the units of the reading type. */
export type FrameConditions = Readonly<Partial<Record<FrameQuantity, number>>>;

/** A span of the recording, s. */
export interface Stay {
  readonly from: Seconds;
  readonly to: Seconds;
}

export interface VisitedQuantity {
  readonly quantity: FrameQuantity;
  readonly wanted: number;
  /** Either way, in `unit`. */
  readonly tolerance: number;
  readonly unit: string;
  readonly told: "visited" | "not-visited" | "not-recorded";
  readonly spans: readonly Stay[];
  readonly total: Seconds;
  /** The nearest it came; null where it was not recorded. */
  readonly nearest: number | null;
}

/** How the rear behaved in the longest stretch under all conditions at once. */
export interface RearThere {
  readonly span: Stay;
  readonly swing: Reading | null;
  readonly amplitudeRatio: Reading | null;
  readonly crossingRatio: Reading | null;
}

export interface Visited {
  readonly quantities: readonly VisitedQuantity[];
  /** All recorded ones at once; empty where nothing of the frame was recorded. */
  readonly together: readonly Stay[];
  readonly total: Seconds;
  readonly rear: RearThere | null;
}
