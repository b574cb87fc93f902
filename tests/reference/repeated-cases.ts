// Random cases of what repeats: the median over events, the mean, times of a cycle, share of time, and lag; truth in closed form.

import { medianOf } from "../../src/signal/combining/combine.ts";
import { dutyOf } from "../../src/signal/cycles/cycles.ts";
import { medianHalfCycleOf, medianPeriodOf } from "../../src/signal/cycles/median-period.ts";
import { findCrossings } from "../../src/signal/edges/crossings.ts";
import { meanOf } from "../../src/signal/levels/mean.ts";
import { lagBetween } from "../../src/signal/likeness/lag.ts";
import { atLeast, measured } from "../../src/signal/numbers/reading.ts";
import type { Series } from "../../src/signal/series/series.ts";
import { noiseOf } from "../../src/signal/statistics/noise.ts";
import type { Outcome } from "./cases.ts";
import { type Random, type Recorder, record, rows, someRecorder } from "./recorders.ts";

type Kind = Recorder["kind"];

/**
 * Delays of 2 to 14 lift-offs, up to half of which the cut ended before the rear fell. Truth: the median of the distribution that they
 * are drawn from, lognormal, normal or uniform, with a spread of 5 to 35 %.
 */
export function medianCase(kind: Kind, next: Random): Outcome {
  const count = 2 + Math.floor(13 * next.uniform());
  const truth = next.between(0.2, 4);
  const spread = 0.05 + 0.3 * next.uniform();
  const form = Math.floor(3 * next.uniform());
  const draw = () => {
    if (form === 0) return truth * Math.exp(spread * next.normal());
    return truth * Math.max(0.05, 1 + spread * (form === 1 ? next.normal() : 2 * next.uniform() - 1));
  };
  const delays = Array.from({ length: count }, draw);
  const open = 1 + Math.floor(next.uniform() * (count / 2 - 0.5));
  const longest = delays.toSorted((a, b) => a - b)[count - 1 - open]!;
  const half = kind === "polled" ? 0.15 : 0.005;
  const readings = delays.map((delay) => {
    const seen = delay + half * (2 * next.uniform() - 1);
    return delay > longest
      ? atLeast(longest + (delay - longest) * next.uniform(), "s")
      : measured(seen, [seen - half, seen + half], "s");
  });
  const cell = count < 6 ? "2 to 5" : "6 to 14";
  return { cell: `median with open events, ${kind}, ${cell}`, reading: medianOf(readings, "s"), truth, best: NaN };
}

/** White noise about a level, or a first-order autoregression worth eight independent samples or more. */
export function meanCase(kind: Kind, next: Random): Outcome {
  const truth = 0.1 + 0.7 * next.uniform();
  const isWhite = next.uniform() < 0.5;
  const count = Math.floor(next.between(isWhite ? 4 : 60, 3000));
  const most = (count / 8 - 1) / (count / 8 + 1);
  const r = isWhite ? 0 : 0.3 + (most - 0.3) * next.uniform();
  const swing = next.between(0.005, 0.3);
  const quantum = next.between(0.001, 0.005);
  let value = next.normal();
  const samples = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    samples[i] = quantum * Math.round((truth + swing * value) / quantum);
    value = r * value + Math.sqrt(1 - r * r) * next.normal();
  }
  const step = kind === "polled" ? 0.2 : 0.005;
  const stamps = Float64Array.from(samples, (_, i) => step * (i + (kind === "polled" ? 0.3 * next.uniform() : 0)));
  const time: Series["time"] =
    kind === "polled" ? { kind: "stamped", stamps } : { kind: "even", start: 0, step, count };
  // Even steps: the mean over time halves the two ends.
  return {
    cell: `mean, ${kind}, ${isWhite ? "white" : "correlated"}`,
    reading: meanOf({ samples, time }),
    truth,
    best: NaN,
  };
}

interface Wave {
  readonly frequency: number;
  readonly share: number;
  readonly isLocked: boolean;
  readonly value: (t: number) => number;
}

