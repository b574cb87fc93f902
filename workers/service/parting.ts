// A recording that is larger than memory should hold goes into storage while it is read.

import { PartialPace } from "../../src/capture/bytes/partial-pace.ts";
import type { Capture } from "../../src/capture/model/capture.ts";
import type { PartSink } from "../../src/capture/model/reader.ts";
import { KeptBody } from "../held/kept-body.ts";
import type { Begun, CaptureStore, KeptFile, ToKeep } from "../store/capture-store.ts";

/** Bytes of columns of a part, unless there is even less room. */
const usualPart = 16 << 20;

interface Ways {
  readonly store: CaptureStore;
  /** Bytes; see `Engine.room`. */
  readonly room: number;
  readonly signal: AbortSignal;
  /** Takes what can be seen of the recording by now. What was shown before must not be used any more. */
  shown(body: KeptBody): void;
}

export class Parting implements PartSink {
  readonly bytes: number;
  /** Bytes of the recording's columns, about; 0 before they are known. */
  expected = 0;
  private readonly ways: Ways;
  private readonly pace = new PartialPace();
  private begun: Begun | null = null;

  constructor(ways: Ways) {
    this.ways = ways;
    this.bytes = Math.min(usualPart, ways.room / 4);
  }

  wants(bytes: number): boolean {
    this.expected = bytes;
    return bytes > this.ways.room;
  }

  /** @throws ProblemError "storage-full", "storage-denied"; the signal's reason */
  async take(part: Capture): Promise<void> {
    const { store, signal, shown } = this.ways;
    const isFirst = this.begun === null;
    this.begun ??= await store.begin(this.expected, signal);
    const { writer } = this.begun;
    await writer.take(part);
    // What was shown before the first part lies in memory that is used again.
    if (isFirst) shown(this.soFar());
    else this.pace.offer(writer.rows, () => shown(this.soFar()));
  }

  /** Whether parts were taken. */
  get isBegun(): boolean {
    return this.begun !== null;
  }

  soFar(): KeptBody {
    const { writer, handle } = this.begun!;
    return new KeptBody({ ...writer.soFar(), handle });
  }

  /** The capture in storage, under its name. @throws as `take` */
  finish(capture: Capture, labels: Omit<ToKeep, "body">): Promise<KeptFile> {
    return this.begun!.finish(capture, labels);
  }

  /** Leaves nothing behind; what cannot be removed now goes at the next sweep. */
  async discard(): Promise<void> {
    const { begun } = this;
    this.begun = null;
    await begun?.discard().catch(() => {});
  }
}
