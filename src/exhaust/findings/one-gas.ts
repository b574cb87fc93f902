// Whether gas that is lean, or rich, all along explains a front sensor that stands on one side: then it is not accused.

import type { Channel } from "../../capture/model/capture.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import type { FindingScene } from "./scene.ts";

/** A sensor was somewhere when this share of its samples was: fewer may be noise. Own choice. */
const some = 0.05;
/** More than a zirconia sensor gives, V: it tells of no gas. */
const noGas = 1.05;

export type OneGas = "lean" | "rich";

/**
 * The one kind of gas in which a sensor stands as the front did, where nothing recorded shows that the gas was ever otherwise: the
 * rear shows that, and for rich gas a cut. Null where the front passed to the other side, or stood where no gas holds it.
 */
export function oneGasOf({ channels, measured, limits }: FindingScene): OneGas | null {
  const front = reachOf(channels.front);
  const rear = reachOf(channels.rear);
  if (!front) return null;
  if (front.high < limits.lowLevel) return rear && rear.high > limits.highLevel && rear.high < noGas ? null : "lean";
  if (front.low < limits.highLevel || front.high > noGas) return null;
  const sawAir =
    (rear !== null && rear.low < limits.lowLevel) || measured.stretches.some(({ kind }) => kind === "overrun");
  return sawAir ? null : "rich";
}

function reachOf(channel: Channel | null): { readonly low: number; readonly high: number } | null {
  if (!channel) return null;
  const [low, high] = percentiles(channel.series.samples, [some, 1 - some]);
  return low === undefined || high === undefined || Number.isNaN(high) ? null : { low, high };
}
