// Lowest and highest sample of every block, blocks of blocks, and so on: any range is bounded in a few hundred steps.

import type { Samples } from "../../src/signal/series/series.ts";

/** Samples in a block of the first level: 3 % more memory, and no more than 126 samples looked at beside whole blocks. */
export const blockSize = 64;
/** Blocks of one level that make a block of the next. */
export const fanOut = 16;

/** Bounds of whole blocks. An all-NaN block holds +Infinity, -Infinity. Same precision as the samples: nothing is rounded. */
interface Level {
  low: Samples;
  high: Samples;
  /** Whole blocks filled in so far. */
  count: number;
}

export class Pyramid {
  readonly levels: Level[] = [];
  /** Samples that stand in whole blocks of the first level. */
  private covered = 0;

  /** Bounds of `samples`; grows with them by `extend`. */
  constructor(samples?: Samples) {
    if (samples) this.extend(samples);
  }

  /** From the bounds of blocks kept earlier; the last may be of a block that is not full. */
  static ofBlocks(low: Samples, high: Samples): Pyramid {
    const pyramid = new Pyramid();
    pyramid.levels.push({ low, high, count: low.length });
    pyramid.covered = low.length * blockSize;
    pyramid.raise(low);
    return pyramid;
  }

  /** Bounds of blocks of `blockSize` samples; the last is of what is left over. Copies: made to be kept. */
  blocks(samples: Samples): { readonly low: Samples; readonly high: Samples } {
    const count = Math.ceil(samples.length / blockSize);
    const low = sameKind(samples, count);
    const high = sameKind(samples, count);
    const whole = this.levels[0]?.count ?? 0;
    low.set(this.levels[0]?.low.subarray(0, whole) ?? []);
    high.set(this.levels[0]?.high.subarray(0, whole) ?? []);
    const rest = new Float64Array(2);
    if (whole < count) {
      this.bounds(samples, whole * blockSize, samples.length, rest);
      low[whole] = rest[0]!;
      high[whole] = rest[1]!;
    }
    return { low, high };
  }

  /** Takes in what `samples` holds beyond what was taken in before. Earlier samples must not have changed. */
  extend(samples: Samples): void {
    const blocks = Math.floor(samples.length / blockSize);
    if (blocks === Math.floor(this.covered / blockSize)) return;
    const first = this.level(0, samples, blocks);
    for (let block = first.count; block < blocks; block++) foldSamples(samples, block, first);
    first.count = blocks;
    this.covered = blocks * blockSize;
    this.raise(samples);
  }

  /** Fills in the levels above the first. */
  private raise(samples: Samples): void {
    for (let above = 1; ; above++) {
      const below = this.levels[above - 1]!;
      const count = Math.floor(below.count / fanOut);
      if (count === 0) return;
      const level = this.level(above, samples, count);
      for (let block = level.count; block < count; block++) foldBlocks(below, block, level);
      level.count = count;
    }
  }

  private level(index: number, samples: Samples, wanted: number): Level {
    const old = this.levels[index];
    if (old && old.low.length >= wanted) return old;
    const room = Math.max(wanted, old ? old.low.length * 2 : 0);
    const level = { low: sameKind(samples, room), high: sameKind(samples, room), count: old?.count ?? 0 };
    if (old) {
      level.low.set(old.low);
      level.high.set(old.high);
    }
    this.levels[index] = level;
    return level;
  }

  /**
   * Lowest and highest of samples [from, to), NaN skipped; [+Infinity, -Infinity] where there is none.
   *
   * @param samples the samples this was built from, at least `to` of them; not looked at where from and to are multiples of
   *                `blockSize` that lie in whole blocks.
   * @param into    two places that take the answer.
   */
  bounds(samples: Samples, from: number, to: number, into: Float64Array): void {
    into[0] = Number.POSITIVE_INFINITY;
    into[1] = Number.NEGATIVE_INFINITY;
    let start = from;
    let end = to;
    if (end > this.covered) {
      // Samples after the last whole block.
      const tail = Math.max(start, this.covered);
      widen(samples, samples, tail, end, into);
      end = tail;
    }
    let size = blockSize;
    let low = samples;
    let high = samples;
    for (const level of this.levels) {
      const firstWhole = Math.min(end, Math.ceil(start / size) * size);
      widen(low, high, start, firstWhole, into);
      const lastWhole = Math.max(firstWhole, Math.min(Math.floor(end / size), level.count) * size);
      widen(low, high, lastWhole, end, into);
      if (firstWhole >= lastWhole) return;
      start = firstWhole / size;
      end = lastWhole / size;
      low = level.low;
      high = level.high;
      size = fanOut;
    }
    widen(low, high, start, end, into);
  }
}

/** What is known of blocks, each a block of `fanOut` of them; the last may be of fewer. */
export function coarser(blocks: Samples, keep: "lowest" | "highest" | "first"): Samples {
  const coarse = sameKind(blocks, Math.ceil(blocks.length / fanOut));
  for (let block = 0; block < coarse.length; block++) {
    let kept = blocks[block * fanOut]!;
    const end = keep === "first" ? 0 : Math.min(blocks.length, (block + 1) * fanOut);
    for (let i = block * fanOut + 1; i < end; i++)
      if (keep === "lowest" ? blocks[i]! < kept : blocks[i]! > kept) kept = blocks[i]!;
    coarse[block] = kept;
  }
  return coarse;
}

function widen(low: Samples, high: Samples, from: number, to: number, into: Float64Array): void {
  let lowest = into[0]!;
  let highest = into[1]!;
  for (let i = from; i < to; i++) {
    if (low[i]! < lowest) lowest = low[i]!;
    if (high[i]! > highest) highest = high[i]!;
  }
  into[0] = lowest;
  into[1] = highest;
}

function foldSamples(samples: Samples, block: number, into: Level): void {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const end = (block + 1) * blockSize;
  for (let i = block * blockSize; i < end; i++) {
    const value = samples[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  into.low[block] = low;
  into.high[block] = high;
}

function foldBlocks(below: Level, block: number, into: Level): void {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const end = (block + 1) * fanOut;
  for (let i = block * fanOut; i < end; i++) {
    if (below.low[i]! < low) low = below.low[i]!;
    if (below.high[i]! > high) high = below.high[i]!;
  }
  into.low[block] = low;
  into.high[block] = high;
}

function sameKind(samples: Samples, length: number): Samples {
  return samples instanceof Float32Array ? new Float32Array(length) : new Float64Array(length);
}
