// Whether what was made by the thousand was read as it should be.

import type { DelayTrial } from "./delays.ts";
import type { FoldedTrial } from "./folded.ts";
import type { Outcome } from "./made.ts";

export type Tally = Readonly<Record<Outcome, number>>;

/** All files of all kinds, and those of them that were read wrongly. */
export const sumOf = (tallies: readonly Tally[]) => ({
  made: tallies.reduce((sum, { right, asked, refused, wrong }) => sum + right + asked + refused + wrong, 0),
  wrong: tallies.reduce((sum, tally) => sum + tally.wrong, 0),
});

/** A run that made nothing, told no delay or saw no pair has shown nothing: it does not hold. */
export function holds(
  tallies: readonly Tally[],
  trials: readonly DelayTrial[],
  folded: readonly FoldedTrial[],
): boolean {
  const { made, wrong } = sumOf(tallies);
  const told = trials.flatMap((trial) => trial.told);
  const isHeld = told.filter((one) => one.isHeld).length >= 0.95 * told.length;
  const isSound = folded.every(({ accused }) => accused.length === 0);
  const areFew = folded.filter(({ isFalse }) => isFalse).length <= 0.05 * folded.length;
  const isSome = made > 0 && told.length > 0 && folded.length > 0;
  return isSome && wrong <= 0.01 * made && isHeld && isSound && areFew;
}
