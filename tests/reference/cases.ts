// One random case of each quantity: a signal of known truth, recorded, measured.

import { delayBetween } from "../../src/signal/combine.ts";
import { findCrossings } from "../../src/signal/crossings.ts";
import { frequencyOf } from "../../src/signal/cycles.ts";
import { amplitudeOf } from "../../src/signal/levels.ts";
import { noiseOf } from "../../src/signal/noise.ts";
import type { Reading } from "../../src/signal/reading.ts";
import type { Series } from "../../src/signal/series.ts";
import { findTransitions, transitionTime } from "../../src/signal/transitions.ts";
import { disturbance, type Random, type Recorder, record, rows, someRecorder } from "./recorders.ts";
import { bestDeviation, type EdgeShape, edgeCrossing, edgeValue } from "./shapes.ts";

export interface Outcome {
  readonly cell: string;
  readonly reading: Pick<Reading, "value" | "low" | "high" | "grade">;
  readonly truth: number;
  /** Width of the narrowest interval anyone could give; NaN where none is defined. */
  readonly best: number;
  /** The same for one who knows the form of the whole record, where `best` is that of the definition alone. */
  readonly bestOfWhole?: number;
}

type Kind = Recorder["kind"];
const shapes = ["exponential", "ramp", "erf"] as const;

/** A lift-off-like fall or a rise, fast or slow. */
function someEdge(kind: EdgeShape["kind"], next: Random): EdgeShape {
  const low = 0.05 + 0.1 * next.uniform();
  const high = 0.75 + 0.15 * next.uniform();
  const width = kind === "ramp" ? next.between(0.04, 0.6) : next.between(0.01, 0.2);
  const [from, to] = next.uniform() < 0.5 ? [low, high] : [high, low];
  return { kind, from, to, width };
}

/** The band of the trade: h = max(0.05 V, 4 sigma). */
const hysteresisFor = (series: Series) => Math.max(0.05, 4 * noiseOf(series.samples));

/** A span around the edge; a polled log needs more rows. */
function someSpan({ kind, rate }: Recorder, width: number): [number, number] {
  const reach = kind === "polled" ? 15 / rate : 0.5;
  return [-reach - 2 * width, reach + 6 * width];
}

/** Samples within the edge: from 10 % to 90 % of its way. */
function samplesWithin(shape: EdgeShape, rate: number): number {
  const at = (share: number) => edgeCrossing(shape, shape.from + share * (shape.to - shape.from));
  return rate * (at(0.9) - at(0.1));
}

/** 95 % of the step for an edge that hides between two samples; 3.92 Cramer-Rao deviations for a resolved one. */
function bestForEdge(shape: EdgeShape, stamps: Float64Array, recorder: Recorder): number {
  if (samplesWithin(shape, recorder.rate) < 2) return 0.95 / recorder.rate;
  const target = (s: EdgeShape, place: number) => place + edgeCrossing(s, 0.45);
  return 3.92 * bestDeviation(shape, near(stamps, shape), disturbance(recorder), target);
}

/** Samples for the information: far from the edge they tell nothing more than its levels. */
function near(stamps: Float64Array, shape: EdgeShape): Float64Array {
  return stamps.filter((t) => Math.abs(t) < 6 * shape.width);
}

function resolution(shape: EdgeShape, recorder: Recorder): string {
  const inside = samplesWithin(shape, recorder.rate);
  return inside < 2 ? "hidden" : inside < 10 ? "coarse" : "resolved";
}

export function crossingCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const shape = someEdge(shapes[Math.floor(3 * next.uniform())]!, next);
  const stamps = rows(recorder, ...someSpan(recorder, shape.width), next);
  const series = record((t) => edgeValue(shape, t), stamps, recorder, next);
  const crossings = findCrossings(series, { level: 0.45, hysteresis: hysteresisFor(series) });
  const isOne = crossings.times.length === 1;
  const [value, low, high] = isOne ? [crossings.times[0]!, crossings.low[0]!, crossings.high[0]!] : [null, null, null];
  return {
    cell: `crossing time, ${kind}, ${shape.kind}, ${resolution(shape, recorder)}`,
    reading: { value, low, high, grade: isOne ? "measured" : "not-resolvable" },
    truth: edgeCrossing(shape, 0.45),
    best: bestForEdge(shape, stamps, recorder),
  };
}

