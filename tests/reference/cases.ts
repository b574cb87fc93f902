// One random case of each quantity: a signal of known truth, recorded, measured.

import { delayBetween } from "../../src/signal/combining/combine.ts";
import { frequencyOf } from "../../src/signal/cycles/cycles.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { transitionTime } from "../../src/signal/edges/transition-time.ts";
import { findTransitions } from "../../src/signal/edges/transitions.ts";
import { amplitudeOf } from "../../src/signal/levels/levels.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { noiseOf } from "../../src/signal/statistics/noise.ts";
import { disturbance, type Random, type Recorder, record, rows, someRecorder } from "./recorders.ts";
import {
  type BestDeviations,
  bestDeviations,
  type EdgeShape,
  edgeCrossing,
  edgeValue,
  type Meeting,
} from "./shapes.ts";

export interface Outcome {
  readonly cell: string;
  readonly reading: Pick<Reading, "value" | "low" | "high" | "grade">;
  readonly truth: number;
  /** Width of the narrowest interval anyone could give; NaN where none is defined. */
  readonly best: number;
  /** The same for one who does not know the form of an edge: any mixture of the three. */
  readonly bestOfAnyForm?: number;
  /** The same for one who takes a coarse edge for hidden. */
  readonly bestBySteps?: number;
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

type Best = Pick<Outcome, "best" | "bestOfAnyForm" | "bestBySteps">;

const hiddenBelow = 2;
const resolvedFrom = 10;

/**
 * What is always known of a hidden edge: `open`, 0.95 steps for one, 1.55 for the difference of two; 3.92 Cramer-Rao
 * deviations for others. Who does not know the form of an edge takes the narrower of the two, unless noise leaves more open
 * than the steps do.
 */
function bestOf({ ofForm, ofAnyForm }: BestDeviations, found: Resolution, open: Seconds): Best {
  if (found === "hidden") return { best: open };
  const [known, unknown] = [3.92 * ofForm, 3.92 * ofAnyForm];
  return {
    // Where one of two edges hides between samples, they tell nothing of it even to one who knows its form.
    best: finite(known),
    bestOfAnyForm: finite(known < open ? Math.min(open, unknown) : unknown),
    bestBySteps: found === "coarse" ? open : NaN,
  };
}

const finite = (best: number) => (Number.isFinite(best) ? best : NaN);

const atMiddle: readonly Meeting[] = [{ level: 0.45, weight: 1 }];

/** Deviations of an edge around time 0, from the samples near it. */
function deviationsOf(shape: EdgeShape, stamps: Float64Array, recorder: Recorder, meetings: readonly Meeting[]) {
  return bestDeviations(shape, near(stamps, shape), disturbance(recorder), meetings);
}

/** Samples for the information: far from the edge they tell nothing more than its levels. */
function near(stamps: Float64Array, shape: EdgeShape): Float64Array {
  return stamps.filter((t) => Math.abs(t) < 6 * shape.width);
}

type Resolution = "hidden" | "coarse" | "resolved";

/** By the samples within an edge; of several edges, whether all are alike. */
function resolution(shapes: readonly EdgeShape[], { rate }: Recorder): Resolution {
  const inside = shapes.map((shape) => samplesWithin(shape, rate));
  if (inside.every((samples) => samples < hiddenBelow)) return "hidden";
  return inside.every((samples) => samples >= resolvedFrom) ? "resolved" : "coarse";
}

export function crossingCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const shape = someEdge(shapes[Math.floor(3 * next.uniform())]!, next);
  const stamps = rows(recorder, ...someSpan(recorder, shape.width), next);
  const series = record((t) => edgeValue(shape, t), stamps, recorder, next);
  const crossings = findCrossings(series, { level: 0.45, hysteresis: hysteresisFor(series) });
  const isOne = crossings.times.length === 1;
  const found = resolution([shape], recorder);
  const [value, low, high] = isOne ? [crossings.times[0]!, crossings.low[0]!, crossings.high[0]!] : [null, null, null];
  return {
    cell: `crossing time, ${kind}, ${shape.kind}, ${found}`,
    reading: { value, low, high, grade: isOne ? "measured" : "not-resolvable" },
    truth: edgeCrossing(shape, 0.45),
    ...bestOf(deviationsOf(shape, stamps, recorder, atMiddle), found, 0.95 / recorder.rate),
  };
}

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
  const found = resolution([first, second], recorder);
  const deviations = [
    deviationsOf(first, stamps, recorder, atMiddle),
    deviationsOf(
      second,
      stamps.map((t) => t - shift),
      recorder,
      atMiddle,
    ),
  ];
  const both = (of: keyof BestDeviations) => Math.hypot(...deviations.map((deviation) => deviation[of]));
  return {
    cell: `delay, ${isAsked ? "polled in turn" : kind}, ${found}`,
    reading: isBoth
      ? delayBetween(edge(ca), edge(cb), { a: doubt, b: doubt })
      : { value: null, low: null, high: null, grade: "not-resolvable" },
    truth: delay,
    ...(isAsked ? { best: NaN } : bestOf({ ofForm: both("ofForm"), ofAnyForm: both("ofAnyForm") }, found, 1.55 * step)),
  };
}

export function transitionCase(kind: Kind, next: Random): Outcome {
  const recorder = someRecorder(kind, next);
  const shape = { ...someEdge(shapes[Math.floor(3 * next.uniform())]!, next), from: 0.85, to: 0.1 };
  const stamps = rows(recorder, ...someSpan(recorder, shape.width), next);
  const series = record((t) => edgeValue(shape, t), stamps, recorder, next);
  const found = resolution([shape], recorder);
  const meetings = [
    { level: 0.3, weight: 1 },
    { level: 0.6, weight: -1 },
  ];
  return {
    cell: `transition time, ${kind}, ${shape.kind}, ${found}`,
    reading: transitionTime(findTransitions(series, { from: 0.6, to: 0.3 })),
    truth: edgeCrossing(shape, 0.3) - edgeCrossing(shape, 0.6),
    // Both ends of a hidden one lie between the same two samples: no best is defined.
    ...(found === "hidden"
      ? { best: NaN }
      : bestOf(deviationsOf(shape, stamps, recorder, meetings), found, 1.55 / recorder.rate)),
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
