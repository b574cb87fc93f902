// Scales that a person can read off: round steps, and a fit that holds still.

import { shownAs } from "../signal/written/writing.ts";

export type Range = readonly [low: number, high: number];

export interface Ticks {
  readonly step: number;
  readonly values: readonly number[];
}

/**
 * Multiples of a round step (1, 2 or 5 times a power of ten) within a range, both ends included.
 *
 * @param most at most this many, >= 1.
 * @throws RangeError unless low < high, both finite.
 */
export function niceTicks(low: number, high: number, most: number): Ticks {
  if (!(low < high) || !Number.isFinite(high - low)) throw new RangeError(`want low < high, got ${low}, ${high}`);
  const step = roundStep((high - low) / Math.max(1, most));
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  // Counting in whole steps keeps 0.1 + 0.2 from becoming a tick of its own.
  const values = Array.from({ length: last - first + 1 }, (_, k) => Number(((first + k) * step).toPrecision(12)));
  return { step, values };
}

/**
 * As `niceTicks`, but two at least, since one number alone is no scale: closer together where need be, and of more than
 * there is room for the first and the last.
 */
export function levelTicks(low: number, high: number, most: number): Ticks {
  const tries = [most, most + 1, most + 2, most + 3].map((count) => niceTicks(low, high, count));
  const { step, values } = tries.find((one) => one.values.length >= 2) ?? tries[0]!;
  return { step, values: values.length > Math.max(2, most) ? [values[0]!, values.at(-1)!] : values };
}

/** Round in the unit that is shown: `values` where they stand in the stored unit, `step` and what is written in the shown one. */
export function shownLevelTicks(low: number, high: number, most: number, unit: string): Ticks & ShownTicks {
  const { times, plus } = shownAs(unit);
  const { step, values } = levelTicks(low * times + plus, high * times + plus, most);
  return { step, values: values.map((value) => (value - plus) / times), written: (value) => value * times + plus };
}

export interface ShownTicks {
  /** A stored value as the number that is written. */
  written(value: number): number;
}

/** Smallest of 1, 2, 5 times a power of ten that is not below `step`. */
function roundStep(step: number): number {
  const decade = 10 ** Math.floor(Math.log10(step) + 1e-9);
  const lead = step / decade;
  const nice = lead <= 1 + 1e-9 ? 1 : lead <= 2 + 1e-9 ? 2 : lead <= 5 + 1e-9 ? 5 : 10;
  return Number((nice * decade).toPrecision(12));
}

/** Spans below which a fitted scale would magnify noise, by unit; common practice. Others: 2 % of the size of the value. */
const leastSpans: ReadonlyMap<string, number> = new Map([
  ["V", 0.2],
  ["1/min", 100],
  ["%", 4],
  ["km/h", 4],
  ["degC", 4],
  ["g/s", 1],
  ["kPa", 4],
  ["mA", 0.2],
]);

/** Free share of the scale above and below what it shows. */
const air = 0.06;
/** The scale in force stays while what is shown fills at least this share of it. */
const stillFull = 0.6;

/**
 * A scale for what the view holds: round ends with a little air, and held still while it still fits well, so that it
 * does not flicker while panning.
 *
 * @param extent lowest and highest value shown; null where there is none.
 * @param before the scale in force, if any.
 */
export function fitRange(extent: Range | null, unit: string, before: Range | null): Range {
  if (extent === null) return before ?? [0, leastSpans.get(unit) ?? 1];
  const [low, high] = widened(extent, unit);
  if (before !== null && stillFits(before, extent, high - low)) return before;
  const step = roundStep((high - low) / 20);
  const pad = (high - low) * air;
  return [onStep(Math.floor((low - pad) / step), step), onStep(Math.ceil((high + pad) / step), step)];
}

function widened([low, high]: Range, unit: string): Range {
  const least = leastSpans.get(unit) ?? Math.max(0.02 * Math.max(Math.abs(low), Math.abs(high)), 1e-6);
  const lack = least - (high - low);
  return lack > 0 ? [low - lack / 2, high + lack / 2] : [low, high];
}

function stillFits(before: Range, [low, high]: Range, wanted: number): boolean {
  return before[0] <= low && high <= before[1] && wanted >= stillFull * (before[1] - before[0]);
}

const onStep = (count: number, step: number): number => Number((count * step).toPrecision(12));
