// The helper's side of measuring: columns sent to it piece by piece, and what is measured on them.

import type { Bank, Capture, Channel } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import type { Comparable } from "../../src/exhaust/comparing/comparison.ts";
import type { Analysis, SpanReadings } from "../../src/exhaust/terms/analysis.ts";
import { type Recall, remembering } from "../../src/exhaust/terms/remembered.ts";
import { type Outcome, settle } from "../../src/problem.ts";
import type { Samples, TimeBase } from "../../src/signal/series/series.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";
import type { StoredChannels } from "../held/taken-capture.ts";
import type { OnProgress, WholeChoices } from "../protocol.ts";
import { measureInMemory, measureInStorage, type PartsRule } from "./measured-in-parts.ts";
import { seldom } from "./progress.ts";

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

  comparable(sent: SentCapture, { identity, bank, choices }: WholeRule, onProgress: OnProgress): Comparable {
    const [capture, recall] = [this.capture(sent), this.memoryOf(identity, choices)];
    const analysis = analyse(capture, { ...choices, bank }, seldom(onProgress), recall);
    return comparableOf(capture, analysis, choices.limits, recall);
  }

  whole(sent: SentCapture, { identity, bank, choices }: WholeRule, onProgress: OnProgress): Analysis {
    return analyse(this.capture(sent), { ...choices, bank }, seldom(onProgress), this.memoryOf(identity, choices));
  }

  /** What was said is remembered as it was written. */
  private memoryOf(subject: string, { writing = plainWriting }: WholeChoices): Recall {
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
