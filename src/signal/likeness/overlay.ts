// Where one recording lies on the other's time: the shift at which all that both hold runs most alike, sought over all shifts.

import { correlate } from "../numbers/fourier.ts";
import type { Seconds } from "../numbers/units.ts";
import { onGrid } from "../series/resample.ts";
import { countOf, type Series, timeAt } from "../series/series.ts";
import { usualStep } from "../series/usual-step.ts";

export interface Overlay {
  /** Time in the first of each pair = time in the second + shift; to about `step`. */
  readonly shift: Seconds;
  readonly step: Seconds;
  /** Mean correlation of the pairs there, -1 … 1. */
  readonly likeness: number;
  /** Distance to another shift that fits nearly as well; null where there is none. */
  readonly ambiguousBy: Seconds | null;
}

export type OverlayPair = readonly [Series, Series];

/** Longest grid, points. */
const mostPoints = 1 << 15;
/** Less of the shorter recording under the longer one than this says nothing. */
const leastShare = 1 / 3;
/** A part that moves less than this share of its whole, in variance, says nothing. */
const stillShare = 0.02;
/** A peak this high beside the highest is as good an answer, if the score falls to half of it between the two. */
const rival = 0.8;
/** Correlations are scaled to this, so that 1 counts for much and not for everything. */
const mostAlike = 0.99;

/**
 * The shift at which the pairs, all together, run most alike: at every shift the correlation of what overlaps there, each
 * pair's turned by atanh and weighed by the root of the overlap (Fisher's z), so that a short overlap must be better.
 *
 * @param pairs the same quantity in one recording and the other; gaps and NaN are left out of every sum.
 * @returns null where nothing overlaps for long enough, or nothing moves.
 */
export function bestOverlay(pairs: readonly OverlayPair[]): Overlay | null {
  const known = pairs.filter((pair) => pair.every(({ time }) => countOf(time) >= 4));
  if (known.length === 0) return null;
  const [mine, theirs] = [extentOf(known.map(([one]) => one)), extentOf(known.map(([, other]) => other))];
  const coarser = Math.max(...known.flat().map(({ time }) => usualStep(time)));
  const longest = Math.max(mine.to - mine.from, theirs.to - theirs.from);
  const step = Math.max(coarser / 2, longest / mostPoints);
  const count = Math.floor(longest / step) + 1;
  const likenesses = known.map(([one, other]) => {
    const at = onGrid(one, { start: mine.from, step, count });
    return likenessAt(onGrid(other, { start: theirs.from, step, count }), at);
  });
  const scores = Float64Array.from({ length: 2 * count - 1 }, (_, k) =>
    likenesses.reduce((sum, { r, overlap }) => sum + Math.atanh(mostAlike * r[k]!) * Math.sqrt(overlap[k]!), 0),
  );
  const peak = scores.indexOf(Math.max(...blocksOf(scores)));
  if (!(scores[peak]! > 0)) return null;
  const told = likenesses.filter(({ r }) => r[peak] !== 0);
  return {
    shift: mine.from - theirs.from + (peak - (count - 1)) * step,
    step,
    likeness: told.reduce((sum, { r }) => sum + r[peak]!, 0) / told.length,
    ambiguousBy: nearestRival(scores, peak, step),
  };
}

function extentOf(all: readonly Series[]): { readonly from: Seconds; readonly to: Seconds } {
  return {
    from: Math.min(...all.map(({ time }) => timeAt(time, 0))),
    to: Math.max(...all.map(({ time }) => timeAt(time, countOf(time) - 1))),
  };
}

interface Likeness {
  /** Correlation at each shift; 0 where too little overlaps or moves. */
  readonly r: Float64Array;
  /** Points that both know. */
  readonly overlap: Float64Array;
}

/** Pearson's correlation of b[i + k] with a[i], k = 1 - n … n - 1, each over what both know there. */
function likenessAt(a: Float64Array, b: Float64Array): Likeness {
  const most = a.length - 1;
  const [x, y] = [standard(a), standard(b)];
  const sum = (left: Float64Array, right: Float64Array) => correlate(left, right, most);
  const overlap = sum(x.known, y.known);
  const [sx, sy, sxy] = [sum(x.values, y.known), sum(x.known, y.values), sum(x.values, y.values)];
  const [sxx, syy] = [sum(x.squares, y.known), sum(x.known, y.squares)];
  const least = leastShare * Math.min(x.count, y.count);
  const r = overlap.map((n, k) => {
    if (n < Math.max(4, least)) return 0;
    const [vx, vy] = [sxx[k]! / n - (sx[k]! / n) ** 2, syy[k]! / n - (sy[k]! / n) ** 2];
    return vx < stillShare || vy < stillShare ? 0 : (sxy[k]! / n - (sx[k]! * sy[k]!) / n ** 2) / Math.sqrt(vx * vy);
  });
  return { r, overlap: overlap.map((n) => Math.max(0, n)) };
}

/** Mean 0 and variance 1 over what is known, 0 elsewhere, so that sums hold no large numbers. */
function standard(values: Float64Array) {
  const known = values.map((value) => (Number.isNaN(value) ? 0 : 1));
  const count = known.reduce((sum, one) => sum + one, 0);
  const filled = values.map((value) => (Number.isNaN(value) ? 0 : value));
  const mean = filled.reduce((sum, value) => sum + value, 0) / count;
  const variance = filled.reduce((sum, value, i) => sum + known[i]! * (value - mean) ** 2, 0) / count;
  const unit = variance > 0 ? 1 / Math.sqrt(variance) : 0;
  const scaled = filled.map((value, i) => known[i]! * (value - mean) * unit);
  return { known, count, values: scaled, squares: scaled.map((value) => value ** 2) };
}

/** Highest of each block: a spread over tens of thousands of arguments would overflow the stack. */
function blocksOf(values: Float64Array): number[] {
  const block = 1 << 12;
  return Array.from({ length: Math.ceil(values.length / block) }, (_, b) =>
    Math.max(...values.subarray(b * block, (b + 1) * block)),
  );
}

/** Distance from the peak to the nearest other place that is nearly as high, the score having dipped between; null: none. */
function nearestRival(scores: Float64Array, peak: number, step: Seconds): Seconds | null {
  const found = ([1, -1] as const).flatMap((way) => {
    let dipped = false;
    for (let k = peak + way; k >= 0 && k < scores.length; k += way) {
      dipped ||= scores[k]! < 0.5 * scores[peak]!;
      if (!dipped || scores[k]! < rival * scores[peak]!) continue;
      while (scores[k + way]! > scores[k]!) k += way;
      return [Math.abs(k - peak) * step];
    }
    return [];
  });
  return found.length === 0 ? null : Math.min(...found);
}
