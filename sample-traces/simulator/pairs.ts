// Two recordings of known difference, for judging what a comparison says.

import type { CarSpec } from "./car.ts";
import {
  type CatalystState,
  type Draw,
  drawCar,
  drawDrive,
  drawing,
  drawManners,
  drawScope,
  type Manners,
} from "./draw.ts";
import { phaseStarts } from "./drive.ts";
import { type FleetCar, type FleetRun, simulate } from "./fleet.ts";
import { type Random, seededRandom } from "./random.ts";
import type { Truth } from "./truth.ts";

/**
 * "identical": one catalyst recorded twice, with other noise, rate and drive of the same manner. "different": the suspect stores
 * less, told fairly. "unfair": one catalyst, but the air flow of the fuel cuts is far apart.
 */
export const pairKinds = ["identical", "different", "unfair"] as const;
export type PairKind = (typeof pairKinds)[number];

export interface Pair {
  readonly kind: PairKind;
  readonly seed: number;
  readonly suspect: FleetCar;
  readonly reference: FleetCar;
  /** Suspect over reference: grams of oxygen the catalysts can hold. */
  readonly capacityRatio: number;
}

export interface PairRun {
  readonly suspect: FleetRun;
  readonly reference: FleetRun;
  /** Suspect over reference, each the median over its lift-offs; null where one has none. */
  readonly passedRatio: number | null;
  readonly delayRatio: number | null;
  readonly flowRatio: number | null;
}

/** The same pair for the same kind and seed. */
export function drawPair(kind: PairKind, seed: number): Pair {
  const random = seededRandom(4 * seed + 2 + pairKinds.indexOf(kind) * 2 ** 20);
  const draw = drawing(random, "judge");
  const manners = drawManners(draw);
  const reference = drawCar(draw, "healthy", []);
  const ratio = kind === "different" ? random.logUniform(0.08, 0.75) : 1;
  const catalyst = { ...reference.catalyst, capacity: reference.catalyst.capacity * ratio };
  return {
    kind,
    seed,
    suspect: recorded({ ...reference, catalyst }, kind === "unfair" ? hurried(manners, random) : manners, draw),
    reference: recorded(reference, manners, draw),
    capacityRatio: ratio,
  };
}

/** Far more air while the throttle is closed: a higher gear lower, or an idle valve held open. */
const hurried = (manners: Manners, random: Random): Manners => ({
  ...manners,
  overrunFilling: manners.overrunFilling * random.uniform(2.2, 3.2),
});

/** One more recording: another drive in the same manner, another scope, other chance. */
function recorded(car: CarSpec, manners: Manners, draw: Draw): FleetCar {
  const drive = drawDrive(manners, draw.random);
  const scope = drawScope(draw, phaseStarts(drive).at(-1)!);
  const seed = Math.floor(draw.random.uniform(0, 2 ** 31));
  const state: CatalystState = car.catalyst.capacity > 0.5 ? "healthy" : "worn";
  return {
    seed,
    split: "judge",
    kind: state,
    catalyst: state,
    fit: true,
    car: { ...car, seed, drive },
    recorder: { ...scope, channels: ["frontVoltage", "rearVoltage", "throttle", "engineSpeed", "airFlow"] },
    ownStamps: false,
  };
}

export function simulatePair(pair: Pair): PairRun {
  const [suspect, reference] = [simulate(pair.suspect), simulate(pair.reference)];
  const ratioOf = (value: (liftOff: Truth["liftOffs"][number]) => number | null) =>
    ratio(median(suspect.truth.liftOffs.map(value)), median(reference.truth.liftOffs.map(value)));
  return {
    suspect,
    reference,
    passedRatio: ratioOf((event) => event.oxygenPassed),
    delayRatio: ratioOf((event) => event.delay),
    flowRatio: ratioOf((event) => (event.delay === null ? null : event.airFlow)),
  };
}

const ratio = (above: number | null, below: number | null) => (above === null || below === null ? null : above / below);

function median(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null).sort((a, b) => a - b);
  if (known.length === 0) return null;
  const middle = known.length >> 1;
  return known.length % 2 === 1 ? known[middle]! : (known[middle - 1]! + known[middle]!) / 2;
}
