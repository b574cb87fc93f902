// What a fit of the oxygen store tells: plain data, shared by findings, page and command line.

import type { Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";

/** Everything unknown about the car. */
export interface Guess {
  /** Oxygen that the catalyst holds, g. */
  readonly store: number;
  /** Size of 1 - 1/lambda in closed loop, and in an enriched open loop. */
  readonly loop: number;
  readonly rich: number;
  /** … in other long rich spells, and when fuel returns after a cut. */
  readonly back: number;
  readonly again: number;
  /** How far closed loop is off balance, share of `loop`; below 0 rich. */
  readonly tilt: number;
  /** … and how much further it may sway, no front sensor shows why, as far as the rear does. */
  readonly sway: number;
  /** Share of the store that lies deep, and how slowly oxygen seeps there: a time constant, s. */
  readonly deep: number;
  readonly seep: Seconds;
  /** Share that passes whatever is stored. */
  readonly slip: number;
  /** How sharply it lets go when full: a power of the filling. */
  readonly sharp: number;
  /** Rear level behind a catalyst in balance, share of its range. */
  readonly rest: number;
  /** How much lower it rests when the store is full, in half-widths of the sensor's step: it falls about where half is full. */
  readonly sag: number;
  /** Gas between the sensors, g. */
  readonly gas: number;
  /** Time constant of the rear sensor, and how much later its stamps are than the front's, s. */
  readonly lag: Seconds;
  readonly skew: Seconds;
  /** Air that leaks in between the sensors, g/s. */
  readonly leak: number;
  /** How slowly a cut's air displaces what was burnt before it, on the way to the catalyst: a time constant, s. */
  readonly mixing: Seconds;
  /** Where air flow was worked out: the true one goes with this power of it. */
  readonly shape: number;
}

/** A guess and how badly it explains the recording; smaller is better. */
export interface Fit {
  readonly guess: Guess;
  readonly cost: number;
}

const rivals = [
  "sound",
  "worn",
  "dead",
  "slow-front",
  "slow-rear",
  "rear-asleep",
  "leak-ahead",
  "leak-between",
  "rich",
  "lean",
  "misfire",
  "swapped-leads",
  "swapped-banks",
  "no-fuel-cut",
] as const;
/** Another explanation of the same recording. */
export type Rival = (typeof rivals)[number];

/** The recording that would tell two explanations apart. */
export type Separator =
  | "faster"
  | "lift-offs"
  | "cruise"
  | "hard-pull"
  | "air-flow"
  | "smoke-test"
  | "front-test"
  | "rear-test"
  | "mixture-cured"
  | "leads-checked";

/** The best explanation; another that explains the recording as well, and what would separate the two. */
export interface Explanation {
  readonly best: Rival | null;
  readonly asGood: Rival | null;
  readonly separatedBy: Separator | null;
}

/** What a recording says of the store. */
export interface StoreStudy {
  /** g */
  readonly reading: Reading;
  /** Sizes, g, between which all lie that explain the recording as well: what verdicts go by. */
  readonly near: { readonly low: number; readonly high: number };
  /** Bounds, g, were the air flow right as taken: those sizes, as far apart as the form of the model may be off. */
  readonly asTaken: { readonly low: number; readonly high: number };
  readonly best: Fit;
  /** g; the best size, between the sizes that were looked at. */
  readonly value: number;
  /** Share of the rear's movement that the best fit explains, 0 … 1. */
  readonly explained: number;
  /** Best fit of a sound store with air that leaks in between the sensors; null where it was not tried. */
  readonly leak: Fit | null;
  /** Best fit with a quick rear sensor; null where the best fit has one. */
  readonly quickRear: Fit | null;
  /** A fit of another kind within so much of the best explains the recording as well. */
  readonly margin: number;
  /** Where the air flow was taken from, for people; factor within which it holds. */
  readonly air: string;
  readonly airDoubt: number;
  /** Nothing recorded speaks of the amount of air. */
  readonly isAirUnknown: boolean;
  /** Engine size that the air flow was worked out for, l; null where it was measured, or the size is not known. */
  readonly litres: number | null;
  /** Fuel cuts seen, s between renewals of the sensors' values, s that count. */
  readonly cuts: number;
  readonly row: Seconds;
  readonly seconds: Seconds;
}
