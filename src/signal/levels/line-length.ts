// The way a signal goes up and down, without what noise and voltage steps add to it.

import { batchesOf, stretchesOf } from "../series/reel.ts";
import { runsOf } from "../series/runs.ts";
import type { AnySeries, Samples } from "../series/series.ts";
import { quantisationOf } from "../statistics/quantisation.ts";
import { percentiles } from "../statistics/statistics.ts";

export interface LineLength {
  /** Sum of the ways from turn to turn, in the unit of the samples; 0 where nothing moves, or no two samples hang together. */
  readonly length: number;
  /** Between these it lies, moves smaller than `unseen` apart. */
  readonly least: number;
  readonly most: number;
  /** Ways from one turn to the next that it adds up. */
  readonly ways: number;
  /** A move smaller than this does not count. */
  readonly unseen: number;
}

export interface LengthRule {
  /** Standard deviation of the noise; 0 where the samples are taken as they are. */
  readonly noise: number;
  /** Samples averaged before turns are looked for; `lengthRuleFor` chooses it. */
  readonly block: number;
  /** Step of the values; 0 where there is none. */
  readonly step: number;
}

/** Noise to a swing, from where averaging is worth while; and blocks to a swing, at least. */
const quiet = 1 / 100;
const blocksPerSwing = 20;
/**
 * So many samples to a block that noise is a hundredth of the swing, as far as twenty blocks are left to each swing.
 *
 * @param series  any length, one unit; read only. @param noise  deviation, in that unit, >= 0.
 * @returns block 1 where there is no noise.
 */
export function lengthRuleFor(series: AnySeries, noise: number): LengthRule {
  const { samples } = series;
  const step = quantisationOf(samples);
  if (!(noise > 0)) return { noise: 0, block: 1, step };
  const [low, high] = percentiles(samples, [0.05, 0.95]);
  const swing = high! - low! - 2 * 1.645 * noise;
  const zigzag = new Zigzag(Math.max(reach(samples.length) * noise, swing / 2));
  for (const batch of batchesOf(samples)) zigzag.take(batch);
  const most = Math.max(1, Math.floor(samples.length / Math.max(1, zigzag.done().ways) / blocksPerSwing));
  const wanted = swing > 0 ? Math.ceil((noise / (quiet * swing)) ** 2) : most;
  return { noise, block: Math.min(most, wanted), step };
}

/** What noise alone moves at most among so many values, in deviations: from the lowest to the highest. */
const reach = (count: number): number => 2 * Math.sqrt(2 * Math.log(Math.max(2, count)));

/**
 * Total way up and down: averaged over blocks, the way from each turn to the next. What turns back by no more than averaged
 * noise may, or by one voltage step, is no turn.
 *
 * @returns unit of the samples. NaN and gaps end a run; the runs add up.
 *
 * Bounds: a turn in noise is found too far out by up to 2 deviations, one of which is taken off; each turn is known to a
 * voltage step where noise is too small to blur it; and averaging, like sampling, cuts off tips, by no more than twice the
 * block does.
 */
export function lineLength(series: AnySeries, rule: LengthRule): LineLength {
  const { length, doubt, ways, unseen } = lengthOver(series, rule, rule.block);
  const tips = Math.max(0, length - lengthOver(series, rule, 2 * rule.block).length);
  return { length, least: Math.max(0, length - doubt), most: length + doubt + tips, ways, unseen };
}

/** The length alone, in half the time. */
export const plainLength = (series: AnySeries, rule: LengthRule): number => lengthOver(series, rule, rule.block).length;

function lengthOver(series: AnySeries, { noise, step }: LengthRule, width: number) {
  const sharp = noise < step / 2 ? step : 0;
  const sigma = noise / Math.sqrt(width);
  const unseen = Math.max(reach(series.samples.length / width) * sigma, 1.1 * sharp);
  const { way, ways } = overRuns(series, width, unseen);
  const gained = Math.min(way, 2 * sigma * ways);
  return { length: way - gained, doubt: gained + sharp * ways, ways, unseen };
}

interface Way {
  readonly way: number;
  readonly ways: number;
}

function overRuns(series: AnySeries, block: number, least: number): Way {
  const total = { way: 0, ways: 0 };
  const zigzag = new Zigzag(least);
  const means = new BlockMeans(block);
  for (const { series: part, at, from, to, end, isStart } of stretchesOf(series, runsOf(series))) {
    if (isStart) means.begin();
    zigzag.take(means.of(part.samples.subarray(from, to)));
    if (at + to < end) continue;
    const { way, ways } = zigzag.done();
    total.way += way;
    total.ways += ways;
  }
  return total;
}

/** Means of block after block of a run that comes piece by piece; the samples themselves where a block is one of them. */
class BlockMeans {
  readonly #block: number;
  #sum = 0;
  #count = 0;

  constructor(block: number) {
    this.#block = block;
  }

  begin(): void {
    this.#sum = 0;
    this.#count = 0;
  }

  /** Of the blocks that end in these samples. */
  of(samples: Samples): Samples {
    const block = this.#block;
    if (block === 1) return samples;
    const means = new Float64Array(Math.floor((this.#count + samples.length) / block));
    let i = 0;
    for (let k = 0; k < means.length; k++) {
      let sum = this.#sum;
      for (const end = i + block - this.#count; i < end; i++) sum += samples[i]!;
      means[k] = sum / block;
      this.begin();
    }
    this.#count += samples.length - i;
    for (; i < samples.length; i++) this.#sum += samples[i]!;
    return means;
  }
}

/** Way from turn to turn, a turn being one by more than `least`; the two ends count as turns where anything moves. */
class Zigzag {
  readonly #least: number;
  #low = Infinity;
  #high = -Infinity;
  #way = 0;
  #ways = 0;
  #side = 0;

  constructor(least: number) {
    this.#least = least;
  }

  /** NaN is skipped. */
  take(values: Samples): void {
    const least = this.#least;
    let low = this.#low;
    let high = this.#high;
    let way = this.#way;
    let ways = this.#ways;
    let side = this.#side;
    for (let k = 0; k < values.length; k++) {
      const value = values[k]!;
      if (Number.isNaN(value)) continue;
      const up = value - low;
      const down = high - value;
      if (side <= 0 && up > least) {
        // A rise: what lies before it is a fall from the last top, or nothing at the start.
        if (side < 0) way += high - low;
        ways++;
        side = 1;
        high = value;
      } else if (side >= 0 && down > least) {
        if (side > 0) way += high - low;
        ways++;
        side = -1;
        low = value;
      }
      if (side >= 0 && value > high) high = value;
      if (side <= 0 && value < low) low = value;
    }
    this.#low = low;
    this.#high = high;
    this.#way = way;
    this.#ways = ways;
    this.#side = side;
  }

  /** What was taken since the last time. */
  done(): Way {
    const moved = this.#side !== 0;
    const found = moved ? { way: this.#way + (this.#high - this.#low), ways: this.#ways } : { way: 0, ways: 0 };
    this.#low = Infinity;
    this.#high = -Infinity;
    this.#way = 0;
    this.#ways = 0;
    this.#side = 0;
    return found;
  }
}
