// Lowest and highest of many samples.

import { onceOf } from "../series/once.ts";
import { batchesOf } from "../series/reel.ts";
import type { AnySamples, Samples } from "../series/series.ts";

/**
 * Lowest and highest finite sample; [Infinity, -Infinity] where there is none.
 *
 * @param samples  any length, one unit; NaN and infinite ones are skipped.
 */
export const extremesOf = onceOf((samples: AnySamples): readonly [low: number, high: number] => {
  let low = Infinity;
  let high = -Infinity;
  for (const batch of batchesOf(samples)) {
    const [lowest, highest] = extremesWithin(batch);
    low = Math.min(low, lowest);
    high = Math.max(high, highest);
  }
  return [low, high];
});

/** Index of the first sample of a value; -1 without. */
export function placeOf(samples: AnySamples, value: number): number {
  let at = 0;
  for (const batch of batchesOf(samples)) {
    const place = batch.indexOf(value);
    if (place >= 0) return at + place;
    at += batch.length;
  }
  return -1;
}

function extremesWithin(samples: Samples): [low: number, high: number] {
  // Two at a time, which need not wait for each other.
  const odd = samples.length % 2;
  let low = odd === 1 ? samples[0]! : Infinity;
  let high = odd === 1 ? samples[0]! : -Infinity;
  let lowToo = low;
  let highToo = high;
  for (let i = odd; i < samples.length; i += 2) {
    low = Math.min(low, samples[i]!);
    high = Math.max(high, samples[i]!);
    lowToo = Math.min(lowToo, samples[i + 1]!);
    highToo = Math.max(highToo, samples[i + 1]!);
  }
  const extremes: [number, number] = [Math.min(low, lowToo), Math.max(high, highToo)];
  return extremes[0] > -Infinity && extremes[1] < Infinity ? extremes : extremesAmong(samples);
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
