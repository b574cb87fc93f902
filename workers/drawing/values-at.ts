// What a channel shows at an instant.

import type { Seconds } from "../../src/signal/numbers/units.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";
import type { ValueAt } from "../protocol.ts";
import { firstFrom } from "./places.ts";
import { isBroken, type Trace } from "./window.ts";

/** The sample at `time`, or on the straight line between its neighbours; null in a gap and outside the recording. */
export function valueAt(channelId: string, trace: Trace, time: Seconds): ValueAt {
  const { series, gain, offset } = trace;
  const next = firstFrom(series.time, time);
  const shown = (sample: number) => (Number.isNaN(sample) ? null : sample * gain + offset);
  const none = { channelId, value: null, between: false };
  if (next === countOf(series.time)) return none;
  const after = timeAt(series.time, next);
  if (after === time) return { channelId, value: shown(series.samples[next]!), between: false };
  if (next === 0 || isBroken(trace, next)) return none;
  const before = timeAt(series.time, next - 1);
  const share = (time - before) / (after - before);
  const sample = series.samples[next - 1]! * (1 - share) + series.samples[next]! * share;
  return { channelId, value: shown(sample), between: true };
}