/** Where one of two edges hides between samples, no information is left about it and no best is defined. */
const finite = (best: number) => (Number.isFinite(best) ? best : NaN);

export function delayCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const [first, second] = [someEdge("exponential", next), someEdge("erf", next)].map(
    (s) => ({ ...s, from: 0.8, to: 0.1 }) as EdgeShape,
  ) as [EdgeShape, EdgeShape];
  const delay = next.uniform() < 0.2 ? 0.02 * next.uniform() : next.between(0.05, 3);
  const shift = delay + edgeCrossing(first, 0.45) - edgeCrossing(second, 0.45);
  const [from, to] = someSpan(recorder, Math.max(first.width, second.width));
  const stamps = rows(recorder, from, to + delay, next);
  const step = 1 / recorder.rate;
  const isAsked = kind === "polled" && next.uniform() < 0.5;
  const [ageA, ageB] = [step * next.uniform(), step * next.uniform()];
  const a = record(
    (t) => edgeValue(first, t),
    stamps,
    recorder,
    next,
    () => (isAsked ? ageA : 0),
  );
  const b = record(
    (t) => edgeValue(second, t - shift),
    stamps,
    recorder,
    next,
    () => (isAsked ? ageB : 0),
  );
  const doubt = isAsked ? { early: step, late: 0 } : undefined;
  const [ca, cb] = [a, b].map((s) => findCrossings(s, { level: 0.45, hysteresis: hysteresisFor(s) }));
  const isBoth = ca!.times.length === 1 && cb!.times.length === 1;
  const edge = (c: typeof ca) => ({
    time: c!.times[0]!,
    low: c!.low[0]!,
    high: c!.high[0]!,
    deviation: c!.deviations[0]!,
  });
  const hidden = Math.max(samplesWithin(first, recorder.rate), samplesWithin(second, recorder.rate)) < 2;
  const target = (s: EdgeShape, place: number) => place + edgeCrossing(s, 0.45);
  const deviation = (s: EdgeShape, moved: number) =>
    bestDeviation(
      s,
      near(
        stamps.map((t) => t - moved),
        s,
      ),
      disturbance(recorder),
      target,
    );
  return {
    cell: `delay, ${isAsked ? "polled in turn" : kind}, ${hidden ? "hidden" : "resolved"}`,
    reading: isBoth
      ? delayBetween(edge(ca), edge(cb), { a: doubt, b: doubt })
      : { value: null, low: null, high: null, grade: "not-resolvable" },
    truth: delay,
    best: isAsked
      ? NaN
      : hidden
        ? 1.55 * step
        : finite(3.92 * Math.hypot(deviation(first, 0), deviation(second, shift))),
  };
}

export function transitionCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const shape = { ...someEdge(shapes[Math.floor(3 * next.uniform())]!, next), from: 0.85, to: 0.1 };
  const stamps = rows(recorder, ...someSpan(recorder, shape.width), next);
  const series = record((t) => edgeValue(shape, t), stamps, recorder, next);
  const span = (s: EdgeShape) => edgeCrossing(s, 0.3) - edgeCrossing(s, 0.6);
  const best = 3.92 * bestDeviation(shape, near(stamps, shape), disturbance(recorder), span);
  return {
    cell: `transition time, ${kind}, ${shape.kind}, ${resolution(shape, recorder)}`,
    reading: transitionTime(findTransitions(series, { from: 0.6, to: 0.3 })),
    truth: span(shape),
    best: samplesWithin(shape, recorder.rate) < 2 ? NaN : best,
  };
}

/** From the fewest up to so many more, in a record of about 60,000 samples at most. */
function someCycles(fewest: number, more: number, perSample: number, next: Random): number {
  return Math.max(fewest, Math.min(fewest + more * next.uniform() ** 2, 60_000 * perSample));
}

