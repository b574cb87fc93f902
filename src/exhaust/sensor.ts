// The readings of one oxygen sensor over a span, and the samples behind each.

import type { Crossings } from "../signal/crossings.ts";
import { dutyOf, frequencyOf } from "../signal/cycles.ts";
import { amplitudeOf, maximumOf, meanOf, minimumOf } from "../signal/levels.ts";
import { atLeast, measured, notResolvable, type Reading } from "../signal/reading.ts";
import { countOf, timeAt } from "../signal/series.ts";
import { findTransitions, type Transitions, transitionTime } from "../signal/transitions.ts";
import type { Evidence, EvidenceMark, Sensor, SensorReadingName, Span } from "./analysis.ts";
import { crossingsOf, lengthOf, type Piece, samplingTrouble } from "./edges.ts";
import type { Limits } from "./limits.ts";

/** Crossings of the switch level. */
export interface Counted {
  readonly crossings: Crossings;
  /** Why crossings cannot be counted at this sampling; null when they can. */
  readonly trouble: string | null;
}

export interface SensorMeasured extends Counted {
  readonly sensor: Sensor;
  readonly evidence: Readonly<Partial<Record<SensorReadingName, Evidence>>>;
}

export interface SensorRule {
  readonly span: Span;
  readonly hysteresis: number;
  readonly limits: Limits;
}

/** Marks beyond this many say no more. */
const mostMarks = 500;

export function countCrossings(piece: Piece, { hysteresis, limits }: SensorRule): Counted {
  const crossings = crossingsOf(piece, limits.switchLevel, hysteresis);
  return { crossings, trouble: samplingTrouble(crossings, piece.series, limits) };
}

/**
 * A narrow-band sensor. The levels of zirconia sensors apply; for another kind the caller leaves it out.
 *
 * Definitions: a crossing of 0.45 V counts from one side of 0.45 V ± hysteresis to the other; frequency over lean-to-rich
 * crossings; switch times between 0.6 and 0.3 V, medians of complete transitions.
 */
export function measureSensor(piece: Piece, rule: SensorRule): SensorMeasured {
  const { series, noise } = piece;
  const { span, limits } = rule;
  const { crossings, trouble } = countCrossings(piece, rule);
  const falls = findTransitions(series, { from: limits.highLevel, to: limits.lowLevel, noise });
  const rises = findTransitions(series, { from: limits.lowLevel, to: limits.highLevel, noise });
  const sensor: Sensor = {
    frequency: frequencyOf(crossings, { fastest: limits.fastestFront }),
    amplitude: amplitudeOf(series, { noise }),
    minimum: minimumOf(series, { noise }),
    maximum: maximumOf(series, { noise }),
    mean: meanOf(series),
    crossings: countReading(crossings.times.length, trouble),
    crossingsPer10s: perTenSeconds(crossings.times.length, lengthOf(series), trouble),
    richShare: dutyOf(series, limits.switchLevel),
    richToLean: transitionTime(falls),
    leanToRich: transitionTime(rises),
  };
  return { sensor, crossings, trouble, evidence: evidenceOf(piece, { span, crossings, falls, rises, limits }) };
}

function countReading(count: number, trouble: string | null): Reading {
  return trouble ? atLeast(count, "1", { because: trouble, count }) : measured(count, [count, count], "1", { count });
}

/** One crossing more or less at the ends of the span is chance. */
function perTenSeconds(count: number, length: number, trouble: string | null): Reading {
  if (!(length > 0)) return notResolvable("1", "fewer than two samples in this span", { count });
  const per = (crossings: number) => (10 * crossings) / length;
  if (trouble) return atLeast(per(Math.max(0, count - 1)), "1", { because: trouble, count });
  return measured(per(count), [per(Math.max(0, count - 1)), per(count + 1)], "1", { count });
}

interface Behind {
  readonly span: Span;
  readonly crossings: Crossings;
  readonly falls: Transitions;
  readonly rises: Transitions;
  readonly limits: Limits;
}

function evidenceOf(
  piece: Piece,
  { span, crossings, falls, rises, limits }: Behind,
): Readonly<Partial<Record<SensorReadingName, Evidence>>> {
  const channelId = piece.channel.id;
  const { switchLevel, lowLevel, highLevel } = limits;
  const crossed = (only?: 0 | 1): Evidence => ({
    span,
    levels: [switchLevel],
    marks: marksAt(
      channelId,
      switchLevel,
      keep(crossings.times, (k) => only === undefined || crossings.rising[k] === only),
    ),
  });
  const passed = (transitions: Transitions, from: number, to: number): Evidence => ({
    span,
    levels: [lowLevel, highLevel],
    marks: [...marksAt(channelId, from, transitions.starts), ...marksAt(channelId, to, transitions.ends)],
  });
  const extreme = (sign: 1 | -1): Evidence => ({ span, levels: [], marks: extremeMark(piece, sign) });
  return {
    frequency: crossed(1),
    crossings: crossed(),
    crossingsPer10s: crossed(),
    richShare: crossed(),
    mean: { span, levels: [], marks: [] },
    amplitude: { span, levels: [], marks: [...extremeMark(piece, -1), ...extremeMark(piece, 1)] },
    minimum: extreme(-1),
    maximum: extreme(1),
    richToLean: passed(falls, highLevel, lowLevel),
    leanToRich: passed(rises, lowLevel, highLevel),
  };
}

const keep = (times: Float64Array, wanted: (k: number) => boolean): Float64Array => times.filter((_, k) => wanted(k));

function marksAt(channelId: string, value: number, times: Float64Array): EvidenceMark[] {
  return [...times.subarray(0, mostMarks)].map((time) => ({ channelId, time, value }));
}

function extremeMark({ channel, series }: Piece, sign: 1 | -1): EvidenceMark[] {
  let best = -1;
  for (let i = 0; i < countOf(series.time); i++) {
    const value = series.samples[i]!;
    if (Number.isFinite(value) && (best < 0 || sign * value > sign * series.samples[best]!)) best = i;
  }
  return best < 0 ? [] : [{ channelId: channel.id, time: timeAt(series.time, best), value: series.samples[best]! }];
}
