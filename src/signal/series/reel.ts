// A series too long for memory: it is read part by part, and measured as if it were all there.

import type { Seconds } from "../numbers/units.ts";
import {
  type AnySamples,
  type AnySeries,
  gapLimit,
  indexAt,
  type PagedSamples,
  type PagedTime,
  type Reel,
  type Samples,
  type Series,
  slice,
  type TimeBase,
  timeAt,
} from "./series.ts";

/** Samples in memory, and the place of their first in the whole. */
export interface Part {
  readonly series: Series;
  readonly at: number;
}

const isPaged = (samples: AnySamples): samples is PagedSamples => "read" in samples;

/** Samples [from, to) in memory; a view where they are there already. Indices as in `Array.prototype.slice`, none negative. */
export function samplesOver(samples: AnySamples, from: number, to: number): Samples {
  if (!isPaged(samples)) return samples.subarray(from, to);
  const first = Math.min(from, samples.length);
  return samples.read(first, Math.min(Math.max(first, to), samples.length));
}

/** Sample `i`; undefined outside. */
export function sampleAt(samples: AnySamples, i: number): number | undefined {
  if (!isPaged(samples)) return samples[i];
  return i >= 0 && i < samples.length ? samples.read(i, i + 1)[0] : undefined;
}

/** A part in memory that holds at least samples [from, to): the series itself where that is in memory. */
export function partOver(series: AnySeries, from: number, to: number): Part {
  if (isInMemory(series)) return { series, at: 0 };
  const { time, samples } = series;
  const first = Math.max(0, from);
  const end = Math.min(to, samples.length);
  const base: TimeBase =
    time.kind === "even"
      ? { ...time, start: timeAt(time, first), count: end - first }
      : { ...unpaged(time), stamps: time.read(first, end) };
  return { series: { time: base, samples: samples.read(first, end) }, at: first };
}

function unpaged({ doubt, gapAbove }: PagedTime) {
  return { kind: "stamped", gapAbove, ...(doubt ? { doubt } : {}) } as const;
}

/** Samples in memory as those that are read: views, nothing is copied. @param onRead  told how many samples each time. */
export function reelOver({ time, samples }: Series, part: number, onRead: (count: number) => void): Reel {
  const read = (from: number, to: number) => {
    onRead(to - from);
    return samples.subarray(from, to);
  };
  const paged = { length: samples.length, part, read };
  if (time.kind === "even") return { time, samples: paged };
  const { stamps, kind: _, ...rest } = time;
  const readStamps = (from: number, to: number) => stamps.subarray(from, to);
  const place = (t: Seconds) => indexAt({ kind: "stamped", stamps }, t);
  return {
    time: { ...rest, kind: "paged", count: stamps.length, read: readStamps, place, gapAbove: gapLimit(time) },
    samples: paged,
  };
}

const isInMemory = (series: AnySeries): series is Series => !isPaged(series.samples);

/** All samples in order, in parts that lie in memory one at a time. */
export function* partsOf(series: AnySeries): Generator<Part> {
  if (isInMemory(series)) return yield { series, at: 0 };
  const { part, length } = series.samples;
  for (let at = 0; at < length; at += part) yield partOver(series, at, at + part);
}

/** The same without their time. */
export function* batchesOf(samples: AnySamples): Generator<Samples> {
  if (!isPaged(samples)) return yield samples;
  const { part, length } = samples;
  for (let at = 0; at < length; at += part) yield samplesOver(samples, at, at + part);
}

/** A stretch of one run within one part. */
export interface Stretch extends Part {
  /** Indices into `series`, half-open. */
  readonly from: number;
  readonly to: number;
  /** Number of the run, and where it ends in the whole. */
  readonly run: number;
  readonly end: number;
  /** False where the run goes on from the part before. */
  readonly isStart: boolean;
}

/** Samples 0, `stride`, 2 `stride`, …; all reads go forward. */
export function everyNth(samples: AnySamples, stride: number): Float64Array<ArrayBuffer> {
  const picked = new Float64Array(Math.ceil(samples.length / stride));
  let at = 0;
  let k = 0;
  for (const batch of batchesOf(samples)) {
    for (let i = k * stride - at; i < batch.length; i += stride) picked[k++] = batch[i]!;
    at += batch.length;
  }
  return picked;
}

/** Every run in order, cut where parts meet. @param runs  as `runsOf` gives them. */
export function* stretchesOf(series: AnySeries, runs: Float64Array): Generator<Stretch> {
  let r = 0;
  for (const part of partsOf(series)) {
    const last = part.at + part.series.samples.length;
    while (r < runs.length && runs[r]! < last) {
      const [first, end] = [runs[r]!, runs[r + 1]!];
      const from = Math.max(first, part.at) - part.at;
      yield { ...part, from, to: Math.min(end, last) - part.at, run: r / 2, end, isStart: first >= part.at };
      if (end > last) break;
      r += 2;
    }
  }
}

/** Samples from index `from` to `to`, read when they are wanted where they are not in memory. */
export function cutOut(series: AnySeries, from: number, to: number): AnySeries {
  // The whole stays itself, so that what is known of it is not looked for again.
  if (from <= 0 && to >= series.samples.length) return series;
  if (isInMemory(series)) return slice(series, from, to);
  const { time, samples } = series;
  const first = Math.min(Math.max(from, 0), samples.length);
  const count = Math.min(Math.max(to, first), samples.length) - first;
  const shifted = {
    length: count,
    part: samples.part,
    read: (a: number, b: number) => samples.read(first + a, first + b),
  };
  if (time.kind === "even") return { time: { ...time, start: timeAt(time, first), count }, samples: shifted };
  const read = (a: number, b: number) => time.read(first + a, first + b);
  const place = (t: Seconds) => Math.min(Math.max(time.place(t) - first, 0), count);
  return { time: { ...time, count, read, place }, samples: shifted };
}

/**
 * The samples with `from` <= time < `to`, in s.
 *
 * @param from, to  s; NaN counts as later than every sample.
 * @returns a view: no sample is copied. Empty when the span holds no sample.
 */
export function within(series: Series, from: Seconds, to: Seconds): Series;
export function within(series: AnySeries, from: Seconds, to: Seconds): AnySeries;
export function within(series: AnySeries, from: Seconds, to: Seconds): AnySeries {
  return cutOut(series, indexAt(series.time, from), indexAt(series.time, to));
}
