// The stretches of samples that hang together: nothing is ever measured from one into the next.

import type { Seconds } from "../numbers/units.ts";
import { onceOf } from "./once.ts";
import { partsOf } from "./reel.ts";
import { type AnySeries, gapLimit, type Samples, type Series, timeAt } from "./series.ts";
import { sumOf } from "./sums.ts";

/**
 * Runs of samples that hang together: finite, and no step between neighbours above the gap limit.
 *
 * @param series  any length; read only.
 * @returns pairs of indices, half-open: [from0, to0, from1, to1, …]. Runs of a single sample are included.
 */
export const runsOf = onceOf((series: AnySeries): Float64Array => {
  const limit = gapLimit(series.time);
  const edges: number[] = [];
  let before = NaN;
  for (const { series: part, at } of partsOf(series)) {
    const found = runsWithin(part, limit);
    const goesOn = found[0] === 0 && edges.at(-1) === at && at > 0 && !(timeAt(part.time, 0) - before > limit);
    if (goesOn) edges.pop();
    for (let k = goesOn ? 1 : 0; k < found.length; k++) edges.push(at + found[k]!);
    before = timeAt(part.time, part.samples.length - 1);
  }
  return Float64Array.from(edges);
});

function runsWithin({ samples, time }: Series, limit: Seconds): number[] {
  const edges: number[] = [];
  for (let i = 0; i < samples.length; ) {
    while (i < samples.length && !isFiniteAt(samples, i)) i++;
    if (i === samples.length) break;
    const end = endOfFinite(samples, i);
    edges.push(i);
    if (time.kind === "stamped") {
      const { stamps } = time;
      for (let k = i + 1; k < end; k++) if (stamps[k]! - stamps[k - 1]! > limit) edges.push(k, k);
    }
    edges.push(end);
    i = end;
  }
  return edges;
}

/** First and longest block that is looked at as a whole. */
const firstBlock = 16;
const longestBlock = 4096;

/**
 * First index after `from` whose sample is not finite; the length where all are. A finite sum shows at once that a whole
 * block is finite. Blocks grow from short ones, so that what a block in vain looks at twice is no longer than what was found.
 */
function endOfFinite(samples: Samples, from: number): number {
  let i = from;
  let block = firstBlock;
  while (i + block <= samples.length && Math.abs(sumOf(samples, i, i + block)) < Infinity) {
    i += block;
    block = Math.min(2 * block, longestBlock);
  }
  while (i < samples.length && isFiniteAt(samples, i)) i++;
  return i;
}

/** Neither NaN nor infinite: only then is the difference from itself 0. */
function isFiniteAt(samples: Samples, i: number): boolean {
  return samples[i]! - samples[i]! === 0;
}
