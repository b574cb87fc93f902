// Samples per second of a channel.

import { measured, notResolvable, type Reading } from "../src/signal/reading.ts";
import type { TimeBase } from "../src/signal/series.ts";
import { extent } from "./places.ts";

/** Over the whole channel; for stamps it is their mean. */
export function rateOf(time: TimeBase): Reading {
  if (time.kind === "even") return measured(1 / time.step, [1 / time.step, 1 / time.step], "Hz", { count: time.count });
  const [from, to] = extent(time);
  const steps = time.stamps.length - 1;
  if (steps < 1 || !(to > from)) return notResolvable("Hz", "A rate takes two samples.");
  const rate = steps / (to - from);
  return measured(rate, [rate, rate], "Hz", { count: time.stamps.length });
}
