// A capture in the worker's hands, as recorded. What the user corrects makes takes of it.

import type { Capture, Remark } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { asRead, identityOf, type Take } from "../../src/capture/model/take.ts";
import type { Problem } from "../../src/problem.ts";
import type { Body } from "../body/body.ts";
import { MemoryBody } from "../body/memory-body.ts";
import type { KeptFile } from "../store/capture-store.ts";
import { KeptBody } from "./kept-body.ts";
import { TakenCapture } from "./taken-capture.ts";

/** Bytes. */
export const usualRoom = 1.5 * 2 ** 30;
/** Bytes. */
const small = 32 * 2 ** 20;
/** Takes whose corrected samples are kept at hand: that of the bench, and one that lies beside it. */
const mostTakes = 2;

export interface Held {
  readonly id: string;
  /** The bytes that were opened; null where storage had no room for them. */
  readonly file: Blob | null;
  /** Bytes of the file, where it is not at hand. */
  readonly fileSize?: number;
  readonly body: Body;
  readonly choices: ReadChoices;
  readonly warnings?: readonly Remark[];
  /** See `Engine.room`. */
  readonly room?: number | undefined;
}

export class HeldCapture {
  readonly id: string;
  readonly file: Blob | null;
  readonly fileSize: number;
  readonly choices: ReadChoices;
  body: Body;
  /** Of the recording as it was read. */
  readonly warnings: readonly Remark[];
  /** Columns up to this size are held in memory; of larger ones, the part that is asked for. Bytes. */
  readonly room: number;
  /** Settles when storage holds the capture: null, or why it does not. */
  keeping: Promise<Problem | null> = Promise.resolve(null);
  /** Storage was full when somebody was told last; there may be room by now. */
  isToKeepAgain = false;
  private readonly takes = new Map<string, TakenCapture>();
  private readonly leaving = new AbortController();

  constructor({ id, file, fileSize = file?.size ?? 0, body, choices, warnings = [], room = usualRoom }: Held) {
    this.warnings = warnings;
    this.id = id;
    this.file = file;
    this.fileSize = fileSize;
    this.body = body;
    this.choices = choices;
    this.room = room;
  }

  get asRead(): Take {
    return asRead(this.id, this.choices);
  }

  /** As corrected; null where it is not read so. */
  as(take: Take): TakenCapture | null {
    if (identityOf(take.choices) !== identityOf(this.choices)) return null;
    const key = identityOf([take.corrections, take.bank]);
    const taken = this.takes.get(key) ?? new TakenCapture(this, take);
    this.takes.delete(key);
    this.takes.set(key, taken);
    for (const old of [...this.takes.keys()].slice(0, -mostTakes)) this.takes.delete(old);
    return taken;
  }

  /** True while all samples are in memory. */
  get isInMemory(): boolean {
    return !(this.body instanceof KeptBody);
  }

  /** True when it takes no time worth mentioning to bring all samples into memory. */
  get isSmall(): boolean {
    return this.body instanceof KeptBody && this.body.size <= Math.min(small, this.room);
  }

  /** True while memory holds more samples than it should. */
  get isTooLarge(): boolean {
    return this.body instanceof MemoryBody && this.body.size > this.room;
  }

  /** All samples as recorded, in memory from now on. */
  async inMemory(): Promise<Capture> {
    if (this.body instanceof KeptBody) await this.load(this.body);
    return this.body.capture();
  }

  /** Lets go of the samples, which storage holds as well. */
  page(kept: KeptFile): void {
    this.body = new KeptBody(kept);
    this.loading = null;
    this.takes.clear();
    if (this.left.aborted) kept.handle.close();
  }

  /** Ends what is under way for this capture. */
  leave(): void {
    this.leaving.abort();
    if (this.body instanceof KeptBody) this.body.close();
  }

  get left(): AbortSignal {
    return this.leaving.signal;
  }

  private loading: Promise<void> | null = null;

  private load(body: KeptBody): Promise<void> {
    this.loading ??= body.inMemory().then((inMemory) => {
      this.body = inMemory;
      body.close();
    });
    return this.loading;
  }
}
