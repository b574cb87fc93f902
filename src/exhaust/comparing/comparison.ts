// Two recordings side by side: the shapes of a comparison, shared by the page and the command line.

import type { Bank } from "../../capture/model/capture.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import type { Hertz } from "../../signal/numbers/units.ts";
import type {
  Activity,
  FuelCut,
  LiftOff,
  Sensor,
  SensorKind,
  Span,
  StretchKind,
  Verdict,
  Warmth,
} from "../terms/analysis.ts";

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

/** One stretch that may be judged, and how the engine ran in it. Known by `stretchId`. */
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
  /** Whether what it rests on was alike in both; nothing is told apart where it was not. */
  readonly fair: boolean;
  readonly told: Told;
  /** In plain words: "clearly shorter", "not told apart by these recordings". */
  readonly says: string;
}

/** Parts of the two recordings that match where the whole does not. */
export interface MatchingPart {
  readonly of: "lift-off" | StretchKind;
  /** For people: "lift-offs at a like air flow and engine speed". */
  readonly what: string;
  /** Ids of lift-offs, or of stretches (`stretchId`). */
  readonly suspect: readonly string[];
  readonly reference: readonly string[];
}

export interface Comparison {
  readonly suspect: string;
  readonly reference: string;
  readonly fair: readonly Fairness[];
  /** Conditions that one of the two did not record, and what that means. */
  readonly notKnown: readonly string[];
  /** Offered for each unfair kind of test that can be made fair: lift-offs first. */
  readonly matching: readonly MatchingPart[];
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

/** What a stretch is named by in a `MatchingPart`: its kind and where it begins, s. */
export const stretchId = ({ kind, from }: Pick<ComparedStretch, "kind" | "from">): string =>
  `${kind} ${from.toFixed(3)}`;
