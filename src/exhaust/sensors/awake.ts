// When each sensor woke from its bias, and what kind it is.

import type { AnyChannel, Channel } from "../../capture/model/capture.ts";
import { measured, notResolvable, type Reading } from "../../signal/numbers/reading.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { everyNth } from "../../signal/series/reel.ts";
import { type AnySeries, countOf, type Series, timeAt } from "../../signal/series/series.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import { asWritten } from "../../signal/written/words.ts";
import type { Awakening, SensorKind } from "../terms/analysis.ts";
import { type CellGrid, heldInCells } from "../terms/cell-grid.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";
import { restInWords } from "./rest.ts";

/** Means over this long take the recorder's noise off, and keep a front that switches five times a second. */
const cell: Seconds = 0.05;
/** A sleeping sensor stays within this of its level … */
const restBand = 0.06;
/** … and for at least so long, else it was awake from the start. */
const leastRest: Seconds = 2;

/**
 * @param turnedOver  it reads 1 V less what it should (`turned-over.ts`).
 * @returns null for a channel without samples.
 */
export function awakeningOf(channel: Channel, limits: Limits, turnedOver = false): Awakening | null {
  const grid = gridOver(channel.series, cell);
  if (!grid) return null;
  const kind = kindOf(channel);
  if (turnedOver && kind === "narrow-band") return { ...notNarrow("inverted", grid), says: highInCuts };
  const levels = heldInCells(channel.series, grid);
  if (kind === "wide-band" || kind === "five-volt" || kind === "inverted") return notNarrow(kind, grid);
  const rest = restOf(levels, grid, limits);
  const swing = swingAfter(levels, rest ? rest.end : 0, limits);
  return narrowAwakening({ kind, grid, rest, swing, limits });
}

/** A grid from the first to the last sample; null without samples. */
function gridOver(series: Series, step: Seconds): CellGrid | null {
  const count = countOf(series.time);
  if (count === 0) return null;
  const from = timeAt(series.time, 0);
  const to = timeAt(series.time, count - 1);
  return { from, step, count: Math.min(4_000_000, Math.floor((to - from) / step) + 1) };
}

/** Told from role, unit and the levels reached; the rules that do not apply to a kind are left out elsewhere. */
export function kindOf(channel: Pick<AnyChannel, "role" | "unit" | "series">): SensorKind {
  if (channel.role === "front-lambda" || channel.unit === "1") return "wide-band";
  const levels = spread(channel.series);
  if (!(levels.high - levels.low >= 0.1)) return "unknown";
  if (levels.high > 2.2) return "five-volt";
  if (levels.low < -0.25) return "inverted";
  return "narrow-band";
}

function spread({ samples }: AnySeries): { low: number; high: number } {
  const stride = Math.max(1, Math.floor(samples.length / 20_000));
  const [low, high] = percentiles(everyNth(samples, stride), [0.02, 0.98]);
  return { low: low!, high: high! };
}

interface Rest {
  readonly level: number;
  /** Cell after the last one at rest. */
  readonly end: number;
  readonly lasts: boolean;
}

/** The rest at the beginning; null when the sensor moved from the first sample, or stood where only a working one can. */
function restOf(levels: Float64Array, grid: CellGrid, limits: Limits): Rest | null {
  const first = levels.findIndex(Number.isFinite);
  if (first < 0) return null;
  let sum = 0;
  let count = 0;
  let end = first;
  for (; end < levels.length; end++) {
    const value = levels[end]!;
    if (Number.isNaN(value)) continue;
    if (count > 0 && Math.abs(value - sum / count) > restBand) break;
    sum += value;
    count++;
  }
  const level = sum / count;
  const asleep = (level > limits.biasLow && level < limits.biasHigh) || level < 0.05 || level > 1.05;
  if (!asleep || (end - first) * grid.step < leastRest) return null;
  return { level, end, lasts: end >= levels.length };
}

interface Swing {
  /** Cell of the first passage of either level, and of the second of the two. */
  readonly first: number | null;
  readonly full: number | null;
}

function swingAfter(levels: Float64Array, from: number, limits: Limits): Swing {
  let low = -1;
  let high = -1;
  for (let i = from; i < levels.length && (low < 0 || high < 0); i++) {
    if (low < 0 && levels[i]! < limits.lowLevel) low = i;
    if (high < 0 && levels[i]! > limits.highLevel) high = i;
  }
  const seen = [low, high].filter((i) => i >= 0);
  return {
    first: seen.length === 0 ? null : Math.min(...seen),
    full: seen.length < 2 ? null : Math.max(...seen),
  };
}

interface Narrow {
  readonly kind: SensorKind;
  readonly grid: CellGrid;
  readonly rest: Rest | null;
  readonly swing: Swing;
  readonly limits: Limits;
}

function narrowAwakening({ kind, grid, rest, swing, limits }: Narrow): Awakening {
  const at = (index: number | null, why: string): Reading => {
    if (index === null) return notResolvable("s", why);
    const time = grid.from + index * grid.step;
    return measured(time, [time - grid.step, time + grid.step], "s");
  };
  const woke = swing.full !== null;
  const from = !woke ? null : rest ? grid.from + swing.first! * grid.step : grid.from;
  return {
    kind,
    bias: rest
      ? measured(rest.level, [rest.level - restBand / 2, rest.level + restBand / 2], "V")
      : notResolvable("V", "It did not rest at a bias level when the recording began."),
    leftBias: at(
      rest && !rest.lasts ? rest.end : null,
      rest ? "It never left its bias level." : "It was not seen asleep.",
    ),
    fullSwing: at(swing.full, asWritten("It was never both below 0.3 V and above 0.6 V.")),
    awakeFrom: from,
    says: sayAwake({ rest, swing, grid, limits }),
  };
}

function sayAwake({ rest, swing, grid, limits }: Omit<Narrow, "kind">): string {
  const seconds = (index: number) => quantity(Math.round((grid.from + index * grid.step) * 10) / 10, "s");
  if (rest?.lasts) {
    return `It stayed at ${restInWords(rest.level, limits)}, for the whole recording: it has not woken, and says neither rich nor lean.`;
  }
  if (swing.full === null) {
    const until = rest ? ` It left ${restInWords(rest.level, limits)}, at ${seconds(rest.end)}.` : "";
    return `${asWritten("It never swung through both 0.3 and 0.6 V")}, so nothing shows that it is awake.${until}`;
  }
  if (!rest) return "It was awake from the beginning.";
  return `It left ${restInWords(rest.level, limits)}, at ${seconds(rest.end)} and had swung through both ${asWritten("0.3 and 0.6 V")} by ${seconds(swing.full)}.`;
}

const highInCuts =
  "It looks turned over: wherever the throttle closed at speed, where fuel is cut and air should bring it low, the front sensor stands high. Invert the channels and add 1 V, and measure again; if they are right as they are, find out why the engine runs rich there.";

function notNarrow(kind: SensorKind, grid: CellGrid): Awakening {
  const why = {
    "wide-band": "A wide-band sensor gives lambda and does not rest at a bias level.",
    "five-volt": asWritten(
      "It reaches more than 2.2 V: a sensor on a 5 V supply, to which the levels of a zirconia sensor do not apply.",
    ),
    inverted: "It goes below zero volts: its leads look swapped. Invert the channel, and measure again.",
    "narrow-band": "",
    unknown: "",
  }[kind];
  const none = notResolvable("s", why);
  return {
    kind,
    bias: notResolvable("V", why),
    leftBias: none,
    fullSwing: none,
    awakeFrom: kind === "wide-band" ? grid.from : null,
    says: why,
  };
}
