// What every reader of a file format offers, and what it is given.

import type { Hertz, Seconds } from "../../signal/numbers/units.ts";
import type { Bank, Capture, Role } from "./capture.ts";

/** Bytes that can be read by range: a Blob in the browser, a file on the command line, memory after unpacking. */
export interface ByteSource {
  readonly name: string;
  readonly size: number;
  /** True where `size` is exact only once all has been read: good for text alone. */
  readonly isSizeGuessed?: boolean;
  /** Bytes [from, to), fewer only at the end. The caller may keep and change what it gets. */
  read(from: number, to: number): Promise<Uint8Array>;
  /** A quicker way to the bytes from `from` on, where there is one. */
  stream?(from: number): ByteStream;
}

/** Bytes in memory, [0, end) of them filled. */
export interface Filled {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly end: number;
}

export interface ByteStream {
  /**
   * Fills `bytes` from place `at` on with what comes next; [0, at) must be the bytes that came last, and stay.
   *
   * @returns the memory to go on with, `bytes` itself or another of the same length: `bytes` must not be used afterwards.
   *          Not full only at the end.
   */
  fill(bytes: Uint8Array<ArrayBuffer>, at: number): Promise<Filled>;
  /** Lets go of what the stream holds. */
  close(): void;
}

/** What the user said, or corrected. Whatever is missing the reader decides, and says so. */
export interface ReadChoices {
  /** Column name -> role. */
  readonly roles?: Readonly<Record<string, Role>>;
  /** Column name -> unit as the user states it. */
  readonly units?: Readonly<Record<string, string>>;
  readonly bank?: Bank;
  /** Samples per second, where the file has no time. */
  readonly rate?: Hertz;
  /** A number that stands for "no value". */
  readonly missing?: number;
  readonly hasHeader?: boolean;
  readonly delimiter?: string;
  readonly decimalMark?: "." | ",";
  readonly timeColumn?: string;
  /** Which number of a date comes first, where its own numbers do not say. */
  readonly dateOrder?: "day-first" | "month-first";
  /** What becomes of rows whose times do not rise, where they are many. */
  readonly disorder?: "leave-out" | "sort";
  /** Seconds in one unit of the time column. */
  readonly timeUnit?: Seconds;
  /** All values of a row were taken at its stamp. */
  readonly rowsAreSimultaneous?: boolean;
  /** Member of an archive. */
  readonly member?: string;
  /** Layout of raw numbers in words, "16-bit whole, 2 channels, 1000 per second"; for WAV only the scaling, "times 5, unit V". */
  readonly layout?: string;
}

/** Takes a recording that is larger than memory should hold, part by part. */
export interface PartSink {
  /** Whether a recording is wanted in parts whose columns take about so many bytes. */
  wants(bytes: number): boolean;
  /** About so many bytes of columns to a part. */
  readonly bytes: number;
  /**
   * Takes the next samples, a multiple of `partGrain` but in the last part. All channels share one time, and go on where they
   * ended before. When it answers, the memory may be used again.
   *
   * @throws ProblemError "storage-full", "storage-denied"; the signal's reason
   */
  take(part: Capture): Promise<void>;
}

/** Samples of all parts but the last are a multiple of this: blocks of samples lie in one part. */
export const partGrain = 64;

/** The recording cannot be handed over in parts: it is to be read as a whole. */
export class NotInParts extends Error {}

export interface ReadReport {
  /** Bytes of the file taken in so far. */
  progress(done: number, total: number): void;
  /**
   * What has been read so far, for a first picture; worth giving some four times a second in a long read. Samples given
   * once stay as they are: a later capture of the same read only adds to them.
   */
  readonly partial?: (capture: Capture) => void;
  /**
   * Where it is given, readers that can hand a large recording over in parts; what they return then holds no samples.
   *
   * They throw `NotInParts` where it turns out not to be possible.
   */
  readonly parts?: PartSink | undefined;
  /** Aborted when the user cancels; the reader then throws a Problem "cancelled". */
  readonly signal: AbortSignal;
}

export interface Reader {
  /** In plain words: "delimited text". */
  readonly name: string;
  /** Looks only at the first bytes; never throws. */
  recognises(head: Uint8Array): boolean;
  /** @throws ProblemError when the bytes are not a usable recording. */
  read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture>;
}
