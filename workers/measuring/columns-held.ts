// The helper's side of measuring: columns sent to it piece by piece, and what is measured on them.

import type { Bank, Capture, Channel } from "../../src/capture/model/capture.ts";
import { analyse, storeStudyOf } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import { firstLook } from "../../src/exhaust/first-look.ts";
import { healthyTrace } from "../../src/exhaust/healthy-trace.ts";
import type { HealthyTrace } from "../../src/exhaust/store/healthy.ts";
import type { Analysis, SpanReadings } from "../../src/exhaust/terms/analysis.ts";
import { anew, answering, type Recall, remembering } from "../../src/exhaust/terms/remembered.ts";
import type { StoreStudy } from "../../src/exhaust/terms/store-study.ts";
import { type Outcome, settle } from "../../src/problem.ts";
import type { Samples, TimeBase } from "../../src/signal/series/series.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";
import type { StoredChannels } from "../held/taken-capture.ts";
import { holdLife } from "../life.ts";
import type { HealthyRequest, OnProgress, WholeChoices } from "../protocol.ts";
import { measureInMemory, measureInStorage, type PartsRule } from "./measured-in-parts.ts";
import { seldom } from "./progress.ts";
import { madeUp, type RehearsedPart } from "./rehearsal.ts";

/** A time base whose stamps are named by the number they were sent under. */
export type SentTime =
  | Extract<TimeBase, { kind: "even" }>
  | (Omit<Extract<TimeBase, { kind: "stamped" }>, "stamps"> & { readonly stamps: number });

export interface SentChannel extends Omit<Channel, "series"> {
  readonly time: SentTime;
  readonly samples: number;
}

export interface SentCapture extends Omit<Capture, "channels"> {
  readonly channels: readonly SentChannel[];
}

/** The whole of a subject. */
export interface WholeRule {
  readonly identity: string;
  readonly bank: Bank;
  readonly choices: WholeChoices;
}

/** Recordings whose answers are remembered: the one on the bench, and those it is compared with. */
const mostRemembered = 4;

export class ColumnsHeld {
  private readonly columns = new Map<number, Samples>();
  /** What was measured of each subject, by its identity; the last used last. */
  private readonly memories = new Map<string, Recall>();

  /** See `life.ts`. */
  live(name: string): Promise<void> {
    return holdLife(name);
  }

  /** Makes room for a column. */
  begin(id: number, kind: "f32" | "f64", length: number): void {
    this.columns.set(id, kind === "f32" ? new Float32Array(length) : new Float64Array(length));
  }

  put(id: number, at: number, piece: Samples): void {
    this.columns.get(id)!.set(piece, at);
  }

  drop(id: number): void {
    this.columns.delete(id);
  }

  measure(sent: SentCapture, rule: Omit<PartsRule, "onProgress">, onProgress: OnProgress): SpanReadings {
    return measureInMemory(this.capture(sent), { ...rule, onProgress });
  }

  /** Of a capture that is read out of storage; see `measureInStorage`. */
  measureStored(
    stored: StoredChannels,
    rule: Omit<PartsRule, "onProgress">,
    onProgress: OnProgress,
  ): Promise<Outcome<SpanReadings>> {
    return settle(() => measureInStorage(stored, { ...rule, onProgress }));
  }

  /** @param known  the whole with this rule; measured where it is not at hand. */
  comparable(sent: SentCapture, rule: WholeRule, known: Analysis | null, onProgress: OnProgress): Comparable {
    const analysis = known ?? this.whole(sent, rule, onProgress);
    return comparableOf(this.capture(sent), analysis, rule.choices.limits, this.memoryOf(rule));
  }

  whole(sent: SentCapture, rule: WholeRule, onProgress: OnProgress): Analysis {
    return this.analysed(sent, rule, onProgress, this.memoryOf(rule));
  }

  /** See `firstLook`; nothing of it is remembered. */
  firstLook(sent: SentCapture, { bank, choices }: WholeRule): Analysis | null {
    writeAs(choices.writing ?? plainWriting);
    return firstLook(this.capture(sent), { ...choices, bank });
  }

  /** Measures all but the store, and remembers it. */
  wholeButStore(sent: SentCapture, rule: WholeRule, onProgress: OnProgress): void {
    this.analysed(sent, rule, onProgress, answering(this.memoryOf(rule), "store", null));
  }

  /** The store alone; for another thread than `wholeButStore`. */
  store(sent: SentCapture, rule: WholeRule): StoreStudy | null {
    const recall = this.memoryOf(rule);
    return storeStudyOf(this.capture(sent), { ...rule.choices, bank: rule.bank }, recall);
  }

  /** The whole, with a store that another thread has measured. */
  wholeWithStore(sent: SentCapture, rule: WholeRule, study: StoreStudy | null): Analysis {
    return this.analysed(sent, rule, () => {}, answering(this.memoryOf(rule), "store", study));
  }

  private analysed(sent: SentCapture, { bank, choices }: WholeRule, onProgress: OnProgress, recall: Recall): Analysis {
    return analyse(this.capture(sent), { ...choices, bank }, seldom(onProgress), recall);
  }

  /** Runs through the work once on a made-up recording; see `rehearsal.ts`. */
  rehearse(part: RehearsedPart): void {
    const capture = madeUp(part);
    if (part.work === "store") storeStudyOf(capture, {}, anew);
    else analyse(capture, {}, () => {}, answering(anew, "store", null));
  }

  healthy(sent: SentCapture, { bank, choices }: WholeRule, fitted: HealthyRequest["fitted"]): HealthyTrace {
    return healthyTrace(this.capture(sent), { ...choices, bank }, fitted);
  }

  /** What was said is remembered as it was written. */
  private memoryOf({ identity: subject, choices: { writing = plainWriting } }: WholeRule): Recall {
    writeAs(writing);
    const identity = JSON.stringify([subject, writing]);
    const memory = this.memories.get(identity) ?? remembering();
    this.memories.delete(identity);
    this.memories.set(identity, memory);
    for (const old of [...this.memories.keys()].slice(0, -mostRemembered)) this.memories.delete(old);
    return memory;
  }

  private capture({ channels, ...labels }: SentCapture): Capture {
    const found = channels.map(({ time, samples, ...channel }): Channel => {
      const base: TimeBase =
        time.kind === "even" ? time : { ...time, stamps: this.columns.get(time.stamps) as Float64Array };
      return { ...channel, series: { time: base, samples: this.columns.get(samples)! } };
    });
    return { ...labels, channels: found };
  }
}
