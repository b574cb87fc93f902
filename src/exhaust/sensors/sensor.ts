// The readings of one oxygen sensor over a span, and the samples behind each.

import { dutyOf, frequencyOf } from "../../signal/cycles/cycles.ts";
import { type Crossings, roughCrossings } from "../../signal/edges/crossings.ts";
import { transitionTime } from "../../signal/edges/transition-time.ts";
import { findTransitions, type Transitions } from "../../signal/edges/transitions.ts";
import { amplitudeOf, maximumOf, minimumOf } from "../../signal/levels/levels.ts";
import { meanOf } from "../../signal/levels/mean.ts";
import { atLeast, measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { timeAt } from "../../signal/series/series.ts";
import { extremesOf, placeOf } from "../../signal/statistics/extremes.ts";
import type { Evidence, EvidenceMark, Sensor, SensorReadingName, Span } from "../terms/analysis.ts";
import { type AnyPiece, crossingsOf, foldingTrouble, lengthOf, samplingTrouble, unseenIn } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";
import { asFolded, mayBeLocked } from "./folding.ts";

/** Crossings of the switch level. */
export interface Counted {
  readonly crossings: Crossings;
  /** Why crossings cannot be counted at this sampling; null when they can. */
  readonly trouble: string | null;
  /** Crossings that may have been missed between samples, at most. */
  readonly missed: number;
}

export interface SensorMeasured extends Counted {
  readonly sensor: Sensor;
  readonly evidence: Readonly<Partial<Record<SensorReadingName, Evidence>>>;
}

export interface SensorRule {
  readonly span: Span;
  readonly hysteresis: number;
  readonly limits: Limits;
  /** Whether slow samples may be in step with the swing; told from the sensor itself where absent. */
  readonly isLocked?: boolean;
}

/** No screen is wide enough to show more at a level. */
const mostMarks = 1000;

function countCrossings(piece: AnyPiece, { hysteresis, limits }: SensorRule): Counted {
  return counted(crossingsOf(piece, limits.switchLevel, hysteresis), piece, limits);
}

/** The same counts from crossings that are timed to a sample only. */
export function countRoughly(piece: AnyPiece, { hysteresis, limits }: SensorRule): Counted {
  return counted(roughCrossings(piece.series, { level: limits.switchLevel, hysteresis }), piece, limits);
}

function counted(crossings: Crossings, piece: AnyPiece, limits: Limits): Counted {
  const trouble = samplingTrouble(crossings, piece.series, limits);
  return { crossings, trouble, missed: 2 * unseenIn(crossings) };
}

/**
 * A narrow-band sensor. The levels of zirconia sensors apply; for another kind the caller leaves it out.
 *
 * Definitions: a crossing of 0.45 V counts from one side of 0.45 V ± hysteresis to the other; frequency over lean-to-rich
 * crossings; switch times between 0.6 and 0.3 V, medians of complete transitions.
 */
export function measureSensor(piece: AnyPiece, rule: SensorRule): SensorMeasured {
  const { series, noise } = piece;
  const { span, limits } = rule;
  const { crossings, trouble, missed } = countCrossings(piece, rule);
  const falls = findTransitions(series, { from: limits.highLevel, to: limits.lowLevel, noise });
  const rises = findTransitions(series, { from: limits.lowLevel, to: limits.highLevel, noise });
  const sensor: Sensor = {
    frequency: frequencyOf(crossings, { fastest: limits.fastestFront, series, noise }),
    amplitude: amplitudeOf(series, { noise }),
    minimum: minimumOf(series, { noise }),
    maximum: maximumOf(series, { noise }),
    mean: meanOf(series),
    crossings: countReading(crossings.times.length, trouble, missed),
    crossingsPer10s: perTenSeconds(crossings.times.length, lengthOf(series), { trouble, missed }),
    richShare: dutyOf(series, limits.switchLevel),
    richToLean: transitionTime(falls),
    leanToRich: transitionTime(rises),
  };
  const evidence = evidenceOf(piece, { span, crossings, falls, rises, limits });
  const because = foldingTrouble(crossings, series, limits);
  if (because === null) return { sensor, crossings, trouble, missed, evidence };
  const isLocked = rule.isLocked ?? mayBeLocked(sensor, limits);
  const folding = { because, crossings, length: lengthOf(series), limits, isLocked };
  return { sensor: asFolded(sensor, folding), crossings, trouble, missed, evidence };
}

function countReading(count: number, trouble: string | null, missed: number): Reading {
  if (trouble) return atLeast(count, "1", { because: trouble, count });
  return measured(count, [count, Math.ceil(count + missed)], "1", {
    count,
    ...(missed > 0 ? { because: unseen } : {}),
  });
}

const unseen = "Some swings were met by one sample only, so others may lie between samples.";

/** One crossing more or less at the ends of the span is chance. */
function perTenSeconds(
  count: number,
  length: number,
  { trouble, missed }: Pick<Counted, "trouble" | "missed">,
): Reading {
  if (!(length > 0)) return notResolvable("1", "fewer than two samples in this span", { count });
  const per = (crossings: number) => (10 * crossings) / length;
  if (trouble) return atLeast(per(Math.max(0, count - 1)), "1", { because: trouble, count });
  return measured(per(count), [per(Math.max(0, count - 1)), per(count + 1 + missed)], "1", { count });
}

interface Behind {
  readonly span: Span;
  readonly crossings: Crossings;
  readonly falls: Transitions;
  readonly rises: Transitions;
  readonly limits: Limits;
}

function evidenceOf(
  piece: AnyPiece,
  { span, crossings, falls, rises, limits }: Behind,
): Readonly<Partial<Record<SensorReadingName, Evidence>>> {
  const channelId = piece.channel.id;
  const { switchLevel, lowLevel, highLevel } = limits;
  const crossed = (times: Float64Array): Evidence => ({
    span,
    levels: [switchLevel],
    marks: marksAt(channelId, switchLevel, times),
    count: times.length,
  });
  const passed = ({ starts, ends }: Transitions, from: number, to: number): Evidence => ({
    span,
    levels: [lowLevel, highLevel],
    marks: [...marksAt(channelId, from, starts), ...marksAt(channelId, to, ends)],
    count: starts.length + ends.length,
  });
  const [lowest, highest] = [extremeMark(piece, -1), extremeMark(piece, 1)];
  const samples = (marks: readonly EvidenceMark[]): Evidence => ({ span, levels: [], marks, count: marks.length });
  const every = crossed(crossings.times);
  return {
    frequency: crossed(crossings.times.filter((_, k) => crossings.rising[k] === 1)),
    crossings: every,
    crossingsPer10s: every,
    richShare: every,
    mean: samples([]),
    amplitude: samples([...lowest, ...highest]),
    minimum: samples(lowest),
    maximum: samples(highest),
    richToLean: passed(falls, highLevel, lowLevel),
    leanToRich: passed(rises, lowLevel, highLevel),
  };
}

/** All of them, or every so manieth: spread evenly, so that no part of the span looks empty. */
function marksAt(channelId: string, value: number, times: Float64Array): EvidenceMark[] {
  const count = Math.min(times.length, mostMarks);
  const pick = (k: number) => times[Math.floor((k * times.length) / count)]!;
  return Array.from({ length: count }, (_, k) => ({ channelId, time: pick(k), value }));
}

/** Where the lowest (-1) or highest sample stands; none without a finite one. */
export function extremeMark({ channel, series }: AnyPiece, sign: 1 | -1): EvidenceMark[] {
  const [lowest, highest] = extremesOf(series.samples);
  const value = sign > 0 ? highest : lowest;
  const at = Number.isFinite(value) ? placeOf(series.samples, value) : -1;
  return at < 0 ? [] : [{ channelId: channel.id, time: timeAt(series.time, at), value }];
}
