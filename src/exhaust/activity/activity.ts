// Rear against front over one span: how much of the front's switching comes through.

import { ratio } from "../../signal/combining/combine.ts";
import { crossingCount } from "../../signal/edges/crossings.ts";
import { lengthRuleFor, lineLength, plainLength } from "../../signal/levels/line-length.ts";
import { lagBetween } from "../../signal/likeness/lag.ts";
import { proportionBounds, ratioOfSums } from "../../signal/numbers/proportion.ts";
import { atMost, measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import { coverage } from "../../signal/numbers/student.ts";
import { within } from "../../signal/series/reel.ts";
import { quantisationOf } from "../../signal/statistics/quantisation.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import type { Counted, SensorMeasured, SensorRule } from "../sensors/sensor.ts";
import type { Activity, Span } from "../terms/analysis.ts";
import { type AnyPiece, countedFrequency, cyclesIn } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";
import { cycleEnergies } from "./cycle-energy.ts";
import { holesIn, whyApart } from "./together.ts";

/** One of the two sensors, and what was measured on it. */
export interface Side {
  readonly piece: AnyPiece;
  readonly measured: SensorMeasured;
}

export interface ActivityRule extends SensorRule {
  /** Fewer full front cycles than this are not compared; the bounds stay. */
  readonly leastCycles: number;
  /** What is said of holes in the front beside "too few cycles". */
  readonly holes?: string;
}

/** Pieces that a span is cut into for the spread of a ratio of sums. */
const pieces = 16;
/** Longest lag looked for where the front does not switch, s. */
const longestLag = 2;

/**
 * Counts carry the bounds of a share (rear crossings among front crossings); sums carry the spread between parts of the
 * span. What the sampling cannot support is not resolvable; the amplitude ratio rests on percentiles, which slow
 * sampling does not harm.
 */
export function measureActivity(front: Side, rear: Side, rule: ActivityRule): Activity {
  const apart = whyApart(front.piece.series, rear.piece.series);
  const refusal = apart ?? whyNot(front.measured, rear.measured, rule);
  const holes = holesIn(front.piece.series);
  const counted = (rearCount: number): Reading =>
    refusal
      ? notResolvable("1", refusal)
      : shareOfCounts({ count: rearCount, missed: rear.measured.missed }, front.measured, { ...rule, holes });
  return {
    crossingRatio: refusal
      ? notResolvable("1", refusal)
      : crossingRatioOf(front.measured, rear.measured, { ...rule, holes }),
    amplitudeRatio: apart
      ? notResolvable("1", apart)
      : ratio(rear.measured.sensor.amplitude, front.measured.sensor.amplitude),
    lengthRatio: refusal ? notResolvable("1", refusal) : lengthRatio(front.piece, rear.piece, rule),
    ...lagOf(front, rear, refusal),
    ownLevelRatio: counted(ownCrossings(rear.piece, rule.hysteresis)),
    bandRatio: refusal ? notResolvable("1", refusal) : bandRatio(front, rear),
  };
}

/** Rear over front crossings, with the bounds of a share. */
export function crossingRatioOf(front: Counted, rear: Counted, rule: ActivityRule): Reading {
  const refusal = whyNot(front, rear, rule);
  return refusal
    ? notResolvable("1", refusal)
    : shareOfCounts({ count: rear.crossings.times.length, missed: rear.missed }, front, rule);
}

function whyNot(front: Counted, rear: Counted, { limits }: { readonly limits: Limits }): string | null {
  if (front.trouble) return `Front: ${front.trouble}`;
  if (rear.trouble) return `Rear: ${rear.trouble}`;
  if (front.crossings.times.length > 0) return null;
  return `The front never crossed ${quantity(limits.switchLevel, "V")} in this span, so there is nothing to compare with.`;
}

const tooFew = (cycles: number, { leastCycles, holes = "" }: ActivityRule): string =>
  `Only ${cycles} full front cycles; ${leastCycles} are needed.${holes} Record a longer steady span.`;

/**
 * Rear over front crossings; above one, front over rear turned round. Of a rear that follows either may have one more or
 * less, for where the span begins and ends; and either may have crossed between samples (`missed`).
 */
function shareOfCounts(rear: Missing, { crossings, missed }: Counted, rule: ActivityRule): Reading {
  const front = crossings.times.length;
  const cycles = cyclesIn(crossings);
  const few = cycles < rule.leastCycles ? tooFew(cycles, rule) : null;
  const seen = shareBounds(rear.count, front);
  const [low] = shareBounds(rear.count, front + missed);
  const [, high] = shareBounds(rear.count + rear.missed, front);
  if (few) return notResolvable("1", few, { low, high, count: front });
  if (rear.count === 0) {
    const because = `No rear crossing in ${front} front crossings: the bound is what that many can exclude.`;
    return atMost(high, "1", { because, count: front });
  }
  return measured(rear.count / front, besides(seen, [low, high]), "1", { count: front });
}

interface Missing {
  readonly count: number;
  readonly missed: number;
}

function shareBounds(rear: number, front: number): Bounds {
  const share = rear <= front ? proportionBounds(rear, front) : turned(proportionBounds(front, rear));
  if (rear < front / 2) return share;
  return besides(share, [(rear - 1) / (front + 1), (rear + 1) / Math.max(1, front - 1)]);
}

const besides = (one: Bounds, other: Bounds): Bounds => [Math.min(one[0], other[0]), Math.max(one[1], other[1])];
type Bounds = readonly [low: number, high: number];

const turned = ([low, high]: readonly [number, number]): [number, number] => [1 / high, 1 / low];

/** Crossings of the rear's own mid-level, halfway between its 5th and 95th percentile. */
function ownCrossings({ series }: AnyPiece, hysteresis: number): number {
  const [low, high] = percentiles(series.samples, [0.05, 0.95]);
  const level = (low! + high!) / 2;
  return Number.isFinite(level) ? crossingCount(series, { level, hysteresis }) : 0;
}

/**
 * The parts tell the spread; the value is of the whole, so that no step between two parts is lost. What each length leaves
 * in doubt comes on top, and for the rear what may move unseen from one turn of the front to the next.
 */
function lengthRatio(front: AnyPiece, rear: AnyPiece, { span }: ActivityRule): Reading {
  const [above, below] = [lengthsOf(rear, span), lengthsOf(front, span)];
  if (!(below.least > 0)) return notResolvable("1", "The front does not move.");
  return sumsReading(above.parts, below.parts, {
    value: above.length / below.length,
    least: above.least / below.most,
    most: (above.most + below.ways * above.unseen) / below.least,
  });
}

function lengthsOf({ series, noise }: AnyPiece, { from, to }: Span) {
  const rule = lengthRuleFor(series, noise);
  const step = (to - from) / pieces;
  const part = (k: number) => within(series, from + k * step, from + (k + 1) * step);
  return {
    ...lineLength(series, rule),
    parts: Array.from({ length: pieces }, (_, k) => plainLength(part(k), rule)),
  };
}

function bandRatio(front: Side, rear: Side): Reading {
  const { crossings } = front.measured;
  const [above, below] = [cycleEnergies(rear.piece.series, crossings), cycleEnergies(front.piece.series, crossings)];
  const whole = above.map((_, k) => k).filter((k) => Number.isFinite(above[k]!) && Number.isFinite(below[k]!));
  const [ofRear, ofFront] = [whole.map((k) => above[k]!), whole.map((k) => below[k]!)];
  const [r, f] = [middleAmplitude(ofRear), middleAmplitude(ofFront)];
  const [dr, df] = [rounding(rear.piece), rounding(front.piece)];
  const square = (value: number) => Math.max(0, value) ** 2;
  return sumsReading(ofRear, ofFront, {
    value: square(r / f),
    least: square((r - dr) / (f + df)),
    most: f > df ? square((r + dr) / (f - df)) : Infinity,
  });
}

const middleAmplitude = (energies: readonly number[]) =>
  Math.sqrt(energies.reduce((sum, energy) => sum + energy, 0) / energies.length);

/**
 * What voltage steps may do to the harmonic of every cycle alike: each value is off by up to half a step, the mean of |cos|
 * being 2 / pi. Noise of about a step makes the values err independently, which the spread over cycles shows.
 */
function rounding({ series, noise }: AnyPiece): number {
  const step = quantisationOf(series.samples);
  return noise < 0.75 * step ? step / Math.PI : 0;
}

/** A ratio known of the whole, and what its parts leave in doubt besides their spread. */
interface WholeRatio {
  readonly value: number;
  readonly least: number;
  readonly most: number;
}

/** @param whole  where it is known better than from the pieces. */
function sumsReading(above: readonly number[], below: readonly number[], whole?: WholeRatio): Reading {
  const found = ratioOfSums(above, below);
  if (!found) return notResolvable("1", "Too few front cycles in this span.", { count: above.length });
  const { value, least, most } = whole ?? { value: found.value, least: found.value, most: found.value };
  const low = Math.min(value, found.bounds[0]) - (value - least);
  const high = Math.max(value, found.bounds[1]) + (most - value);
  const remarks = { count: above.length };
  if (low <= 0) return atMost(high, "1", { ...remarks, because: "It may be none at all." });
  return measured(value, [low, high], "1", remarks);
}

/** Searched up to half a front period: beyond, the lag of a repeating signal is told only up to whole periods. */
function lagOf(front: Side, rear: Side, refusal: string | null): Pick<Activity, "lag" | "correlation"> {
  if (refusal) return { lag: notResolvable("s", refusal), correlation: notResolvable("1", refusal) };
  const frequency = countedFrequency(front.measured.crossings);
  const most = frequency > 0 ? 0.5 / frequency : longestLag;
  const { claimed, height, ambiguousBy } = lagBetween(front.piece.series, rear.piece.series, { most });
  const lag = ambiguousBy === null ? searched(claimed, most) : asLater(claimed, ambiguousBy);
  return { lag, correlation: heightReading(height, cyclesIn(front.measured.crossings)) };
}

/** Of lags that whole periods tell apart, the first at which the rear follows the front: it cannot lead. */
function asLater(lag: Reading, period: number): Reading {
  const { value, high } = lag;
  const isEarlier = value !== null && high !== null && value < -period / 20 && value + period <= high;
  return isEarlier ? { ...lag, value: value + period } : lag;
}

/** Where no lag can be told, bounds beyond those it was searched between say nothing. */
function searched(lag: Reading, most: number): Reading {
  const isBeyond = Math.max(Math.abs(lag.low ?? 0), Math.abs(lag.high ?? 0)) > most;
  return lag.grade === "not-resolvable" && isBeyond ? { ...lag, low: null, high: null } : lag;
}

/** Fisher's z with one independent piece per front cycle (Fisher, Metron 1 (1921) 3). */
function heightReading(height: number, cycles: number): Reading {
  if (!(Math.abs(height) <= 1)) return notResolvable("1", "The two sensors do not move alike at any lag.");
  if (cycles < 4) return notResolvable("1", "Too few front cycles in this span.", { count: cycles });
  const z = Math.atanh(Math.min(0.999999, Math.max(-0.999999, height)));
  const half = coverage / Math.sqrt(cycles - 3);
  const bounds = [Math.min(height, Math.tanh(z - half)), Math.max(height, Math.tanh(z + half))] as const;
  return measured(height, bounds, "1", { count: cycles });
}
