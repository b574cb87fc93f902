// Running median: takes out single wild samples and leaves edges where they are.

import type { Samples } from "../series/series.ts";

/**
 * Median of each sample and its neighbours.
 *
 * @param samples  length n. NaN marks a missing sample.
 * @param width    odd number of samples >= 1.
 * @returns new array, length n; NaN where the window leaves the signal or meets a NaN.
 * @throws RangeError unless width is odd and >= 1 (a caller's bug).
 *
 * The window is kept in rising order and changed by one sample a step: n * width at most. Source: J. W. Tukey,
 * Exploratory Data Analysis, 1977.
 */
export function medianFilter(samples: Samples, width: number): Float64Array<ArrayBuffer> {
  if (!(Number.isInteger(width) && width % 2 === 1 && width >= 1)) {
    throw new RangeError(`width must be odd and >= 1, got ${width}`);
  }
  const n = samples.length;
  const found = new Float64Array(n).fill(NaN);
  const reach = width >> 1;
  const window = new Float64Array(width);
  let filled = 0;
  for (let i = 0; i < n; i++) {
    const fresh = samples[i]!;
    if (Number.isNaN(fresh)) {
      filled = 0;
      continue;
    }
    if (filled < width) insert(window, filled++, fresh);
    else replace(window, samples[i - width]!, fresh);
    if (filled === width) found[i - reach] = window[reach]!;
  }
  return found;
}

/** Puts a value into the first `count` places, which are in rising order. */
function insert(window: Float64Array, count: number, value: number): void {
  let k = count;
  for (; k > 0 && window[k - 1]! > value; k--) window[k] = window[k - 1]!;
  window[k] = value;
}

function replace(window: Float64Array, old: number, fresh: number): void {
  let k = 0;
  while (window[k] !== old) k++;
  for (; k + 1 < window.length && window[k + 1]! < fresh; k++) window[k] = window[k + 1]!;
  for (; k > 0 && window[k - 1]! > fresh; k--) window[k] = window[k - 1]!;
  window[k] = fresh;
}
