// Readings and numbers in words, for sentences that are read aloud.

import type { Reading, Unit } from "../../signal/numbers/reading.ts";
import { formatSpan, formatValue, readingInWords } from "../../signal/written/reading-text.ts";
import type { ActivityReadingName, Stretch } from "./analysis.ts";

/** Three significant digits: "0.0523", "1.2", "2400". */
export const number = (value: number): string => (Number.isFinite(value) ? formatValue(value, "1") : "unknown");

/** "0.45 V", in the unit chosen for its kind; ratios and counts stand alone. */
export const quantity = (value: number, unit: Unit | string): string => formatValue(value, unit);

/** A ratio as a share of the front's: "4 % (3 … 6)". */
export const asShare = (reading: Reading): string => inWords(inPercent(reading));

/** A ratio as people read it beside a share in words. */
export function inPercent(ratio: Reading): Reading {
  const times = (value: number | null) => (value === null ? null : 100 * value);
  return { ...ratio, value: times(ratio.value), low: times(ratio.low), high: times(ratio.high), unit: "%" };
}

/** Readings of the rear over the front that are shares of the front's, and read in percent. */
const shares: ReadonlySet<string> = new Set<ActivityReadingName>([
  "crossingRatio",
  "amplitudeRatio",
  "ownLevelRatio",
  "lengthRatio",
  "bandRatio",
]);

/** @param name of the reading, or of one that ends in it: "cruise.amplitudeRatio". */
export const asRead = (name: string, reading: Reading): Reading =>
  shares.has(name.slice(name.lastIndexOf(".") + 1)) ? inPercent(reading) : reading;

/** "1.2 s (1.1 … 1.3)", "at least 3.1 s", "at most 0.2 s", "not measurable": as it stands everywhere else. */
export const inWords = readingInWords;

/** "in 90 ms (80 … 100)"; where the samples only bound it, "within 0.38 s". */
export const withinTime = (reading: Reading): string =>
  reading.grade === "measured" || reading.high === null
    ? `in ${inWords(reading)}`
    : `within ${quantity(reading.high, reading.unit)}`;

/** "12 … 48 s" */
export const spanInWords = formatSpan;

/** "12 … 48 s", and whether a hand put its kind right. */
export const stretchSpan = (stretch: Pick<Stretch, "from" | "to" | "origin">): string =>
  `${spanInWords(stretch)}${stretch.origin === "user" ? ", corrected by hand" : ""}`;

/** "cruise 12 … 48 s": names a stretch within the name of a reading. */
export const stretchInWords = (stretch: Pick<Stretch, "kind" | "from" | "to" | "origin">): string =>
  `${stretch.kind} ${stretchSpan(stretch)}`;

/** "no event", "one event", "3 events" */
export const counted = (count: number, one: string, more = `${one}s`): string =>
  count === 0 ? `no ${one}` : count === 1 ? `one ${one}` : `${count} ${more}`;

/** "It rested at 0.45 V" said of a sensor by its name: "The rear sensor rested at 0.45 V". */
export const saidOf = (place: "front" | "rear", says: string): string => says.replace(/^It /, `The ${place} sensor `);

/** Parts put together into a text, where one of them may have been empty. */
export const tidied = (text: string): string => text.replace(/ {2,}/g, " ").trim();

/** A sentence to be told within another: no capital article, no full stop. */
export const clause = (text: string): string => withoutStop(text).replace(/^The/, "the");

export const withoutStop = (text: string): string => text.replace(/[.]$/, "");

/** First letter raised, one full stop at the end. */
export function sentence(text: string): string {
  const trimmed = text.trim().replace(/[.\s]+$/, "");
  return `${trimmed.charAt(0).toUpperCase()}${trimmed.slice(1)}.`;
}