/** A sine, or a square wave whose half-periods vary by themselves. */
export function frequencyCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const isSine = next.uniform() < 0.5;
  const fastest = kind === "polled" ? recorder.rate / 5 : 5;
  const frequency = next.between(fastest / 20, fastest);
  const cycles = someCycles(4, 60, frequency / recorder.rate, next);
  const spread = isSine ? 0 : 0.1 * next.uniform();
  const signal = isSine
    ? (t: number) => 0.45 + 0.4 * Math.sin(2 * Math.PI * frequency * t)
    : squareWave(frequency, cycles + 4, spread, next);
  const stamps = rows(recorder, 0, cycles / frequency, next);
  const series = record(signal, stamps, recorder, next);
  const crossings = findCrossings(series, { level: 0.45, hysteresis: hysteresisFor(series) });
  return {
    cell: `frequency, ${kind}, ${isSine ? "sine" : "jittered square"}`,
    reading: frequencyOf(crossings, { series }),
    truth: frequency,
    best: frequencyBest(isSine, { frequency, cycles, spread }, recorder),
    bestOfWhole: isSine ? wholeSineBest({ frequency, cycles }, recorder) : NaN,
  };
}

/**
 * Best width for a frequency defined as (n - 1) / (last - first), whose truth is the mean frequency. A sine: both instants
 * as well as a fit of its phase to one period of samples around them tells, deviation sigma sqrt(2 / m) / slope, by one
 * who knows that its cycles do not vary. A jittered square: 3.92 s / sqrt n, or where the step is coarser, the two hidden
 * edges.
 */
function frequencyBest(
  isSine: boolean,
  { frequency, cycles, spread }: { frequency: number; cycles: number; spread: number },
  recorder: Recorder,
): number {
  const hidden = (1.55 * frequency ** 2) / cycles / recorder.rate;
  if (!isSine) return Math.max((3.92 * spread * frequency) / Math.sqrt(cycles), hidden);
  const instant =
    (disturbance(recorder) * Math.sqrt(2 / (recorder.rate / frequency))) / (0.4 * 2 * Math.PI * frequency);
  return (3.92 * Math.SQRT2 * instant * frequency ** 2) / cycles;
}

/**
 * Best width by one who knows that the whole record is one sine in white noise: 3.92 deviations of sqrt(6) sigma / (pi A T
 * sqrt n). Source: Cramer-Rao bound of a tone, Rife & Boorstyn, IEEE Trans. Inf. Theory 20 (1974) 591.
 */
function wholeSineBest({ frequency, cycles }: { frequency: number; cycles: number }, recorder: Recorder): number {
  const span = cycles / frequency;
  return (3.92 * Math.sqrt(6) * disturbance(recorder)) / (Math.PI * 0.4 * span * Math.sqrt(recorder.rate * span));
}

function squareWave(frequency: number, cycles: number, spread: number, next: Random): (t: number) => number {
  const edges = [(-1 - next.uniform()) / frequency];
  const half = 0.5 / frequency;
  for (let k = 0; k < 2 * cycles; k++) {
    edges.push(edges[k]! + Math.max(0.3 * half, half * (1 + spread * Math.SQRT2 * next.normal())));
  }
  return (t) => (lowerBound(edges, t) % 2 === 0 ? 0.1 : 0.8);
}

function lowerBound(sorted: readonly number[], t: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < t) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Swing of a sine from its 5th to its 95th percentile, 2 A sin(0.45 pi); of a square wave, its height. */
export function amplitudeCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const isSine = next.uniform() < 0.5;
  const frequency = kind === "polled" ? next.between(0.1, 2) : next.between(0.3, 5);
  const swing = next.between(0.1, 0.8);
  const phase = next.uniform();
  const cycles = someCycles(5, 40, frequency / recorder.rate, next);
  const signal = (t: number) => {
    const wave = Math.sin(2 * Math.PI * (frequency * t + phase));
    return 0.45 + (swing / 2) * (isSine ? wave : Math.sign(wave));
  };
  const stamps = rows(recorder, 0, cycles / frequency, next);
  const series = record(signal, stamps, recorder, next);
  return {
    cell: `amplitude, ${kind}, ${isSine ? "sine" : "square"}`,
    reading: amplitudeOf(series),
    truth: isSine ? swing * Math.sin(0.45 * Math.PI) : swing,
    best: NaN,
  };
}

/** Each with the share of the trials it takes: crossings and transitions fall into three times as many cells. */
export const cases = [
  { run: crossingCase, share: 1 },
  { run: delayCase, share: 0.5 },
  { run: transitionCase, share: 1 },
  { run: frequencyCase, share: 0.65 },
  { run: amplitudeCase, share: 0.65 },
] as const;
