// Reading one file: its columns, its name, and what can be seen of it meanwhile.

import type { Capture } from "../../src/capture/model/capture.ts";
import { NotInParts, type ReadChoices, type ReadReport } from "../../src/capture/model/reader.ts";
import type { Body } from "../body/body.ts";
import { MemoryBody } from "../body/memory-body.ts";
import type { Engine, ToName } from "../held/engine.ts";
import { HeldCapture, usualRoom } from "../held/held-capture.ts";
import { KeptBody } from "../held/kept-body.ts";
import { atOnce } from "../naming/sha256.ts";
import type { OnProgress } from "../protocol.ts";
import { cancelled, isOutOfMemory, noRoom, storageTrouble, tooLarge } from "./opening-problems.ts";
import { Parting } from "./parting.ts";
import { summaryOf } from "./summary.ts";

/** Progress is told at most so often, ms: a message costs as much as the reading of half a megabyte. */
const tellEvery = 50;

/** What the page has to ask for a picture before the long search for warnings begins, ms. */
const pictureFirst = 100;

export interface ToOpen extends ToName {
  readonly choices: ReadChoices;
}

/** A recording read: all of it, or where its parts are. */
interface Read {
  readonly capture: Capture;
  readonly parting: Parting | null;
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
  private readonly engine: Engine;
  private readonly onProgress: OnProgress;
  private readonly report: ReadReport;

  /** @param id  good until the file has its name. */
  constructor(toOpen: ToOpen, id: string, engine: Engine, onProgress: OnProgress) {
    this.toOpen = toOpen;
    this.id = id;
    this.engine = engine;
    this.onProgress = onProgress;
    this.report = {
      signal: this.cancelling.signal,
      progress: (done, total) => {
        this.done = done;
        if (performance.now() - this.toldAt < tellEvery) return;
        this.toldAt = performance.now();
        onProgress(done, total);
      },
      partial: (capture) => this.tell(this.done, this.grown(capture)),
    };
  }

  cancel(): void {
    this.cancelling.abort(cancelled(this.toOpen.source.name));
  }

  /**
   * @throws ProblemError as the reader does, "cancelled" too, "too-large" where memory has no room for the columns, and
   *         "storage-full" or "storage-denied" where storage has none either.
   */
  async run(): Promise<HeldCapture> {
    const { source } = this.toOpen;
    const reading = this.read();
    const naming = this.engine.nameOf(this.toOpen, this.cancelling.signal, reading);
    naming.catch(() => {}); // where reading fails first, its problem is the one to tell
    try {
      const { capture, parting } = await reading;
      return parting ? await this.parted(capture, parting, naming) : await this.whole(capture, naming);
    } catch (error) {
      const told = isOutOfMemory(error) ? tooLarge(source.name) : error;
      this.cancelling.abort(told);
      throw told;
    }
  }

  /** Part by part where the columns are large; as a whole where that is not possible. */
  private async read(): Promise<Read> {
    const { source, choices } = this.toOpen;
    const { store, room = usualRoom } = this.engine;
    if (!store) return { capture: await this.engine.read(source, choices, this.report), parting: null };
    const { signal } = this.cancelling;
    const parting = new Parting({ store, room, signal, shown: (body) => this.tell(this.done, body) });
    try {
      const capture = await this.engine.read(source, choices, { ...this.report, parts: parting });
      return { capture, parting: parting.isBegun ? parting : null };
    } catch (error) {
      return { capture: await this.inMemory(parting, error), parting: null };
    }
  }

  /** Reads the file into memory as far as that may do, when storage or the recording stood against parts. */
  private async inMemory(parting: Parting, why: unknown): Promise<Capture> {
    const { source, choices } = this.toOpen;
    const discarded = parting.discard();
    const trouble = storageTrouble(why);
    // Who cancels need not wait for the browser to clear up.
    if (this.cancelling.signal.aborted || !(trouble || why instanceof NotInParts)) throw why;
    await discarded;
    // Nothing of what was shown is left.
    this.soFar = null;
    this.body = null;
    const refusal = trouble ? noRoom(source.name, trouble) : tooLarge(source.name);
    if (parting.expected > mostInMemory()) throw refusal;
    try {
      return await this.engine.read(source, choices, this.report);
    } catch (error) {
      throw isOutOfMemory(error) ? refusal : error;
    }
  }

  private async whole(capture: Capture, naming: Promise<string>): Promise<HeldCapture> {
    const { file, choices } = this.toOpen;
    const { engine } = this;
    this.body?.finish(capture);
    // All of it can be seen while the digest of a large file is still being made.
    if (file.size > atOnce) {
      this.tell(file.size, this.grown(capture));
      await new Promise((resume) => setTimeout(resume, pictureFirst));
    }
    const warnings = engine.warningsOf(capture, choices.bank ?? 1);
    const id = await naming;
    this.cancelling.signal.throwIfAborted();
    const body = this.body ?? new MemoryBody(capture);
    return new HeldCapture({ id, file, body, choices, warnings, room: engine.room });
  }

  private async parted(capture: Capture, parting: Parting, naming: Promise<string>): Promise<HeldCapture> {
    const { file, choices } = this.toOpen;
    const { room } = this.engine;
    const written = parting.soFar();
    try {
      this.tell(file.size, written);
      const warnings = await this.warningsOf(written);
      const id = await naming;
      this.cancelling.signal.throwIfAborted();
      this.soFar = null; // its file is about to be moved
      const kept = await parting.finish(capture, { id, file, choices, warnings });
      return new HeldCapture({ id, file, body: new KeptBody(kept), choices, warnings, room });
    } catch (error) {
      return this.whole(await this.inMemory(parting, error), naming);
    }
  }

  /** Looked for in the middle: a few million samples tell, and all may not be in memory. */
  private async warningsOf(body: KeptBody): Promise<HeldCapture["warnings"]> {
    const { bank = 1 } = this.toOpen.choices;
    const sensors = body.channels.filter(({ role, bank: its }) => /^(front|rear)-o2$/.test(role) && its === bank);
    const ids = sensors.map(({ id }) => id);
    return this.engine.warningsOf(await body.capture({ span: body.middle(middleSamples), ids }), bank);
  }

  private tell(done: number, body: Body): void {
    this.soFar ??= new HeldCapture({ ...this.toOpen, id: this.id, body });
    this.soFar.body = body;
    this.onProgress(done, this.toOpen.file.size, summaryOf(this.soFar));
  }

  private grown(capture: Capture): MemoryBody {
    if (this.body) this.body.grow(capture);
    else this.body = new MemoryBody(capture);
    return this.body;
  }
}

const middleSamples = 2_000_000;

/** Bytes of columns that are not even tried to be brought into memory: half of what the machine has, or is taken to have. */
function mostInMemory(): number {
  const { deviceMemory = 8 } = navigator as Navigator & { readonly deviceMemory?: number };
  return deviceMemory * 2 ** 29;
}
