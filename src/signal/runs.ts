// The stretches of samples that hang together: nothing is ever measured from one into the next.

import { gapLimit, type Samples, type Series } from "./series.ts";

/**
 * Runs of samples that hang together: finite, and no step between neighbours above the gap limit.
 *
 * @param series  any length; read only.
 * @returns pairs of indices, half-open: [from0, to0, from1, to1, …]. Runs of a single sample are included.
 */
export function runsOf(series: Series): Int32Array {
  const { samples, time } = series;
  const limit = gapLimit(time);
  const edges: number[] = [];
  for (let i = 0; i < samples.length; ) {
    while (i < samples.length && !isFiniteAt(samples, i)) i++;
    if (i === samples.length) break;
    edges.push(i++);
    if (time.kind === "even") while (i < samples.length && isFiniteAt(samples, i)) i++;
    else {
      const { stamps } = time;
      while (i < samples.length && isFiniteAt(samples, i) && !(stamps[i]! - stamps[i - 1]! > limit)) i++;
    }
    edges.push(i);
  }
  return Int32Array.from(edges);
}

/** Neither NaN nor infinite: only then is the difference from itself 0. */
function isFiniteAt(samples: Samples, i: number): boolean {
  return samples[i]! - samples[i]! === 0;
}
