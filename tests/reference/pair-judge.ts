// What a comparison of simulated pairs is worth: the simulator's truth is the judge.

import { drawPair, type PairKind, simulatePair } from "../../sample-traces/simulator/pairs.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import { compareRecordings } from "../../src/exhaust/comparing/compare.ts";
import type { Comparison, Difference } from "../../src/exhaust/comparing/comparison.ts";
import { remembering } from "../../src/exhaust/terms/remembered.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";

export interface JudgedPair {
  readonly kind: PairKind;
  readonly seed: number;
  readonly comparison: Comparison;
  /** Of delay and stored oxygen, where truth and reading both exist: whether the bounds of the ratio hold the truth. */
  readonly held: readonly boolean[];
  /** Width of those bounds over the value. */
  readonly widths: readonly number[];
  /** Delay or stored oxygen told apart. */
  readonly leadTold: boolean;
  /** Share of all comparable readings told apart. */
  readonly toldShare: number;
  /** Said to be unfair for the air flow of the cut. */
  readonly unfair: boolean;
}

export function judgePair(kind: PairKind, seed: number): JudgedPair {
  const { suspect, reference, delayRatio, passedRatio } = simulatePair(drawPair(kind, seed));
  const [mine, theirs] = [suspect.capture, reference.capture].map((capture) => {
    const recall = remembering();
    return comparableOf(
      capture,
      analyse(capture, {}, () => {}, recall),
      {},
      recall,
    );
  });
  const comparison = compareRecordings(mine!, theirs!);
  const lead = [
    [find(comparison, "delay"), delayRatio],
    [find(comparison, "storedOxygen"), passedRatio],
  ] as const;
  const claims = lead.flatMap(([one, truth]) =>
    one && truth !== null && isClaim(one.ratio) ? [{ ...one, truth }] : [],
  );
  const known = comparison.differences.filter((one) => isClaim(one.ratio) || isClaim(one.difference));
  return {
    kind,
    seed,
    comparison,
    held: claims.map(({ ratio, truth }) => (ratio.low ?? -Infinity) <= truth && truth <= (ratio.high ?? Infinity)),
    widths: claims.map(({ ratio: { low, value, high } }) => (high! - low!) / value!).filter(Number.isFinite),
    leadTold: lead.some(([one]) => one && one.told !== "not-told-apart"),
    toldShare: known.filter(isTold).length / Math.max(1, known.length),
    unfair: comparison.fair.some(({ what, ok }) => what === "air flow in the fuel cut" && !ok),
  };
}

const find = ({ differences }: Comparison, name: string) => differences.find(({ reading }) => reading === name);
const isClaim = ({ low, high }: Reading) => low !== null || high !== null;
const isTold = ({ told }: Difference) => told !== "not-told-apart";

export const share = (list: readonly boolean[]): number => list.filter(Boolean).length / list.length;
