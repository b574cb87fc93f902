// What keeps single values of a channel from being taken at their word: noise, steps, and values sent twice.

import { samplesOver } from "../series/reel.ts";
import type { AnySamples } from "../series/series.ts";
import { eachChunk } from "./chunks.ts";
import { quantisationOf } from "./quantisation.ts";

/** What limits the reading of single values of a channel. */
export interface ValueLimits {
  /** Deviation of noise and quantisation together: sqrt(noise² + step² / 12), unit of the samples. */
  readonly sigma: number;
  /**
   * Step of the values as far as noise does not blur it, unit of the samples. Rounding errs alike in all samples of one
   * tread; noise parts them, and what stays alike has the deviation tread / sqrt 12, with tread = step exp(-2 pi² noise² /
   * step²), the first harmonic of the rounding error (Widrow & Kollár, Quantization Noise, 2008, ch. 4).
   */
  readonly tread: number;
  /** Equal neighbours are values sent again before they were refreshed. */
  readonly isStale: boolean;
}

/**
 * @param noise  deviation of the noise, unit of the samples, >= 0: `noiseOf` tells it.
 * @returns what limits single values; all 0 for a signal without noise or steps. NaN is skipped.
 */
export function valueLimitsOf({ samples }: { readonly samples: AnySamples }, noise: number): ValueLimits {
  const step = quantisationOf(samples);
  const tread = step > 0 ? step * Math.exp(-2 * (Math.PI * (noise / step)) ** 2) : 0;
  return { sigma: Math.sqrt(noise ** 2 + step ** 2 / 12), tread, isStale: repeatsAreStale(samples, noise, step) };
}

/**
 * Whether equal neighbours are stale values (sent again before they were refreshed) rather than chance.
 *
 * White noise of deviation sigma gives equal neighbours in step / (2 sqrt(pi) sigma) of all pairs; a signal without noise
 * may stand still for as long as it likes. So equal pairs tell of staleness only where they are twice as frequent as that.
 */
function repeatsAreStale(samples: AnySamples, sigma: number, step: number): boolean {
  if (sigma === 0) return false;
  let pairs = 0;
  let repeats = 0;
  eachChunk(samples.length, (from, to) => {
    const part = samplesOver(samples, from, to);
    for (let i = 1; i < part.length; i++) {
      if (Number.isNaN(part[i]! - part[i - 1]!)) continue;
      pairs++;
      if (part[i] === part[i - 1]) repeats++;
    }
  });
  const byChance = Math.min(1, step / (2 * Math.sqrt(Math.PI) * sigma));
  return repeats >= 2 && repeats > 2 * byChance * pairs;
}
