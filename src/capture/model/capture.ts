// The model of one loaded recording. Readers make it, everything else reads it.

import type { AnySeries, Series } from "../../signal/series/series.ts";
import type { Words } from "../../signal/written/words.ts";

/** What a channel is. "front" is before the catalyst, "rear" after it. */
export const roles = [
  "front-o2",
  "rear-o2",
  "front-lambda",
  "engine-speed",
  "throttle",
  "road-speed",
  "air-flow",
  "short-trim",
  "long-trim",
  "coolant-temp",
  "catalyst-temp",
  "fuel-status",
  "engine-load",
  "manifold-pressure",
  "other",
] as const;
export type Role = (typeof roles)[number];

export type Bank = 1 | 2;

export interface Channel {
  /** Stable within the capture, and the same when the same file is read again: "c2" is the file's second column, however it is read. */
  readonly id: string;
  /** As the file names it, unit taken off. */
  readonly name: string;
  /** Unit of the samples. Quantities we know are converted to the units of the reading type when read. */
  readonly unit: string;
  /** Unit as the file writes it; "" where it says none. */
  readonly fileUnit: string;
  /** The unit its numbers were taken to be in where the file says none, or the user said otherwise. */
  readonly assumedUnit?: string;
  readonly role: Role;
  readonly bank: Bank;
  readonly series: Series;
  /** One row per instant, below 20 rows/s, no stamp of its own: each value may be older than its stamp. */
  readonly polled: boolean;
  /** Words of the file behind the numbers of a text-valued channel (fuel status), by number. */
  readonly words?: Readonly<Record<number, string>>;
}

/** Something dropped, guessed or repaired while reading: counted and located. */
/** What kind of remark it is, where something is done about it: never told from its words. */
export type RemarkCode = "looks-swapped" | "looks-clipped" | "parts-of-full-scale";

export interface Remark {
  readonly code?: RemarkCode;
  readonly text: string;
  /** The same where it holds quantities, so that who shows it writes them (`remarkText`). */
  readonly words?: Words;
  /** "line 12" */
  readonly where?: string;
  readonly count?: number;
}

/** A channel that need not be in memory. */
export interface AnyChannel extends Omit<Channel, "series"> {
  readonly series: AnySeries;
}

export interface Capture {
  /** The file's name. */
  readonly name: string;
  /** What kind of file it was, in plain words: "comma-separated text", "WAV". */
  readonly format: string;
  /** Instant of the first sample where the file says it, ISO 8601; else null. Channel times start at 0 there. */
  readonly startedAt: string | null;
  readonly channels: readonly Channel[];
  readonly remarks: readonly Remark[];
}
