// What the capture service works with: given to it, so that tests can give it something else.

import type { Bank, Capture, Remark } from "../../src/capture/model/capture.ts";
import type { ByteSource, ReadChoices, ReadReport } from "../../src/capture/model/reader.ts";
import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import type { HealthyTrace } from "../../src/exhaust/store/healthy.ts";
import type { Analysis, Span } from "../../src/exhaust/terms/analysis.ts";
import type { LimitOverrides } from "../../src/exhaust/terms/limits.ts";
import type { HealthyRequest, SpanReadings, Turn, WholeChoices, Written } from "../protocol.ts";
import type { Version } from "../store/answers.ts";
import type { CaptureStore } from "../store/capture-store.ts";
import type { StoredChannels } from "./taken-capture.ts";

/** What is measured on. */
export interface Subject {
  /** The same for what has the same samples, labels and bank. */
  readonly identity: string;
  readonly bank: Bank;
  /** Brings its channels into memory; `onShare` is told how much of that is done where it takes long. */
  bring(onShare: (share: number) => void): Promise<Capture>;
}

export interface SpanRule extends Written {
  readonly span: Span;
  readonly limits: LimitOverrides;
  readonly withLevels?: boolean;
}

export type HealthyRule = Omit<HealthyRequest, "take">;

export interface ToName {
  readonly file: Blob;
  readonly source: ByteSource;
}

/** Everything measured ends with a ProblemError "cancelled" where it was given up. */
export interface Engine {
  /** Runs through the work of a first answer on a made-up recording, until `isWanted` for a real one. */
  rehearse?(isWanted: () => boolean): Promise<void>;
  read(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture>;
  /** SHA-256 of the file's bytes, hex; `reading` is the reading of the same file that is under way. */
  nameOf(file: ToName, signal: AbortSignal, reading: Promise<unknown>): Promise<string>;
  warningsOf(capture: Capture, bank: Bank): readonly Remark[];
  measure(subject: Subject, rule: SpanRule, turn: Turn): Promise<SpanReadings>;
  /** The same of channels that are read out of storage part by part. */
  measureStored(stored: StoredChannels, bank: Bank, rule: SpanRule, turn: Turn): Promise<SpanReadings>;
  whole(subject: Subject, choices: WholeChoices, turn: Turn): Promise<Analysis>;
  /** Null where it would take hardly less than the whole, or its samples are not in memory. */
  firstLook(subject: Subject, choices: WholeChoices, turn: Turn): Promise<Analysis | null>;
  healthy(subject: Subject, rule: HealthyRule, turn: Turn): Promise<HealthyTrace>;
  /** @param known  the whole with the same choices, where it is at hand: then it is not measured again. */
  comparable(subject: Subject, choices: WholeChoices, turn: Turn, known: Analysis | null): Promise<Comparable>;
  /** Bytes of columns that one capture may hold in memory; larger ones are read out of storage by parts. */
  readonly room?: number | undefined;
  /** Names the program that measures: what another one measured is not taken. Null: no answer is kept. */
  readonly version: Version | null;
  /** Null: nothing is kept. */
  readonly store: CaptureStore | null;
}
