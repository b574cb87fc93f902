// Whether the fuel loop was closed: known from the status, else likely while the front switches regularly.

import { periodsOf } from "../../signal/cycles/cycles.ts";
import type { Crossings } from "../../signal/edges/crossings.ts";
import { indexAt, type Series } from "../../signal/series/series.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import type { Span } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";

/** PID 03 of SAE J1979: 02 is closed loop (08 and 10 are faults: not taken as closed here). */
const closed = 2;

/** Share of a span's samples that hold `value`; the last one before stands in for an empty span; null when unknown. */
export function heldShareOf(series: Series, span: Span, value: number): number | null {
  const first = indexAt(series.time, span.from);
  const end = indexAt(series.time, span.to);
  const samples = [...series.samples.subarray(first === end ? Math.max(0, first - 1) : first, end === 0 ? 1 : end)];
  const known = samples.filter(Number.isFinite);
  return known.length === 0 ? null : known.filter((sample) => sample === value).length / known.length;
}

/** "known" closed, "likely" closed, "unknown", or "open". */
export type Loop = "known" | "likely" | "unknown" | "open";

export function loopIn(channels: BankChannels, span: Span, front: Crossings | null): Loop {
  const share = channels.fuelStatus ? heldShareOf(channels.fuelStatus.series, span, closed) : null;
  if (share !== null) return share >= 0.9 ? "known" : "open";
  return front && switchesRegularly(front) ? "likely" : "unknown";
}

/** Most periods within a factor of two of their median: a loop hunts, a driver's foot does not. Own choice. */
function switchesRegularly(crossings: Crossings): boolean {
  const periods = periodsOf(crossings);
  if (periods.length < 5) return false;
  const median = medianOfNumbers(periods);
  const near = periods.filter((period) => period > median / 2 && period < 2 * median).length;
  return near >= 0.75 * periods.length;
}
