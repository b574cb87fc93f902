// A thread in which one thing at a time is measured. Columns are sent to it in pieces, while windows are answered.

import { proxy, type Remote, releaseProxy, transfer, wrap } from "comlink";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Samples } from "../../src/signal/series/series.ts";
import { lifeOf } from "../life.ts";
import type { OnProgress } from "../protocol.ts";
import type { ColumnsHeld, SentCapture, SentChannel } from "./columns-held.ts";
import { partOf } from "./progress.ts";
import type { Thread } from "./queue.ts";
import type { RehearsedPart } from "./rehearsal.ts";

/** Samples sent at once: some milliseconds of work. */
const pieceLength = 1 << 20;

/** Bytes that are on their way for some hundredths of a second. */
const sentInAnInstant = 48 << 20;

/** Whether a capture's columns are so few that another copy is no matter. */
export const isSentInAnInstant = (capture: Capture): boolean =>
  bytesOf(capture.channels.flatMap(columnsOf)) <= sentInAnInstant;

const bytesOf = (columns: Iterable<Samples>): number =>
  [...columns].reduce((sum, { byteLength }) => sum + byteLength, 0);

/** Share of the time that samples take on their way to the thread. */
const sending = 0.05;

interface Life {
  readonly worker: Worker;
  readonly remote: Remote<ColumnsHeld>;
  /** Nothing is asked before: what it dies of would not be seen. */
  readonly watched: Promise<void>;
  readonly end: Promise<typeof dead>;
}

const dead = Symbol("dead");

function begin(): Life {
  const worker = new Worker(new URL("./measuring.worker.ts", import.meta.url), { type: "module" });
  const remote = wrap<ColumnsHeld>(worker);
  const { watched, end } = lifeOf(worker, (name) => remote.live(name));
  return { worker, remote, watched, end: end.then(() => dead) };
}

export class MeasuringThread implements Thread {
  private life: Life | null = null;
  /**
   * Columns the thread holds, by the number they were sent under: those of its last subject, for what is asked next is mostly about the
   * same, and sending them is felt in an edit.
   */
  private sent = new Map<Samples, number>();
  private subject = "";
  private next = 0;

  /** Starts it, so that what is measured next need not wait for that. */
  start(): Remote<ColumnsHeld> {
    this.life ??= begin();
    return this.life.remote;
  }

  /**
   * Asks the thread; one that dies under it is started again, and asked once more.
   *
   * @throws ProblemError "fault" where it died again; what the work throws. Stopped from elsewhere it never answers.
   */
  async ask<T>(work: (held: Remote<ColumnsHeld>) => Promise<T>): Promise<T> {
    for (let tries = 0; ; tries++) {
      const held = this.start();
      const { life } = this;
      await Promise.race([life!.watched, life!.end]);
      // Stopped meanwhile: what would be sent now would count as held by the next one.
      if (this.life !== life) return new Promise(() => {});
      const answer = await Promise.race([work(held), life!.end]);
      if (answer !== dead) return answer;
      if (this.life !== life) return new Promise(() => {});
      this.stop();
      if (tries > 0) throw new ProblemError(died);
    }
  }

  /** Runs through work that is yet to come, part by part, until `isWanted` for something else. */
  async rehearse(parts: readonly RehearsedPart[], isWanted: () => boolean): Promise<void> {
    for (const part of parts) {
      if (isWanted()) return;
      const held = this.start();
      const { life } = this;
      await Promise.race([life!.watched, life!.end]);
      if (this.life !== life || isWanted()) return;
      await Promise.race([held.rehearse(part), life!.end]);
      if (this.life !== life) return;
    }
  }

  /**
   * Sends a capture's channels, as far as the thread does not hold them, and measures there.
   *
   * @param subject  what they are channels of: columns of another are let go, and of the same those not wanted where they are many.
   */
  measure<T>(
    subject: string,
    capture: Capture,
    onProgress: OnProgress,
    work: (held: Remote<ColumnsHeld>, capture: SentCapture, onProgress: OnProgress) => Promise<T>,
  ): Promise<T> {
    return this.ask(async (held) => {
      const there = await this.send(held, subject, capture, partOf(onProgress, 0, sending));
      return work(held, there, proxy(partOf(onProgress, sending, 1)));
    });
  }

  /** Ends the thread, and with it what is under way and what it holds. */
  stop(): void {
    this.life?.remote[releaseProxy]();
    this.life?.worker.terminate();
    this.life = null;
    this.sent = new Map();
  }

  private async send(
    held: Remote<ColumnsHeld>,
    subject: string,
    capture: Capture,
    onProgress: OnProgress,
  ): Promise<SentCapture> {
    const { sent } = this;
    const wanted = new Set(capture.channels.flatMap(columnsOf));
    const isToGo = subject !== this.subject || bytesOf(new Set([...sent.keys(), ...wanted])) > sentInAnInstant;
    this.subject = subject;
    for (const [column, id] of isToGo ? [...sent] : []) {
      if (wanted.has(column)) continue;
      sent.delete(column);
      await held.drop(id);
    }
    const missing = [...wanted].filter((column) => !sent.has(column));
    const total = bytesOf(missing);
    let done = 0;
    for (const column of missing) {
      const id = this.next++;
      await held.begin(id, column instanceof Float32Array ? "f32" : "f64", column.length);
      for (let at = 0; at < column.length; at += pieceLength) {
        const piece = column.slice(at, at + pieceLength);
        done += piece.byteLength;
        await held.put(id, at, transfer(piece, [piece.buffer]));
        onProgress(done / total, 1);
      }
      sent.set(column, id);
    }
    return { ...capture, channels: capture.channels.map((channel) => named(channel, sent)) };
  }
}

function named({ series, ...labels }: Channel, sent: ReadonlyMap<Samples, number>): SentChannel {
  const { time, samples } = series;
  const sentTime = time.kind === "even" ? time : { ...time, stamps: sent.get(time.stamps)! };
  return { ...labels, time: sentTime, samples: sent.get(samples)! };
}

function columnsOf({ series: { time, samples } }: Channel): Samples[] {
  return time.kind === "even" ? [samples] : [samples, time.stamps];
}

const died = {
  code: "fault",
  what: "The part of the program that measures has stopped twice over this; the browser may have no memory left for it.",
  remedy: "Close other tabs, or choose a shorter span, and try again; nothing that was saved is lost.",
} as const;
