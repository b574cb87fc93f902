// From which step on two stamps no longer hang together: the rule for holes in a recording.

import type { Seconds } from "../numbers/units.ts";

/** A step counts as a gap beyond this many times the 90th percentile of all steps. */
const gapFactor = 3;

/** Limits found so far. Stamps are never changed, so a limit stays true as long as its stamps live. */
const found = new WeakMap<Float64Array, Seconds>();

/**
 * Longest step between stamps that still joins two samples, s; Infinity where there is no step to tell from.
 *
 * @param stamps  s, in any order; read only, and never changed later: the limit is kept. NaN and falling steps are left out.
 *
 * Three times the 90th percentile of the steps. The percentile is taken high, so that the ordinary unevenness of a
 * polled log stays whole: steps that vary by half never reach it, exponentially distributed ones do so once in
 * exp(3 ln 10) = 1000. One or two rows lost leave no gap: their crossing is known to lie between the rows that are there.
 * Accurate to 3 % (the percentile is read from a histogram of logarithmic bins).
 */
export function longestStep(stamps: Float64Array): Seconds {
  let limit = found.get(stamps);
  if (limit === undefined) {
    const counts = new StepCounts();
    for (let i = 1; i < stamps.length; i++) counts.add(stamps[i]! - stamps[i - 1]!);
    limit = counts.longest;
    found.set(stamps, limit);
  }
  return limit;
}

/** How many steps of each length there were, in bins of 1/32 octave: exponent and top five bits of the fraction. */
export class StepCounts {
  static readonly bins = 1 << 16;
  private readonly number = new Float64Array(1);
  private readonly bits = new Uint32Array(this.number.buffer);
  private readonly counts = new Float64Array(StepCounts.bins);
  private total = 0;

  /** @param step  s; what is not above 0, or NaN, is left out. */
  add(step: Seconds, times = 1): void {
    if (!(step > 0)) return;
    this.counts[this.binOf(step)]! += times;
    this.total += times;
  }

  binOf(step: Seconds): number {
    this.number[0] = step;
    return this.bits[1]! >>> 15;
  }

  /** The bin below which all steps lie but a share, the longest; -1 without steps. */
  below(share: number): number {
    if (this.total === 0) return -1;
    let left = share * this.total;
    let bin = StepCounts.bins - 1;
    while (bin > 0 && left >= this.counts[bin]!) left -= this.counts[bin--]!;
    return bin;
  }

  /** s; Infinity for no bin. */
  upperEdge(bin: number): Seconds {
    if (bin < 0) return Infinity;
    this.bits[1] = (bin + 1) << 15;
    this.bits[0] = 0;
    return this.number[0]!;
  }

  /** Longest step that still joins two samples; see `longestStep`. */
  get longest(): Seconds {
    return gapFactor * this.upperEdge(this.below(0.1));
  }
}
