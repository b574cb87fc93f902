// Closings of the throttle that no fall of the front was found for: listed all the same, with what stood in the way.

import { notResolvable } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { within } from "../../signal/series/reel.ts";
import { countOf, type Series, timeAt } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import type { LiftOff } from "../terms/analysis.ts";
import { type Closing, valueNear } from "./closings.ts";
import type { LeanSpell } from "./lean-spells.ts";
import type { LiftOffScene } from "./lift-off.ts";
import { engineStops } from "./steady.ts";

/** The front falls within this of the closing, s; a closing that is shorter cuts no fuel for long enough to tell. */
const soon: Seconds = 3;
const least: Seconds = 2;

/** Those at which the front has a hole, or was lean already; where it went on switching, fuel was not cut. */
export function unmeasuredClosings(
  scene: LiftOffScene,
  closings: readonly Closing[],
  found: readonly LeanSpell[],
): LiftOff[] {
  const { channels, limits, front } = scene;
  const row = (usualStep(front.series.time) || 0) + (front.series.time.doubt?.early ?? 0);
  return closings.flatMap((closing) => {
    const { at, until } = closing;
    const isKnown = found.some(({ fall, end }) => fall.time < at + soon + row && end > at - row);
    if (isKnown || until - at < least || engineStops(channels, { from: at, to: until }, limits)) return [];
    const why = whyNone(scene, closing, row);
    return why === null ? [] : [unmeasured(scene, at, why)];
  });
}

function whyNone({ front }: LiftOffScene, { at, until }: Closing, row: Seconds): string | null {
  const { series, level, sign } = front;
  const isLean = (value: number) => sign * (value - level) < 0;
  const during = [...within(series, at - row, Math.min(until, at + soon) + row).samples];
  if (holeIn(series, at - row, Math.min(until, at + soon)))
    return "the front was not being recorded when the throttle closed";
  return during.length > 1 && during.every(isLean) ? "the front was lean already when the throttle closed" : null;
}

/** Whether two samples around a part of the span lie too far apart, or none surrounds it. */
function holeIn({ time, samples }: Series, from: Seconds, to: Seconds): boolean {
  const count = countOf(time);
  if (count === 0 || timeAt(time, 0) > to || timeAt(time, count - 1) < from) return true;
  const most = time.kind === "stamped" && time.gapAbove !== undefined ? time.gapAbove : 3.001 * (usualStep(time) || 0);
  const inside = within({ time, samples }, from, to);
  const stamps = Array.from({ length: countOf(inside.time) }, (_, i) => timeAt(inside.time, i));
  const steps = [from, ...stamps, to].map((t, i, all) => t - (all[i - 1] ?? t));
  return steps.some((step) => step > Math.max(most, 0.5));
}

function unmeasured({ channels }: LiftOffScene, at: Seconds, why: string): LiftOff {
  const says = `${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
  const none = notResolvable("s", says);
  return {
    id: "",
    origin: "found",
    at,
    frontFall: none,
    rearFall: none,
    delay: none,
    storedOxygen: notResolvable("g", says),
    fuelCut: "unknown",
    airFlow: null,
    engineSpeed: valueNear(channels.engineSpeed?.series, at),
    rejected: why,
    setAside: "rule",
    fuelReturn: none,
    richAgain: none,
    corrected: null,
    rearSwitch: none,
    valid: false,
    remarks: [why],
  };
}
