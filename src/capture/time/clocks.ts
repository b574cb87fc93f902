// Written times made time bases that share one zero.

import type { Seconds } from "../../signal/numbers/units.ts";
import { countOf, type StampDoubt, type TimeBase } from "../../signal/series/series.ts";
import { rowsLost } from "../model/refusals.ts";
import type { RemarkBook } from "../model/remarks.ts";
import type { Recorded, Recording } from "./recorded.ts";
import {
  type Disorder,
  digitsOf,
  inItsDigits,
  type OrderedStamps,
  orderStamps,
  risingStep,
  timeBaseOf,
} from "./stamps.ts";

export interface Clock {
  readonly ordered: OrderedStamps | null;
  readonly isAbsolute: boolean;
  /** From its own first stamp on. */
  readonly base: TimeBase;
  /** The first stamp as the file has it. */
  readonly start: Seconds;
  readonly isPolled: boolean;
  /** Finest step of the stamps; 0 where they lie on no decimal grid. */
  readonly grid: Seconds;
}

export function clocksOf(
  columns: readonly Recorded[],
  recording: Recording,
  remarks: RemarkBook,
  disorder?: Disorder,
): Map<Recorded["time"], Clock> {
  const clocks = new Map<Recorded["time"], Clock>();
  for (const { time, values } of columns) {
    if (!clocks.has(time)) clocks.set(time, clockOf(time, values.length, recording, remarks, disorder));
  }
  return clocks;
}

/** Rows a second: scopes are faster, requests over the diagnostic bus are slower (common practice). */
const polledBelow = 20;
/** Stamps are rounded: so much slower is still that rate. */
const slack = 1.001;
/** The longest usual step of rows that were not requested one by one, s. */
export const longestUnpolled = slack / polledBelow;

function clockOf(
  time: Recorded["time"],
  count: number,
  recording: Recording,
  remarks: RemarkBook,
  disorder?: Disorder,
): Clock {
  if ("rate" in time) {
    const isPolled = recording.isRowLog && time.rate < polledBelow;
    const base: TimeBase = { kind: "even", start: 0, step: 1 / time.rate, count };
    return {
      ordered: null,
      isAbsolute: false,
      base: withDoubt(base, isPolled, recording, null),
      isPolled,
      grid: 0,
      start: 0,
    };
  }
  const ordered = orderStamps(time, recording.isPart ? "leave-out" : disorder);
  if (ordered.lost) throw rowsLost(recording.name, ordered.lost);
  remarks.add(ordered.remarks);
  const { grid, resolution } = digitsOf(time.resolution, ordered.doubt);
  const start = ordered.seconds[0] ?? 0;
  const base = timeBaseOf(fromStart(ordered.seconds, start, grid), resolution);
  const isPolled = recording.isRowLog && risingStep(base) > longestUnpolled;
  const doubted = withDoubt(base, isPolled, recording, ordered.doubt);
  return { ordered, isAbsolute: time.isAbsolute, base: doubted, start, isPolled, grid };
}

function withDoubt(base: TimeBase, isPolled: boolean, recording: Recording, stamps: StampDoubt | null): TimeBase {
  const row = isPolled && !recording.rowsAreSimultaneous ? risingStep(base) : 0;
  const doubt = { early: row + (stamps?.early ?? 0), late: stamps?.late ?? 0 };
  return doubt.early + doubt.late > 0 ? { ...base, doubt } : base;
}

/** Where a clock's zero lies: the earliest stamp of all; clocks of different kinds each begin at their own. */
export function originOf(clocks: ReadonlyMap<unknown, Clock>, remarks: RemarkBook): (clock: Clock) => Seconds {
  const all = [...clocks.values()].filter(({ base }) => countOf(base) > 0);
  const isMixed = new Set(all.map(({ isAbsolute }) => isAbsolute)).size > 1;
  if (isMixed) remarks.say("some channels have a date and some have not; each begins at 0");
  const first = Math.min(...all.map(({ start }) => start));
  return (clock) => (isMixed ? clock.start : first);
}

/** Times from the first on, put back on the grid of their decimals: large epochs leave rounding errors behind. */
export function fromStart(seconds: Float64Array, start: Seconds, grid: Seconds): Float64Array {
  return start === 0 ? seconds : seconds.map((second) => inItsDigits(second - start, grid));
}

export function shifted({ base, start, grid }: Clock, origin: Seconds): TimeBase {
  const shift = inItsDigits(start - origin, grid);
  if (shift === 0 || Number.isNaN(shift)) return base;
  if (base.kind === "even") return { ...base, start: base.start + shift };
  return { ...base, stamps: base.stamps.map((stamp) => inItsDigits(stamp + shift, grid)) };
}

export function startOf(clocks: ReadonlyMap<unknown, Clock>, { hasZone }: Recording): string | null {
  const starts = [...clocks.values()].filter(({ isAbsolute }) => isAbsolute).map(({ start }) => start);
  const first = Math.min(...starts);
  if (!Number.isFinite(first) || Math.abs(first) > 8e12) return null;
  const text = new Date(first * 1000).toISOString();
  return hasZone ? text : text.slice(0, -1);
}
