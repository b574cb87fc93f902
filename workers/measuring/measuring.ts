// Measuring large spans in a thread of its own. The columns are sent once, in pieces, while windows are answered.

import { type Remote, releaseProxy, transfer, wrap } from "comlink";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import { ProblemError } from "../../src/problem.ts";
import type { Samples } from "../../src/signal/series/series.ts";
import type { OnProgress } from "../protocol.ts";
import type { ColumnsHeld, SentCapture, SentChannel } from "./columns-held.ts";

/** Samples sent at once: some milliseconds of work. */
const pieceLength = 1 << 20;

type Wish<T> = (held: Remote<ColumnsHeld>, send: (capture: Capture) => Promise<SentCapture>) => Promise<T>;

/** One thread; one measurement at a time. */
export class MeasuringThread {
  private worker: Worker | null = null;
  private remote: Remote<ColumnsHeld> | null = null;
  private readonly sent = new Map<Samples, number>();
  private next = 0;
  private stop: ((reason: ProblemError) => void) | null = null;

  /**
   * Runs `wish`, which may send a capture's channels. A measurement under way is given up.
   *
   * @param onProgress  told the share of a capture that is sent, and 1.
   */
  async run<T>(wish: Wish<T>, onProgress: OnProgress = () => {}): Promise<T> {
    this.cancel();
    let mine!: (reason: ProblemError) => void;
    const stopped = new Promise<never>((_, reject) => {
      mine = reject;
    });
    stopped.catch(() => {});
    this.stop = mine;
    try {
      const held = this.start();
      const send = (capture: Capture) => this.send(held, capture, onProgress, stopped);
      return await Promise.race([wish(held, send), stopped]);
    } finally {
      if (this.stop === mine) this.stop = null;
    }
  }

  /** Frees what the thread holds, unless a newer measurement is under way. */
  rest(): void {
    if (!this.stop) this.close();
  }

  /** Gives up what is under way; the columns are gone with the thread. */
  cancel(): void {
    this.stop?.(new ProblemError(overtaken));
    if (this.stop) this.close();
    this.stop = null;
  }

  /** Ends the thread and frees what it holds. */
  close(): void {
    this.remote?.[releaseProxy]();
    this.worker?.terminate();
    this.worker = null;
    this.remote = null;
    this.sent.clear();
  }

  private start(): Remote<ColumnsHeld> {
    this.worker ??= new Worker(new URL("./measuring.worker.ts", import.meta.url), { type: "module" });
    this.remote ??= wrap<ColumnsHeld>(this.worker);
    return this.remote;
  }

  private async send(
    held: Remote<ColumnsHeld>,
    capture: Capture,
    onProgress: OnProgress,
    stopped: Promise<never>,
  ): Promise<SentCapture> {
    const wanted = new Set(capture.channels.flatMap(columnsOf));
    for (const [column, id] of this.sent) {
      if (wanted.has(column)) continue;
      this.sent.delete(column);
      await held.drop(id);
    }
    const missing = [...wanted].filter((column) => !this.sent.has(column));
    const total = missing.reduce((sum, { byteLength }) => sum + byteLength, 0);
    let done = 0;
    for (const column of missing) {
      const id = this.next++;
      await held.begin(id, column instanceof Float32Array ? "f32" : "f64", column.length);
      for (let at = 0; at < column.length; at += pieceLength) {
        const piece = column.slice(at, at + pieceLength);
        done += piece.byteLength;
        await Promise.race([held.put(id, at, transfer(piece, [piece.buffer])), stopped]);
        onProgress(done / total, 1);
      }
      this.sent.set(column, id);
    }
    return { ...capture, channels: capture.channels.map((channel) => this.named(channel)) };
  }

  private named({ series, ...labels }: Channel): SentChannel {
    const { time, samples } = series;
    const sentTime = time.kind === "even" ? time : { ...time, stamps: this.sent.get(time.stamps)! };
    return { ...labels, time: sentTime, samples: this.sent.get(samples)! };
  }
}

function columnsOf({ series: { time, samples } }: Channel): Samples[] {
  return time.kind === "even" ? [samples] : [samples, time.stamps];
}

const overtaken = {
  code: "cancelled",
  what: "This measurement was given up for a newer one.",
  remedy: "Nothing to do: the newer one follows.",
} as const;
