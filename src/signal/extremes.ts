// Lowest and highest of many samples.

import type { Samples } from "./series.ts";

/**
 * Lowest and highest finite sample; [Infinity, -Infinity] where there is none.
 *
 * @param samples  any length, one unit; NaN and infinite ones are skipped.
 */
export function extremesOf(samples: Samples): [low: number, high: number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < samples.length; i++) {
    low = Math.min(low, samples[i]!);
    high = Math.max(high, samples[i]!);
  }
  return low > -Infinity && high < Infinity ? [low, high] : extremesAmong(samples);
}

/** The same where some samples are missing or infinite: the quick way above then ends in NaN or infinity. */
function extremesAmong(samples: Samples): [low: number, high: number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < samples.length; i++) {
    const sample = samples[i]!;
    if (sample < low && sample > -Infinity) low = sample;
    if (sample > high && sample < Infinity) high = sample;
  }
  return [low, high];
}
