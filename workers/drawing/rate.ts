// Samples per second of a channel.

import { measured, type Reading } from "../../src/signal/numbers/reading.ts";
import type { TimeBase } from "../../src/signal/series/series.ts";
import { describeStamps } from "../../src/signal/stamps/time-base.ts";

/** Where samples come, without the gaps. */
export function rateOf(time: TimeBase): Reading {
  if (time.kind === "stamped") return describeStamps(time.stamps).rate;
  return measured(1 / time.step, [1 / time.step, 1 / time.step], "Hz", { count: time.count });
}
