// How much of the rear's movement is at the front's own frequency, cycle by cycle.

import type { Crossings } from "../../signal/edges/crossings.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { partOver, samplesOver } from "../../signal/series/reel.ts";
import { type AnySeries, indexAt, type Samples } from "../../signal/series/series.ts";
import { sumOf } from "../../signal/series/sums.ts";

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
  return sumOf(part, 0, part.length) / part.length;
}

/** Unit per s; 0 where a neighbour is missing. */
function slopeAt(cycles: readonly Cycle[], means: readonly number[], k: number): number {
  const [before, after] = [cycles[k - 1], cycles[k + 1]];
  if (!before || !after || before.to !== cycles[k]!.from || after.from !== cycles[k]!.to) return 0;
  const slope = (2 * (means[k + 1]! - means[k - 1]!)) / (after.from + after.to - before.from - before.to);
  return Number.isFinite(slope) ? slope : 0;
}

/**
 * By least squares of a constant and the harmonic, so that a cycle that is no whole number of samples lets nothing over.
 */
function energyOver(series: AnySeries, { from, to }: Cycle, slope: number): number {
  const [start, stop] = [indexAt(series.time, from), indexAt(series.time, to)];
  const n = stop - start;
  if (n < 4) return NaN;
  const { series: part, at } = partOver(series, start, stop);
  const pace = (2 * Math.PI) / (to - from);
  const sums = new HarmonicSums();
  const { time } = part;
  if (time.kind === "even") sums.takeEven(part.samples, time, { first: start - at, end: stop - at, from, pace, slope });
  else sums.takeStamped(part.samples, time.stamps, { first: start - at, end: stop - at, from, pace, slope });
  return sums.energy(n);
}

/** Samples [first, end) of a cycle that began at `from`, s; radians per s; and the drift that is taken off, unit per s. */
interface CycleSamples {
  readonly first: number;
  readonly end: number;
  readonly from: Seconds;
  readonly pace: number;
  readonly slope: number;
}

/** So many samples are laid over the harmonic of one run of angles, which is then turned to where they lie. */
const turned = 64;
const [cosines, sines] = [new Float64Array(turned), new Float64Array(turned)];

/** Sums over the first angles alone. */
function anglesOf(count: number) {
  let c = 0;
  let s = 0;
  let cc = 0;
  let cs = 0;
  for (let j = 0; j < count; j++) {
    const [cos, sin] = [cosines[j]!, sines[j]!];
    c += cos;
    s += sin;
    cc += cos * cos;
    cs += cos * sin;
  }
  return { count, c, s, cc, cs };
}

/** Sums of the harmonic's cosine and sine, of their products, and of both times the samples. */
class HarmonicSums {
  #c = 0;
  #s = 0;
  #cc = 0;
  #cs = 0;
  #ss = 0;
  #y = 0;
  #yc = 0;
  #ys = 0;

  takeStamped(samples: Samples, stamps: Float64Array, { first, end, from, pace, slope }: CycleSamples): void {
    for (let i = first; i < end; i++) {
      const since = stamps[i]! - from;
      const [cos, sin] = [Math.cos(pace * since), Math.sin(pace * since)];
      const value = samples[i]! - slope * since;
      this.#addAngle(cos, sin);
      this.#y += value;
      this.#yc += value * cos;
      this.#ys += value * sin;
    }
  }

  /** With even steps the angles of each run of samples are those of the first run, turned: no sample waits for the one before. */
  takeEven(
    samples: Samples,
    { start, step }: { readonly start: Seconds; readonly step: Seconds },
    { first, end, from, pace, slope }: CycleSamples,
  ): void {
    const turn = pace * step;
    for (let j = 0; j < turned; j++) {
      cosines[j] = Math.cos(j * turn);
      sines[j] = Math.sin(j * turn);
    }
    const whole = anglesOf(turned);
    for (let i = first; i < end; i += turned) {
      const since = start + i * step - from;
      const count = Math.min(turned, end - i);
      let y = 0;
      let yc = 0;
      let ys = 0;
      for (let j = 0; j < count; j++) {
        const value = samples[i + j]! - slope * (since + j * step);
        y += value;
        yc += value * cosines[j]!;
        ys += value * sines[j]!;
      }
      this.#turnTo(pace * since, { ...(count === turned ? whole : anglesOf(count)), y, yc, ys });
    }
  }

  #addAngle(cos: number, sin: number): void {
    this.#c += cos;
    this.#s += sin;
    this.#cc += cos * cos;
    this.#cs += cos * sin;
    this.#ss += sin * sin;
  }

  /** Adds the sums of a run whose angles began at 0, as if they had begun at `angle`. */
  #turnTo(angle: number, run: Readonly<Record<"count" | "y" | "yc" | "ys" | "c" | "s" | "cc" | "cs", number>>): void {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const ss = run.count - run.cc;
    this.#c += cos * run.c - sin * run.s;
    this.#s += sin * run.c + cos * run.s;
    this.#cc += cos * cos * run.cc - 2 * cos * sin * run.cs + sin * sin * ss;
    this.#ss += sin * sin * run.cc + 2 * cos * sin * run.cs + cos * cos * ss;
    this.#cs += cos * sin * (run.cc - ss) + (cos * cos - sin * sin) * run.cs;
    this.#y += run.y;
    this.#yc += cos * run.yc - sin * run.ys;
    this.#ys += sin * run.yc + cos * run.ys;
  }

  /** Of the harmonic of n samples, unit squared. */
  energy(n: number): number {
    const [c, s] = [this.#c, this.#s];
    const [a, b, d] = [this.#cc - (c * c) / n, this.#cs - (c * s) / n, this.#ss - (s * s) / n];
    const [p, q] = [this.#yc - (this.#y * c) / n, this.#ys - (this.#y * s) / n];
    const rest = a * d - b * b;
    const [real, imaginary] = [(d * p - b * q) / rest, (a * q - b * p) / rest];
    return (real * real + imaginary * imaginary) / 4;
  }
}
