// What the capture service works with: given to it, so that tests can give it something else.

import type { Bank, Capture, Remark } from "../../src/capture/model/capture.ts";
import type { ByteSource, ReadChoices, ReadReport } from "../../src/capture/model/reader.ts";
import type { Analysis, Span } from "../../src/exhaust/terms/analysis.ts";
import type { LimitOverrides } from "../../src/exhaust/terms/limits.ts";
import type { Measured, OnProgress, SpanReadings, WholeChoices } from "../protocol.ts";
import type { CaptureStore } from "../store/capture-store.ts";
import type { StoredChannels } from "./held-capture.ts";

export interface MeasureRule {
  readonly limits: LimitOverrides;
  /** Told the share that is done, and 1. */
  readonly onProgress: OnProgress;
}

export interface ToName {
  readonly file: Blob;
  readonly source: ByteSource;
}

export interface Engine {
  read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture>;
  /** SHA-256 of the file's bytes, hex; `reading` is the reading of the same file that is under way. */
  nameOf(file: ToName, signal: AbortSignal, reading: Promise<unknown>): Promise<string>;
  warningsOf(capture: Capture, bank: Bank): readonly Remark[];
  /** A measurement of a span that is under way is given up for a newer one; so is one of the whole. */
  measure(capture: Capture, bank: Bank, span: Span, rule: MeasureRule): SpanReadings | Promise<SpanReadings>;
  /** The same of channels that are read out of storage part by part. */
  measureStored(stored: StoredChannels, bank: Bank, span: Span, rule: MeasureRule): Promise<SpanReadings>;
  whole(capture: Capture, bank: Bank, choices: WholeChoices, onProgress: OnProgress): Analysis | Promise<Analysis>;
  /** What is under way ends with a ProblemError "cancelled". */
  cancelMeasuring(what: Measured): void;
  /** Bytes of columns that one capture may hold in memory; larger ones are read out of storage by parts. */
  readonly room?: number | undefined;
  /** Null: nothing is kept. */
  readonly store: CaptureStore | null;
}
