// From which step on two stamps no longer hang together: the rule for holes in a recording.

import type { Seconds } from "./units.ts";

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
    limit = gapFactor * highStep(stamps);
    found.set(stamps, limit);
  }
  return limit;
}

/** 90th percentile of the steps, at the upper edge of its bin of 1/32 octave: exponent and top five bits of the fraction. */
function highStep(stamps: Float64Array): Seconds {
  const number = new Float64Array(1);
  const bits = new Uint32Array(number.buffer);
  const counts = new Uint32Array(1 << 16);
  let total = 0;
  for (let i = 1; i < stamps.length; i++) {
    number[0] = stamps[i]! - stamps[i - 1]!;
    if (!(number[0] > 0)) continue;
    counts[bits[1]! >>> 15]!++;
    total++;
  }
  if (total === 0) return Infinity;
  let left = 0.1 * total;
  let bin = counts.length - 1;
  while (bin > 0 && left >= counts[bin]!) left -= counts[bin--]!;
  bits[1] = (bin + 1) << 15;
  bits[0] = 0;
  return number[0]!;
}
