// The differences by where they stand: delay and store, rear, front; in each the most telling first.

import type { Difference } from "../../exhaust/comparing/comparison.ts";

const differenceGroups = ["Delay and store", "Rear", "Front"] as const;
export type DifferenceGroup = (typeof differenceGroups)[number];

export interface Grouped {
  readonly group: DifferenceGroup;
  /** The few most telling of what is told apart; before them delay and oxygen, where they are fair to compare. */
  readonly shown: readonly Difference[];
  /** The rest, most telling first; last what these recordings do not tell apart, or what is not fair to compare. */
  readonly folded: readonly Difference[];
}

/** More than so many of a group are not read in a panel. */
const mostShown = 3;

/** Groups that hold something, those that tell the two apart first; each reading in one of them. */
export function groupedDifferences(differences: readonly Difference[]): readonly Grouped[] {
  const groups = differenceGroups.flatMap((group) => {
    const all = differences.filter((one) => isKnown(one) && groupOf(one) === group);
    const ordered = [...all].sort((a, b) => leads(b) - leads(a) || distanceOf(b) - distanceOf(a));
    const shown = ordered.filter((one) => isTold(one) || leads(one) > 0).slice(0, mostShown);
    return all.length === 0 ? [] : [{ group, shown, folded: ordered.filter((one) => !shown.includes(one)) }];
  });
  return [...groups.filter(tells), ...groups.filter((one) => !tells(one))];
}

const tells = ({ shown }: Grouped): boolean => shown.some(isTold);

/** What a comparison is made for stands on top where it is fair, told apart or not. */
const leads = ({ reading, fair }: Difference): number => (fair ? ["storedOxygen", "delay"].indexOf(reading) + 1 : 0);

export const isRatio = ({ ratio }: Difference): boolean => ratio.low !== null || ratio.high !== null;
export const isTold = ({ told }: Difference): boolean => told !== "not-told-apart";
const isKnown = (one: Difference) => isRatio(one) || one.difference.low !== null || one.difference.high !== null;

/** "delay", "cruise.rear.amplitude", "cruise.lag"; what is not the front's own is told of the rear. */
function groupOf({ reading }: Difference): DifferenceGroup {
  if (reading === "delay" || reading === "storedOxygen" || reading === "richAgain") return "Delay and store";
  return reading.split(".")[1] === "front" ? "Front" : "Rear";
}

/**
 * How far apart the two are at least: of a ratio its logarithm's, of a difference as a share of the larger value; what is not
 * told apart stands behind all that is.
 */
function distanceOf(one: Difference): number {
  const { low, high } = isRatio(one) ? one.ratio : one.difference;
  const zero = isRatio(one)
    ? (bound: number) => Math.log(Math.max(bound, 1e-9))
    : (bound: number) => bound / sizeOf(one);
  const ends = [low, high].flatMap((bound) => (bound === null ? [] : [Math.abs(zero(bound))]));
  return (isTold(one) ? 1e6 : 0) + (ends.length === 0 ? 0 : Math.min(...ends));
}

const sizeOf = ({ suspect, reference }: Difference): number =>
  Math.max(Math.abs(suspect.value ?? 0), Math.abs(reference.value ?? 0), 1e-9);
