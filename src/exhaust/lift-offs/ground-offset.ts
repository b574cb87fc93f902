// A voltage added to both sensors by their ground: told from what the front reads in air, when fuel is cut.

import { within } from "../../signal/series/reel.ts";
import type { Series } from "../../signal/series/series.ts";
import { medianOfNumbers, percentiles } from "../../signal/statistics/statistics.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import type { Closing } from "./closings.ts";

/** After closing, when it has settled; and how even it then is. */
const settles = 1;
const even = 0.1;

/** @returns V to be taken off front and rear; 0 where nothing shows one. */
export function groundOffset({ front, rear }: BankChannels, closings: readonly Closing[], limits: Limits): number {
  if (!front || front.unit === "1") return 0;
  const floors = closings.flatMap((closing) => floorIn(front.series, closing) ?? []);
  if (floors.length === 0) return 0;
  const { groundInAir, groundLeast, groundMost } = limits;
  const offset = medianOfNumbers(floors) - groundInAir;
  if (!(Math.abs(offset) > groundLeast && Math.abs(offset) < groundMost)) return 0;
  const lowest = rear ? percentiles(rear.series.samples, [0.01])[0]! - groundInAir : Number.POSITIVE_INFINITY;
  return offset > 0 ? Math.min(offset, Math.max(0, lowest + groundLeast)) : offset;
}

/** What the front stands at while the throttle is closed; null where it does not stand. */
function floorIn(series: Series, { at, until }: Closing): number | null {
  const samples = [...within(series, at + settles, until).samples].filter(Number.isFinite);
  if (samples.length < 2) return null;
  const [low, high] = percentiles(Float64Array.from(samples), [0, 0.75]);
  return high! - low! < even ? medianOfNumbers(samples) : null;
}

/** The same series without the offset. */
export function levelled<C extends { readonly series: Series }>(channel: C, offset: number): C {
  if (offset === 0) return channel;
  const { time, samples } = channel.series;
  return { ...channel, series: { time, samples: Float64Array.from(samples, (sample) => sample - offset) } };
}
