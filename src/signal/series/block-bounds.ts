// Lowest and highest of every 64 samples: where they show that nothing happens, the samples need not be looked at again.

import { onceOf } from "./once.ts";
import { batchesOf } from "./reel.ts";
import type { AnySamples, Samples } from "./series.ts";

/** Samples of a block. */
export const blockLength = 64;

/** Entry k is of samples [64 k, 64 k + 64) of the whole, the last of what is left. NaN where one of them is missing. */
export interface BlockBounds {
  readonly low: Samples;
  readonly high: Samples;
}

/**
 * Bounds of all blocks, found in one pass and kept as long as the samples live: a 32nd of them in memory.
 *
 * @param samples  any length, one unit; never changed later.
 */
export const blockBoundsOf = onceOf((samples: AnySamples): BlockBounds => {
  const count = Math.ceil(samples.length / blockLength);
  const [low, high] = [new Float64Array(count).fill(Infinity), new Float64Array(count).fill(-Infinity)];
  let at = 0;
  for (const batch of batchesOf(samples)) {
    for (let i = 0; i < batch.length; ) {
      const block = Math.floor((at + i) / blockLength);
      const end = Math.min(batch.length, (block + 1) * blockLength - at);
      let lowest = low[block]!;
      let highest = high[block]!;
      for (; i < end; i++) {
        const sample = batch[i]!;
        lowest = Math.min(lowest, sample);
        highest = Math.max(highest, sample);
      }
      low[block] = lowest;
      high[block] = highest;
    }
    at += batch.length;
  }
  return { low, high };
});

/**
 * Number of the block that begins with sample `i` of the whole; -1 where none does, or where it does not end before `end`.
 */
export function blockAt(i: number, end: number): number {
  return (i & (blockLength - 1)) === 0 && i + blockLength <= end ? i / blockLength : -1;
}
