// The stretches of samples that hang together: nothing is ever measured from one into the next.

import { gapLimit, type Series } from "./series.ts";

/**
 * Runs of samples that hang together: finite, and no step between neighbours above the gap limit.
 *
 * @returns pairs of indices, half-open: [from0, to0, from1, to1, …]. Runs of a single sample are included.
 */
export function runsOf(series: Series): Int32Array {
  const { samples, time } = series;
  const stamps = time.kind === "stamped" ? time.stamps : null;
  const limit = gapLimit(time);
  const edges: number[] = [];
  let open = false;
  for (let i = 0; i < samples.length; i++) {
    const finite = Math.abs(samples[i]!) < Infinity;
    if (open && (!finite || (stamps !== null && stamps[i]! - stamps[i - 1]! > limit))) {
      edges.push(i);
      open = false;
    }
    if (finite && !open) {
      edges.push(i);
      open = true;
    }
  }
  if (open) edges.push(samples.length);
  return Int32Array.from(edges);
}
