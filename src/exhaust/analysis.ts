// What is measured on a capture: the shapes shared by the page and the command line.

import type { Bank } from "../capture/capture.ts";
import type { Reading } from "../signal/reading.ts";
import type { Seconds } from "../signal/units.ts";

/** Half-open span of time, seconds from the capture's first sample. */
export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** Readings of one oxygen sensor over a span. Transition times between 0.6 and 0.3 V. */
export interface Sensor {
  readonly frequency: Reading;
  readonly amplitude: Reading;
  readonly minimum: Reading;
  readonly maximum: Reading;
  readonly mean: Reading;
  readonly crossings: Reading;
  readonly crossingsPer10s: Reading;
  readonly richShare: Reading;
  readonly richToLean: Reading;
  readonly leanToRich: Reading;
}
export type SensorReadingName = keyof Sensor;

/** Rear over front in one span. `lag` > 0: the rear is later. */
export interface Activity {
  readonly crossingRatio: Reading;
  readonly amplitudeRatio: Reading;
  readonly lengthRatio: Reading;
  readonly lag: Reading;
}
export type ActivityReadingName = keyof Activity;

export interface SensorPair {
  readonly front: Sensor | null;
  readonly rear: Sensor | null;
}

export type StretchKind = "not-running" | "cold" | "idle" | "cruise" | "load" | "overrun" | "unsteady";

export interface Stretch extends Span {
  readonly kind: StretchKind;
  readonly activity: Activity | null;
}

/** Whether fuel was shown to be cut. */
export type FuelCut = "proven" | "likely" | "unknown";

export interface LiftOff {
  /** Stable for the same event: its number in the capture, or the id of an event added by hand. */
  readonly id: string;
  /** Throttle closing, else the front's fall. */
  readonly at: Seconds;
  readonly frontFall: Reading;
  readonly rearFall: Reading;
  readonly delay: Reading;
  readonly storedOxygen: Reading;
  readonly fuelCut: FuelCut;
  /** Mean air flow between front and rear fall, g/s; null without an air-flow channel. */
  readonly airFlow: number | null;
  /** Engine speed at the fall, 1/min; null without the channel. */
  readonly engineSpeed: number | null;
  /** Why it does not count, by rule or by the user's hand; null when it counts. */
  readonly rejected: string | null;
  /** "user" when added or moved by hand. */
  readonly origin: "found" | "user";
}

export interface LiftOffSummary {
  readonly delay: Reading;
  readonly storedOxygen: Reading;
}

/** A lift-off added, moved or rejected by hand. */
export type LiftOffEdit =
  | { readonly kind: "add"; readonly id: string; readonly at: Seconds }
  | { readonly kind: "move"; readonly id: string; readonly at: Seconds }
  | { readonly kind: "reject"; readonly id: string; readonly because: string }
  | { readonly kind: "accept"; readonly id: string };

export type FindingId = "catalyst" | "front-sensor" | "rear-sensor" | "air-leak" | "mixture" | "misfire" | "recording";
export type Verdict = "points-to" | "points-away" | "cannot-say";

export interface FindingReason {
  /** Name of the reading that speaks, "amplitudeRatio, cruise 20 … 55 s". */
  readonly reading: string;
  readonly says: string;
}

export interface Finding {
  readonly id: FindingId;
  readonly verdict: Verdict;
  readonly statement: string;
  readonly for: readonly FindingReason[];
  readonly against: readonly FindingReason[];
  readonly next: readonly string[];
}

/** The samples and crossings behind a reading, to be shown on the trace. */
export interface Evidence {
  readonly span: Span;
  readonly marks: readonly EvidenceMark[];
  /** Levels that mattered, in the channel's unit. */
  readonly levels: readonly number[];
}

export interface EvidenceMark {
  readonly channelId: string;
  readonly time: Seconds;
  readonly value: number;
}

/** Everything measured on one bank of a capture. */
export interface Analysis {
  readonly bank: Bank;
  readonly sensors: SensorPair;
  readonly stretches: readonly Stretch[];
  readonly whole: Activity | null;
  readonly liftOffs: readonly LiftOff[];
  readonly liftOff: LiftOffSummary | null;
  readonly findings: readonly Finding[];
}
