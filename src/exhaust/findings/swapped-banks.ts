// The two banks in each other's place: a trim answers to the front sensor that its bank's loop reads.

import { proportionBounds } from "../../signal/numbers/proportion.ts";
import { within } from "../../signal/series/reel.ts";
import { type Series, timeAt } from "../../signal/series/series.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";

/**
 * Whether each short trim that was recorded goes with the other bank's front sensor, and not with its own's: down while that one
 * is rich, up while it is lean. Where both banks switch in step, or rows are too far apart, it goes with both or with neither: no.
 *
 * Common practice, no source.
 */
export function banksLookSwapped(mine: BankChannels, other: BankChannels, limits: Limits): boolean {
  const [a, b] = [switchingFront(mine), switchingFront(other)];
  if (!a || !b) return false;
  const told = [
    { trim: mine.shortTrim, own: a, others: b },
    { trim: other.shortTrim, own: b, others: a },
  ].flatMap(({ trim, own, others }) => (trim ? [goesWithOthers({ trim: trim.series, own, others }, limits)] : []));
  return told.length > 0 && told.every(Boolean);
}

const switchingFront = ({ front }: BankChannels): Series | null => (front && front.unit === "V" ? front.series : null);

interface Loop {
  readonly trim: Series;
  readonly own: Series;
  readonly others: Series;
}

function goesWithOthers({ trim, own, others }: Loop, limits: Limits): boolean {
  const least = limits.bankTrims / 100;
  const withOwn = answers(trim, own, limits);
  const withOthers = answers(trim, others, limits);
  if (withOwn.of < fewest || withOthers.of < fewest) return false;
  return (
    proportionBounds(withOwn.hits, withOwn.of)[1] < least && proportionBounds(withOthers.hits, withOthers.of)[0] > least
  );
}

/** Moves of a trim in one direction that tell anything. */
const fewest = 20;

/** Of the moves of a trim in one direction, how many a front answers for: rich for most of a fall, lean for most of a rise. */
function answers(trim: Series, front: Series, { switchLevel }: Limits): { readonly hits: number; readonly of: number } {
  let [hits, of] = [0, 0];
  for (const { from, to, isFall } of movesOf(trim)) {
    const { samples } = within(front, timeAt(trim.time, from), timeAt(trim.time, to));
    let [rich, known] = [0, 0];
    for (const sample of samples) {
      if (!Number.isFinite(sample)) continue;
      known++;
      if (sample > switchLevel) rich++;
    }
    if (known === 0 || 2 * rich === known) continue;
    of++;
    if (2 * rich > known === isFall) hits++;
  }
  return { hits, of };
}

interface Move {
  /** Indices of the samples between which the trim goes one way, standing still at times. */
  readonly from: number;
  readonly to: number;
  readonly isFall: boolean;
}

function movesOf({ samples }: Series): Move[] {
  const moves: Move[] = [];
  let [from, last, way] = [0, 0, 0];
  for (let i = 1; i < samples.length; i++) {
    const now = Math.sign(samples[i]! - samples[last]!);
    if (now === 0 || Number.isNaN(now)) continue;
    if (way !== 0 && now !== way) {
      moves.push({ from, to: last, isFall: way < 0 });
      from = last;
    } else if (way === 0) from = last;
    way = now;
    last = i;
  }
  if (way !== 0) moves.push({ from, to: last, isFall: way < 0 });
  return moves;
}
