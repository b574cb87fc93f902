// Two recordings side by side: the shapes of a comparison, shared by the page and the command line.

import type { Bank } from "../capture/capture.ts";
import type { Reading } from "../signal/reading.ts";
import type { Hertz } from "../signal/units.ts";
import type { Activity, FuelCut, LiftOff, Sensor, SensorKind, Span, StretchKind, Verdict, Warmth } from "./analysis.ts";

/** All that a comparison must know of one recording: small, without samples, so that a shelf can keep it. */
export interface Comparable {
  readonly name: string;
  readonly bank: Bank;
  readonly front: RecordedSensor | null;
  readonly rear: RecordedSensor | null;
  readonly warmth: Warmth["told"];
  /** While it was measured; null where not recorded. */
  readonly coolant: Reading | null;
  readonly catalystTemperature: Reading | null;
  /** Lift-offs that count, in order of time. */
  readonly liftOffs: readonly ComparedLiftOff[];
  readonly stretches: readonly ComparedStretch[];
  /** What the recording alone says of the catalyst. */
  readonly finding: { readonly verdict: Verdict; readonly statement: string } | null;
}

export interface RecordedSensor {
  readonly kind: SensorKind;
  readonly rate: Hertz | null;
  readonly polled: boolean;
  /** When it left its bias; not resolvable when it was awake from the first sample. */
  readonly woke: Reading;
}

export type ComparedLiftOff = Pick<
  LiftOff,
  "id" | "at" | "frontFall" | "delay" | "storedOxygen" | "richAgain" | "rearSwitch" | "airFlow" | "engineSpeed"
> & { readonly fuelCut: FuelCut };

/** One stretch that may be judged, and how the engine ran in it. */
export interface ComparedStretch extends Span {
  readonly kind: StretchKind;
  /** Mean over the stretch; null where not recorded. */
  readonly engineSpeed: number | null;
  readonly airFlow: number | null;
  readonly activity: Activity | null;
  readonly front: Sensor | null;
  readonly rear: Sensor | null;
}

export type Told = "longer" | "shorter" | "higher" | "lower" | "not-told-apart";

/** What a mismatch touches. */
export type Concern = "all" | "lift-off" | "stretch" | `stretch ${string}`;

/** One condition that must be alike, so that a ratio means something. */
export interface Fairness {
  /** "air flow in the fuel cut" */
  readonly what: string;
  readonly suspect: Reading | string;
  readonly reference: Reading | string;
  readonly ok: boolean;
  /** The readings that rest on it: all, those of the lift-offs, those of stretches (of one kind). */
  readonly concern: Concern;
  /** With the limit used, and where it comes from; for people. */
  readonly says: string;
}

/** What one reading was in both recordings. */
export interface Difference {
  /** "delay", "storedOxygen", "cruise.amplitudeRatio", "cruise.rear.amplitude" */
  readonly reading: string;
  /** For people: "Delay of the rear after the front". */
  readonly label: string;
  readonly suspect: Reading;
  readonly reference: Reading;
  /** Suspect over reference; not resolvable where a ratio makes no sense. */
  readonly ratio: Reading;
  /** Suspect less reference, in the reading's unit. */
  readonly difference: Reading;
  readonly told: Told;
  /** In plain words: "clearly shorter", "not told apart by these recordings". */
  readonly says: string;
}

/** Parts of the two recordings that match where the whole does not. */
export interface MatchingPart {
  readonly what: string;
  /** Ids of lift-offs. */
  readonly suspect: readonly string[];
  readonly reference: readonly string[];
}

export interface Comparison {
  readonly suspect: string;
  readonly reference: string;
  readonly fair: readonly Fairness[];
  /** Conditions that one of the two did not record, and what that means. */
  readonly notKnown: readonly string[];
  readonly matching: MatchingPart | null;
  readonly differences: readonly Difference[];
  /** Beside each delay: under what flow and speed it was read. */
  readonly events: { readonly suspect: readonly ComparedLiftOff[]; readonly reference: readonly ComparedLiftOff[] };
  /** In one sentence: what the two tell together. */
  readonly says: string;
  /** Whether the same test under the same conditions shows that the store has grown: suspect after, reference before. */
  readonly repair: Repair;
}

export interface Repair {
  readonly told: "proved" | "not-proved";
  readonly says: string;
  /**
   * "no-common-test": nothing stands in both; "unlike": the tests were not alike; "not-more": no clear gain; "not-sound": the
   * recording after it does not by itself speak for the catalyst; "was-sound": the one before it did already.
   */
  readonly reason: "proved" | "no-common-test" | "unlike" | "not-more" | "not-sound" | "was-sound";
}

/** Lift-offs to be compared; all that count where it is absent. */
export interface CompareChoices {
  readonly suspect?: readonly string[];
  readonly reference?: readonly string[];
}