/** A square wave with a share of time high; locked: its period is a whole number of samples, or nearly. */
function someWave(recorder: Recorder, fewest: number, next: Random): Wave {
  const isLocked = next.uniform() < 0.5;
  const exact = next.between(fewest, 30);
  const perCycle = isLocked ? Math.round(exact) * (next.uniform() < 0.5 ? 1 : 1 + 1e-4 * next.uniform()) : exact;
  const frequency = recorder.rate / perCycle;
  const share = 0.35 + 0.3 * next.uniform();
  const phase = next.uniform();
  const value = (t: number) => ((((t * frequency + phase) % 1) + 1) % 1 < share ? 0.8 : 0.1);
  return { frequency, share, isLocked, value };
}

/** Without jitter, repeats and losses: hidden edges alone. */
const regular = (recorder: Recorder): Recorder => ({ ...recorder, jitter: 0, repeats: 0, losses: 0 });

function recorded(recorder: Recorder, wave: Wave, next: Random): Series {
  const cycles = 8 + 60 * next.uniform();
  return record(wave.value, rows(recorder, 0, cycles / wave.frequency, next), recorder, next);
}

const pace = ({ isLocked }: Wave) => (isLocked ? "in step" : "out of step");

export function periodCase(kind: Kind, next: Random): Outcome {
  const recorder = regular(someRecorder(kind, next));
  const wave = someWave(recorder, 6, next);
  const series = recorded(recorder, wave, next);
  const crossings = findCrossings(series, { level: 0.45, hysteresis: Math.max(0.05, 4 * noiseOf(series.samples)) });
  if (next.uniform() < 0.5) {
    return {
      cell: `period, ${kind}, hidden edges, ${pace(wave)}`,
      reading: medianPeriodOf(crossings),
      truth: 1 / wave.frequency,
      best: NaN,
    };
  }
  // Half the half-cycles last one share of the period and half the other: with both alike the median is theirs.
  const even = { ...wave, value: squareOf(wave.frequency, next.uniform()) };
  const halves = recorded(recorder, even, next);
  const found = findCrossings(halves, { level: 0.45, hysteresis: Math.max(0.05, 4 * noiseOf(halves.samples)) });
  return {
    cell: `half-cycle, ${kind}, hidden edges, ${pace(wave)}`,
    reading: medianHalfCycleOf(found),
    truth: 0.5 / wave.frequency,
    best: NaN,
  };
}

const squareOf = (frequency: number, phase: number) => (t: number) =>
  (((t * frequency + phase) % 1) + 1) % 1 < 0.5 ? 0.8 : 0.1;

export function dutyCase(kind: Kind, next: Random): Outcome {
  const recorder = regular(someRecorder(kind, next));
  const wave = someWave(recorder, 5, next);
  const series = recorded(recorder, wave, next);
  return {
    cell: `share of time, ${kind}, ${pace(wave)}`,
    reading: dutyOf(series, 0.45),
    truth: 100 * trueShare(wave, series),
    best: NaN,
  };
}

/** Over the very span of the samples: of a wave that begins and ends within a cycle, that is not its share. */
function trueShare({ frequency, value }: Wave, { time, samples }: Series): number {
  const at = (i: number) => (time.kind === "even" ? time.start + time.step * i : time.stamps[i]!);
  const [from, to] = [at(0), at(samples.length - 1)];
  const parts = Math.ceil((to - from) * frequency * 2000);
  let high = 0;
  for (let k = 0; k < parts; k++) if (value(from + ((to - from) * (k + 0.5)) / parts) > 0.45) high++;
  return high / parts;
}

/** A sine and the same sine up to one and a half periods earlier or later: only whole periods more or less can be told. */
export function lagCase(kind: Kind, next: Random): Outcome {
  const recorder = regular(someRecorder(kind, next));
  const frequency = recorder.rate / next.between(8, 60);
  const truth = (3 * next.uniform() - 1.5) / frequency;
  const stamps = rows(recorder, 0, (10 + 20 * next.uniform()) / frequency, next);
  const wave = (t: number) => 0.45 + 0.35 * Math.sin(2 * Math.PI * frequency * t);
  const earlier = record(wave, stamps, recorder, next);
  const later = record((t) => wave(t - truth), stamps, recorder, next);
  const { claimed } = lagBetween(earlier, later, { most: 0.5 / frequency });
  return { cell: `lag, ${kind}, repeating`, reading: claimed, truth, best: NaN };
}
