// Samples enough to tell how values are spread: all of them, or chunks out of many.

import { samplesOver } from "../series/reel.ts";
import type { AnySamples } from "../series/series.ts";

/** Enough to know a deviation to 1 %; more samples are looked at in evenly spread chunks. */
export const most = 1 << 14;
const chunk = 1 << 9;

/** Finite samples of the whole, or of its chunks, in order of time. */
export function finiteChunks(samples: AnySamples): Float64Array {
  const found = new Float64Array(Math.min(samples.length, most));
  let count = 0;
  eachChunk(samples.length, (from, to) => {
    for (const sample of samplesOver(samples, from, to)) {
      if (Math.abs(sample) < Infinity && count < found.length) found[count++] = sample;
    }
  });
  return found.subarray(0, count);
}

/** The whole, or evenly spread chunks that together hold as many samples as are looked at. */
export function eachChunk(length: number, visit: (from: number, to: number) => void): void {
  if (length <= most) {
    visit(0, length);
    return;
  }
  const chunks = most / chunk;
  for (let k = 0; k < chunks; k++) {
    const from = Math.floor((k * (length - chunk)) / (chunks - 1));
    visit(from, from + chunk);
  }
}
