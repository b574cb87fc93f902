// How far work has got, told as a share of 1.

import type { OnProgress } from "../protocol.ts";

const tellEvery = 200;

/** Tells shares a few times a second at most. */
export function seldom(onProgress: OnProgress): (share: number) => void {
  let told = 0;
  return (share) => {
    const now = performance.now();
    if (now - told < tellEvery) return;
    told = now;
    onProgress(share, 1);
  };
}

/** Progress of a part that begins at the share `from` of the whole, and ends at `to`. */
export const partOf =
  (onProgress: OnProgress, from: number, to: number): OnProgress =>
  (done, total) =>
    onProgress(from + ((to - from) * done) / total, 1);
