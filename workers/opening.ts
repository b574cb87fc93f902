// Reading one file: its columns, its name, and what can be seen of it meanwhile.

import type { Capture } from "../src/capture/capture.ts";
import type { ReadChoices, ReadReport } from "../src/capture/reader.ts";
import { ProblemError } from "../src/problem.ts";
import type { Engine, ToName } from "./engine.ts";
import { HeldCapture } from "./held-capture.ts";
import { MemoryBody } from "./memory-body.ts";
import type { OnProgress } from "./protocol.ts";
import { atOnce } from "./sha256.ts";
import { summaryOf } from "./summary.ts";

/** Progress is told at most so often, ms: a message costs as much as the reading of half a megabyte. */
const tellEvery = 50;

/** What the page has to ask for a picture before the long search for warnings begins, ms. */
const pictureFirst = 100;

export interface ToOpen extends ToName {
  readonly choices: ReadChoices;
}

export class Opening {
  /** What has been read so far, under a name for the meantime; null before there is any. */
  soFar: HeldCapture | null = null;
  private body: MemoryBody | null = null;
  private done = 0;
  private toldAt = 0;
  private readonly cancelling = new AbortController();
  private readonly toOpen: ToOpen;
  private readonly id: string;

  constructor(toOpen: ToOpen, id: string) {
    this.toOpen = toOpen;
    this.id = id;
  }

  cancel(): void {
    this.cancelling.abort(cancelled(this.toOpen.source.name));
  }

  /** @throws ProblemError as the reader does, "cancelled" too, and "too-large" where memory has no room for the columns. */
  async run(engine: Engine, onProgress: OnProgress): Promise<HeldCapture> {
    const { file, source, choices } = this.toOpen;
    const { signal } = this.cancelling;
    const report: ReadReport = {
      signal,
      progress: (done, total) => {
        this.done = done;
        if (performance.now() - this.toldAt < tellEvery) return;
        this.toldAt = performance.now();
        onProgress(done, total);
      },
      partial: (capture) => onProgress(this.done, file.size, summaryOf(this.grown(capture))),
    };
    const reading = engine.read(source, choices, report);
    const naming = engine.nameOf(this.toOpen, signal, reading);
    naming.catch(() => {}); // where reading fails first, its problem is the one to tell
    try {
      const capture = await reading;
      this.body?.finish(capture);
      // All of it can be seen while the digest of a large file is still being made.
      if (file.size > atOnce) {
        onProgress(file.size, file.size, summaryOf(this.grown(capture)));
        await new Promise((resume) => setTimeout(resume, pictureFirst));
      }
      const warnings = engine.warningsOf(capture, choices.bank ?? 1);
      const id = await naming;
      signal.throwIfAborted();
      const body = this.body ?? new MemoryBody(capture);
      return new HeldCapture({ id, file, body, choices, warnings, room: engine.room });
    } catch (error) {
      const told = isOutOfMemory(error) ? tooLarge(source.name) : error;
      this.cancelling.abort(told);
      throw told;
    }
  }

  private grown(capture: Capture): HeldCapture {
    if (this.body) this.body.grow(capture);
    else this.body = new MemoryBody(capture);
    this.soFar ??= new HeldCapture({ ...this.toOpen, id: this.id, body: this.body });
    return this.soFar;
  }
}

/** What browsers throw when there is no room for an array: they share the kind, not the words. */
const isOutOfMemory = (error: unknown): boolean =>
  error instanceof RangeError && /allocat|memory|array length/i.test(error.message);

function tooLarge(name: string): ProblemError {
  return new ProblemError({
    code: "too-large",
    what: `${name} holds more samples than this browser has memory for.`,
    remedy: "Close other tabs and open it again, or save a shorter part or fewer channels from the recorder.",
  });
}

function cancelled(name: string): ProblemError {
  return new ProblemError({
    code: "cancelled",
    what: `${name} was not opened: reading was cancelled.`,
    remedy: "Open it again when you want it.",
  });
}
