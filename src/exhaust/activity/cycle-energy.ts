// How much of the rear's movement is at the front's own frequency, cycle by cycle.

import type { Crossings } from "../../signal/edges/crossings.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { partOver, samplesOver } from "../../signal/series/reel.ts";
import { type AnySeries, indexAt, timeAt } from "../../signal/series/series.ts";

interface Cycle {
  readonly from: Seconds;
  readonly to: Seconds;
}

/**
 * Energy of the first harmonic over each full cycle of the front, for one channel.
 *
 * @param crossings  of the front; a cycle runs from one rise to the next in the same gap-free run.
 * @returns one number per cycle, unit squared; NaN where fewer than four samples of the channel lie in a cycle.
 *
 * Follows a frequency that wanders, where a fixed band would smear it. Drift is taken off first: the straight line between
 * the means of the cycles before and after. Form: the Fourier coefficient at one cycle, as in order tracking.
 */
export function cycleEnergies(series: AnySeries, crossings: Crossings): number[] {
  const cycles = cyclesOf(crossings);
  const means = cycles.map((cycle) => meanOver(series, cycle));
  return cycles.map((cycle, k) => energyOver(series, cycle, slopeAt(cycles, means, k)));
}

function cyclesOf({ times, rising, runs }: Crossings): Cycle[] {
  const cycles: Cycle[] = [];
  let before = -1;
  for (let k = 0; k < times.length; k++) {
    if (rising[k] !== 1) continue;
    if (before >= 0 && runs[before] === runs[k]) cycles.push({ from: times[before]!, to: times[k]! });
    before = k;
  }
  return cycles;
}

function meanOver({ time, samples }: AnySeries, { from, to }: Cycle): number {
  const part = samplesOver(samples, indexAt(time, from), indexAt(time, to));
  let sum = 0;
  for (const value of part) sum += value;
  return sum / part.length;
}

/** Unit per s; 0 where a neighbour is missing. */
function slopeAt(cycles: readonly Cycle[], means: readonly number[], k: number): number {
  const [before, after] = [cycles[k - 1], cycles[k + 1]];
  if (!before || !after || before.to !== cycles[k]!.from || after.from !== cycles[k]!.to) return 0;
  const slope = (2 * (means[k + 1]! - means[k - 1]!)) / (after.from + after.to - before.from - before.to);
  return Number.isFinite(slope) ? slope : 0;
}

/**
 * By least squares of a constant and the harmonic, so that a cycle that is no whole number of samples lets nothing over. With
 * even steps the harmonic is turned on from sample to sample: after n of them it is out by some n / 10^16.
 */
function energyOver(series: AnySeries, { from, to }: Cycle, slope: number): number {
  const [start, stop] = [indexAt(series.time, from), indexAt(series.time, to)];
  const n = stop - start;
  if (n < 4) return NaN;
  const { series: part, at } = partOver(series, start, stop);
  const { time, samples } = part;
  const [first, end] = [start - at, stop - at];
  let [c, s, cc, cs, ss, y, yc, ys] = [0, 0, 0, 0, 0, 0, 0, 0];
  const pace = (2 * Math.PI) / (to - from);
  const isEven = time.kind === "even";
  const turn = isEven ? pace * time.step : 0;
  const [turnCos, turnSin] = [Math.cos(turn), Math.sin(turn)];
  const begin = pace * (timeAt(time, first) - from);
  let [cos, sin] = [Math.cos(begin), Math.sin(begin)];
  for (let i = first; i < end; i++) {
    const since = timeAt(time, i) - from;
    if (!isEven) {
      cos = Math.cos(pace * since);
      sin = Math.sin(pace * since);
    }
    const value = samples[i]! - slope * since;
    c += cos;
    s += sin;
    cc += cos * cos;
    cs += cos * sin;
    ss += sin * sin;
    y += value;
    yc += value * cos;
    ys += value * sin;
    const next = cos * turnCos - sin * turnSin;
    sin = sin * turnCos + cos * turnSin;
    cos = next;
  }
  const [a, b, d] = [cc - (c * c) / n, cs - (c * s) / n, ss - (s * s) / n];
  const [p, q] = [yc - (y * c) / n, ys - (y * s) / n];
  const rest = a * d - b * b;
  const [real, imaginary] = [(d * p - b * q) / rest, (a * q - b * p) / rest];
  return (real * real + imaginary * imaginary) / 4;
}
