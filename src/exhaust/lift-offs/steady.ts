// Whether everything that a foot moves stood still around a fall of the front: then it was no lift-off.

import type { Seconds } from "../../signal/numbers/units.ts";
import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { rangeWithin, valueNear } from "./closings.ts";

/** So long before and after the fall, s, and one row more for what a log asks late. */
const before: Seconds = 3;
const after: Seconds = 2;
/** Air flow and load within this factor are steady; road speed within so many km/h. Own choice. */
const flowFactor = 1.5;
const roadBand = 8;

/**
 * True where the throttle stays open and put, or where air flow or load and a speed were recorded, and nothing of it moves
 * as it does when a foot is lifted. A throttle that is closed already, or never moves in the whole recording, says nothing.
 */
export function standsStill(channels: BankChannels, fall: Seconds, limits: Limits): boolean {
  const witnesses = witnessesOf(channels, fall, limits);
  if (witnesses[0] === true) return true;
  const told = witnesses.slice(1, 3).some((one) => one === true) && witnesses.slice(3).some((one) => one === true);
  return told && witnesses.every((one) => one !== false);
}

/** True where something was recorded that moves when a foot is lifted, and nothing of it moves so around the fall. */
export function nothingMoves(channels: BankChannels, fall: Seconds, limits: Limits): boolean {
  const witnesses = witnessesOf(channels, fall, limits);
  return witnesses.includes(true) && !witnesses.includes(false);
}

/** True where something was recorded that moves so around the fall. */
export const anyMoves = (channels: BankChannels, fall: Seconds, limits: Limits): boolean =>
  witnessesOf(channels, fall, limits).includes(false) ||
  ratioIsSteady(channels.manifoldPressure?.series, fall, after) === false;

/** A foot that is lifted for so long slows the car by more than what counts as steady, but for a way downhill. s; own choice. */
const slowsIn: Seconds = 4;
const lookedAt: Seconds = 8;

/**
 * The same of a lean spell in which nothing shows a cut: air flow and load move at once when a throttle closes, an engine that
 * idled steadily has no foot to lift, and the speeds have moved when the spell was long.
 */
export function steadyThrough(
  channels: BankChannels,
  lean: { readonly from: Seconds; readonly to: Seconds },
  limits: Limits,
): boolean {
  const length = lean.to - lean.from;
  const witnesses = witnessesOf(channels, lean.from, limits, Math.max(after, Math.min(length, lookedAt)));
  if (!witnesses.includes(true) || witnesses.includes(false)) return false;
  const [, air, load, engine] = witnesses;
  const speed = valueNear(channels.engineSpeed?.series, lean.from);
  const idled = engine === true && speed !== null && speed <= limits.cutSpeed;
  return air === true || load === true || idled || length >= slowsIn;
}

/** Whether anything was recorded that moves when a foot is lifted. */
export const hasWitness = (channels: BankChannels): boolean =>
  [
    channels.throttle,
    channels.airFlow,
    channels.load,
    channels.manifoldPressure,
    channels.engineSpeed,
    channels.roadSpeed,
  ].some((channel) => channel !== null && channel !== undefined);

/** Throttle, air flow, load, engine speed, road speed: whether each stood still; null where it says nothing. */
function witnessesOf(channels: BankChannels, fall: Seconds, limits: Limits, span = after): (boolean | null)[] {
  const { throttle, airFlow, load, engineSpeed, roadSpeed } = channels;
  return [
    throttle ? footIsSteady(throttle.series, fall, limits) : null,
    ratioIsSteady(airFlow?.series, fall, span),
    ratioIsSteady(load?.series, fall, span),
    bandIsSteady(engineSpeed?.series, fall, { span, band: 2 * limits.steadySpeed }),
    bandIsSteady(roadSpeed?.series, fall, { span, band: roadBand }),
  ];
}

const rowOf = ({ time }: Series): Seconds => (time.doubt?.early ?? 0) + (usualStep(time) || 0);

const windowOf = (series: Series, fall: Seconds, span = after) =>
  [fall - before - rowOf(series), fall + span + rowOf(series)] as const;

/** A foot that only went down was not lifted: what counts is how far it came back, and that the throttle stayed open. */
function footIsSteady(series: Series, fall: Seconds, limits: Limits): boolean | null {
  const [closed, widest] = percentiles(series.samples, [0, 1]);
  const band = 2 * limits.closedThrottle;
  const [from, to] = windowOf(series, fall);
  if (rangeWithin(series, from, to) === null || !(widest! - closed! > band)) return null;
  if (dropWithin(series, from, to) > band) return false;
  const since = rangeWithin(series, fall - rowOf(series), to);
  return since !== null && since.low > closed! + limits.closedThrottle ? true : null;
}

/** The furthest that values come down from one before. */
function dropWithin(series: Series, from: Seconds, to: Seconds): number {
  let [most, drop] = [-Infinity, 0];
  for (const value of within(series, from, to).samples) {
    if (value > most) most = value;
    if (most - value > drop) drop = most - value;
  }
  return drop;
}

function ratioIsSteady(series: Series | undefined, fall: Seconds, span: Seconds): boolean | null {
  const range = series ? rangeWithin(series, ...windowOf(series, fall, span)) : null;
  return range === null || !(range.high > 0) ? null : range.high <= flowFactor * range.low;
}

function bandIsSteady(
  series: Series | undefined,
  fall: Seconds,
  { span, band }: { readonly span: Seconds; readonly band: number },
): boolean | null {
  const range = series ? rangeWithin(series, ...windowOf(series, fall, span)) : null;
  return range === null ? null : range.high - range.low <= band;
}

/** The engine stopped about when the front fell: what follows is no exhaust. s; own choice. */
const stopsWithin: Seconds = 2;

export function engineStops(
  channels: BankChannels,
  lean: { readonly from: Seconds; readonly to: Seconds },
  limits: Limits,
) {
  const series = channels.engineSpeed?.series;
  if (!series) return false;
  const row = usualStep(series.time) || 0;
  const range = rangeWithin(series, lean.from - 1, Math.min(lean.to, lean.from + stopsWithin) + row);
  return range !== null
    ? range.low < limits.engineRuns
    : (valueNear(series, lean.from) ?? Infinity) < limits.engineRuns;
}
