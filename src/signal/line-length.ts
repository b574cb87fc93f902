// The way a signal goes up and down, without what noise and voltage steps add to it.

import { quantisationOf } from "./noise.ts";
import { runsOf } from "./runs.ts";
import type { Samples, Series } from "./series.ts";
import { percentiles } from "./statistics.ts";

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
export function lengthRuleFor(series: Series, noise: number): LengthRule {
  const { samples } = series;
  const step = quantisationOf(samples);
  if (!(noise > 0)) return { noise: 0, block: 1, step };
  const [low, high] = percentiles(samples, [0.05, 0.95]);
  const swing = high! - low! - 2 * 1.645 * noise;
  const { ways } = zigzag(samples, Math.max(reach(samples.length) * noise, swing / 2));
  const most = Math.max(1, Math.floor(samples.length / Math.max(1, ways) / blocksPerSwing));
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
export function lineLength(series: Series, { noise, block, step }: LengthRule): LineLength {
  const sharp = noise < step / 2 ? step : 0;
  const over = (width: number) => {
    const sigma = noise / Math.sqrt(width);
    const unseen = Math.max(reach(series.samples.length / width) * sigma, 1.1 * sharp);
    const { way, ways } = overRuns(series, width, unseen);
    const gained = Math.min(way, 2 * sigma * ways);
    return { length: way - gained, doubt: gained + sharp * ways, ways, unseen };
  };
  const [fine, coarse] = [over(block), over(2 * block)];
  const { length, doubt, ways, unseen } = fine;
  const tips = Math.max(0, length - coarse.length);
  return { length, least: Math.max(0, length - doubt), most: length + doubt + tips, ways, unseen };
}

interface Way {
  readonly way: number;
  readonly ways: number;
}

function overRuns(series: Series, block: number, least: number): Way {
  const runs = runsOf(series);
  let [way, ways] = [0, 0];
  for (let r = 0; r < runs.length; r += 2) {
    const from = runs[r]!;
    const count = Math.floor((runs[r + 1]! - from) / block);
    const part = zigzag(meansOf(series.samples.subarray(from, from + count * block), block), least);
    way += part.way;
    ways += part.ways;
  }
  return { way, ways };
}

/** Of block after block; the samples themselves where a block is one of them. */
function meansOf(samples: Samples, block: number): Samples {
  if (block === 1) return samples;
  const means = new Float64Array(samples.length / block);
  for (let k = 0, i = 0; k < means.length; k++) {
    let sum = 0;
    for (const end = i + block; i < end; i++) sum += samples[i]!;
    means[k] = sum / block;
  }
  return means;
}

/** Way from turn to turn, a turn being one by more than `least`; the two ends count as turns where anything moves. */
function zigzag(values: Samples, least: number): Way {
  let [low, high] = [Infinity, -Infinity];
  let [way, ways, side] = [0, 0, 0];
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
  return side === 0 ? { way: 0, ways: 0 } : { way: way + (high - low), ways };
}
