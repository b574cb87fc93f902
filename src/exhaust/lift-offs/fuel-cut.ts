// Around a fall of the front: when the throttle closed, and whether fuel was shown to be cut.

import { findCrossings } from "../../signal/edges/crossings.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import type { FuelCut } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";
import { slowingFrom } from "./closings.ts";
import { engineStops, standsStill } from "./steady.ts";

/** The throttle closes at most so long before the front falls, and so long after (logs are slow). */
const closesBefore: Seconds = 3;
const closesAfter: Seconds = 0.5;
/** PID 03 of SAE J1979: open loop because of load or because fuel is cut while slowing down. */
const drivenOpen = 4;
const closedLoop = 2;
/** A fuel injector that opens for less than this share of its usual time is shut. Own choice. */
const shutShare = 0.2;

export interface CutFacts {
  readonly fuelCut: FuelCut;
  /** When the throttle passed halfway to closed; null when nothing shows it. */
  readonly throttleClosed: Seconds | null;
  readonly engineSpeed: number | null;
  /** What was recorded speaks against a cut: the engine stopped, the foot stayed where it was, or the loop stayed closed. */
  readonly isRefuted: boolean;
  readonly says: string;
}

/** @param lean  the front's fall, and when it rose again (or the recording ended). */
export function cutFactsOf(
  channels: BankChannels,
  lean: { readonly from: Seconds; readonly to: Seconds },
  limits: Limits,
): CutFacts {
  const closed = throttleClosing(channels.throttle?.series, lean.from, limits);
  const { highest: speed, falls: falling } = slowingFrom(channels.engineSpeed?.series, lean.from, lean.to);
  const facts = { throttleClosed: closed, engineSpeed: speed, isRefuted: false };
  if (engineStops(channels, lean, limits)) {
    return { ...facts, isRefuted: true, fuelCut: "unknown", says: "the engine stopped there" };
  }
  const proof = proofOf(channels, lean, limits);
  if (proof) return { ...facts, fuelCut: "proven", says: `fuel cut proven: ${proof}` };
  if (closed !== null && speed !== null && speed > limits.cutSpeed && falling) {
    const at = quantity(speed, "1/min");
    return {
      ...facts,
      fuelCut: "likely",
      says: `fuel cut likely: the throttle closed at ${at}, and the engine slowed down`,
    };
  }
  const isSlow = channels.throttle !== null && closed === null && speed !== null && speed <= limits.cutSpeed;
  const staysPut = closed === null && (isSlow || standsStill(channels, lean.from, limits));
  const isRefuted = staysPut || staysClosed(channels, lean);
  const says = `fuel cut not shown: ${lacking(channels, closed, speed, limits)}`;
  return { ...facts, isRefuted, fuelCut: "unknown", says };
}

/**
 * The fuel system status says closed loop all the while, and a foot or an engine speed was recorded that shows no cut either.
 * One that never changes in the whole recording says nothing: some engines leave it so when they cut.
 */
function staysClosed(channels: BankChannels, lean: { readonly from: Seconds; readonly to: Seconds }): boolean {
  const { fuelStatus } = channels;
  if ((channels.throttle ?? channels.engineSpeed) === null) return false;
  if (!fuelStatus?.series.samples.some((value) => Number.isFinite(value) && value !== closedLoop)) return false;
  const values = valuesDuring(fuelStatus.series, lean);
  return values.length > 1 && values.every((value) => value === closedLoop);
}

function lacking(channels: BankChannels, closed: Seconds | null, speed: number | null, limits: Limits): string {
  if (!channels.throttle) return "no throttle was recorded";
  if (speed === null) return "no engine speed was recorded";
  if (closed === null) return "the throttle did not close there";
  if (!(speed > limits.cutSpeed)) return `the engine turned at ${quantity(speed, "1/min")} only`;
  return "the engine did not slow down";
}

/** Halfway between the widest opening just before and closed; only where it really reaches closed. */
function throttleClosing(throttle: Series | undefined, fall: Seconds, limits: Limits): Seconds | null {
  if (!throttle) return null;
  const closed = percentiles(throttle.samples, [0])[0]!;
  const row = (usualStep(throttle.time) || 0) + (throttle.time.doubt?.early ?? 0);
  const around = within(throttle, fall - closesBefore - row, fall + closesAfter + row);
  const [low, open] = percentiles(around.samples, [0, 1]);
  if (!(low! <= closed + limits.closedThrottle) || !(open! > closed + 2 * limits.closedThrottle)) return null;
  const level = (open! + closed) / 2;
  const { times, rising } = findCrossings(around, { level, hysteresis: 0.1 * (open! - closed), noise: 0 });
  for (let k = times.length - 1; k >= 0; k--) if (rising[k] === 0) return times[k]!;
  return null;
}

/** A polled value may be older than its stamp: those that may stem from before the fall prove nothing. */
function valuesDuring(series: Series, lean: { readonly from: Seconds; readonly to: Seconds }): number[] {
  return [...within(series, lean.from + (series.time.doubt?.early ?? 0), lean.to).samples].filter(Number.isFinite);
}

function proofOf(
  channels: BankChannels,
  lean: { readonly from: Seconds; readonly to: Seconds },
  limits: Limits,
): string | null {
  const during = (series: Series) => valuesDuring(series, lean);
  if (channels.fuelStatus && during(channels.fuelStatus.series).includes(drivenOpen)) {
    return "the fuel system status says open loop while the front was lean";
  }
  if (channels.injector) {
    const [usual] = percentiles(channels.injector.series.samples, [0.5]);
    const values = during(channels.injector.series);
    const inner = values.slice(1, -1);
    if (usual! > 0 && inner.length > 0 && inner.every((value) => value < shutShare * usual!)) {
      return "the injector stayed shut";
    }
  }
  if (channels.frontLambda && during(channels.frontLambda.series).some((lambda) => lambda >= limits.offScaleLambda)) {
    return "lambda went off the scale, to air";
  }
  return null;
}
