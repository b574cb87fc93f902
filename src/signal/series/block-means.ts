// Means of neighbouring samples, for a series that memory cannot hold as it is.

import { partsOf, samplesOver, stretchesOf } from "./reel.ts";
import { runsOf } from "./runs.ts";
import { type AnySeries, type Samples, type Series, type StampDoubt, timeAt } from "./series.ts";

/**
 * The mean of every `size` samples, at the middle of their times. No sample is left out, but what happens within a block is
 * no longer told apart: its half length is added to the doubt of the stamps, so that bounds of times which honour them still
 * hold; what moves much within a block is flattened.
 *
 * @param size  whole, >= 1.
 * @returns a series in memory, in the precision of the samples; it stops on the way, so that other work may go on between.
 *          Even steps stay even; NaN where all samples of a block are missing, else those missing are left out. Of stamped
 *          samples no block reaches over a gap or a missing sample, and a NaN lies between runs.
 */
export function blockMeans(series: AnySeries, size: number): Generator<void, Series> {
  return series.time.kind === "even" ? evenMeans(series, size) : stampedMeans(series, size);
}

function roomFor(count: number, { samples }: AnySeries): Samples {
  return samplesOver(samples, 0, 1) instanceof Float32Array ? new Float32Array(count) : new Float64Array(count);
}

const widened = (doubt: StampDoubt | undefined, half: number): StampDoubt => ({
  early: (doubt?.early ?? 0) + half,
  late: (doubt?.late ?? 0) + half,
});

function* evenMeans(series: AnySeries, size: number): Generator<void, Series> {
  const { start, step, doubt } = series.time as Extract<AnySeries["time"], { kind: "even" }>;
  const count = Math.ceil(series.samples.length / size);
  const means = roomFor(count, series);
  let sum = 0;
  let known = 0;
  let left = size;
  let block = 0;
  const close = () => {
    means[block++] = known === 0 ? NaN : sum / known;
    [sum, known, left] = [0, 0, size];
  };
  for (const { series: part } of partsOf(series)) {
    for (const sample of part.samples) {
      if (Math.abs(sample) < Infinity) {
        sum += sample;
        known++;
      }
      if (--left === 0) close();
    }
    yield;
  }
  if (left < size) close();
  const half = ((size - 1) / 2) * step;
  return {
    time: { kind: "even", start: start + half, step: step * size, count, doubt: widened(doubt, half) },
    samples: means,
  };
}

function* stampedMeans(series: AnySeries, size: number): Generator<void, Series> {
  const runs = runsOf(series);
  let count = Math.max(0, runs.length / 2 - 1);
  for (let r = 0; r < runs.length; r += 2) count += Math.ceil((runs[r + 1]! - runs[r]!) / size);
  const [stamps, means] = [new Float64Array(count), roomFor(count, series)];
  let at = 0;
  let sum = 0;
  let known = 0;
  let first = 0;
  let last = NaN;
  let longest = 0;
  const close = () => {
    stamps[at] = (first + last) / 2;
    means[at++] = sum / known;
    longest = Math.max(longest, last - first);
    known = 0;
  };
  for (const { series: part, at: place, from, to, end, isStart } of stretchesOf(series, runs)) {
    const { time, samples } = part;
    if (isStart && at > 0) {
      stamps[at] = (last + timeAt(time, from)) / 2;
      means[at++] = NaN;
    }
    for (let i = from; i < to; i++) {
      last = timeAt(time, i);
      if (known === 0) [sum, first] = [0, last];
      sum += samples[i]!;
      if (++known === size) close();
    }
    if (known > 0 && place + to === end) close();
    yield;
  }
  const doubt = widened(series.time.doubt, longest / 2);
  return { time: { kind: "stamped", stamps, doubt, gapAbove: Infinity }, samples: means };
}

/** Samples to a block, a power of two, that leave no more than `most` means of `count` samples; 1 where there are fewer. */
export function blockFor(count: number, most: number): number {
  return 2 ** Math.max(0, Math.ceil(Math.log2(count / most)));
}
