// The recordings at hand: opened from a file, brought back from storage, kept there and forgotten.

import { blobSource } from "../../src/capture/bytes/sources.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { identityOf, type Take } from "../../src/capture/model/take.ts";
import { type Problem, ProblemError, settle } from "../../src/problem.ts";
import { MemoryBody } from "../body/memory-body.ts";
import type { Engine } from "../held/engine.ts";
import { HeldCapture } from "../held/held-capture.ts";
import { KeptBody } from "../held/kept-body.ts";
import type { TakenCapture } from "../held/taken-capture.ts";
import type { OnProgress, OpenRequest, StoredCapture } from "../protocol.ts";
import type { KeptFile } from "../store/capture-store.ts";
import { Opening } from "./opening.ts";
import {
  columnsDamaged,
  fileDamaged,
  fileNotKept,
  fileVanished,
  keepsNothing,
  notAtHand,
  notKept,
} from "./service-problems.ts";

/** Recordings whose samples stay in memory: that of the bench, and one beside it. */
const mostInMemory = 2;
/** The others' are let go of when nobody has asked for another recording for so long, ms. */
const atRest = 1_000;

/** Bytes of columns. */
const checkedFirst = 32 << 20;
/** ms */
const firstPicture = 1_000;

export class Recordings {
  private readonly engine: Engine;
  /** The last used last. */
  private readonly captures = new Map<string, HeldCapture>();
  private resting: ReturnType<typeof setTimeout> | undefined;
  /** What keeps other tabs from taking a capture for one that nobody uses. */
  private readonly holds = new Map<string, Promise<() => void>>();
  /** Digests of files' bytes that were looked through since they came to hand. */
  private readonly digests = new Map<string, Promise<string>>();
  /** A recording was asked for. */
  isUsed = false;
  private opening: Opening | null = null;
  private openings = 0;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  /** A capture at hand, or the one that is being read; null where it is read otherwise than the take says. */
  find(take: Take): TakenCapture | null {
    const soFar = this.opening?.soFar;
    this.use(take.captureId);
    const held = this.captures.get(take.captureId) ?? (soFar?.id === take.captureId ? soFar : undefined);
    return held?.as(take) ?? null;
  }

  /** @throws ProblemError "unreadable" where it is not at hand. */
  take(take: Take): TakenCapture {
    const found = this.find(take);
    if (!found) throw new ProblemError(notAtHand);
    return found;
  }

  held(captureId: string): HeldCapture | null {
    return this.captures.get(captureId) ?? null;
  }

  /** @throws ProblemError as `Opening.run`. */
  async open({ file, name, choices }: OpenRequest, onProgress: OnProgress): Promise<HeldCapture> {
    this.isUsed = true;
    this.opening?.cancel();
    const toOpen = { file, source: blobSource(file, name), choices };
    const mine = new Opening(toOpen, `reading-${++this.openings}`, this.engine, onProgress);
    this.opening = mine;
    try {
      const held = await mine.run();
      this.captures.get(held.id)?.leave();
      this.put(held.id, held);
      this.digests.set(held.id, Promise.resolve(held.id));
      this.keep(held);
      return held;
    } finally {
      if (this.opening === mine) this.opening = null;
    }
  }

  cancelOpen(): void {
    this.opening?.cancel();
  }

  /** At hand, or out of storage; read from the file's bytes where it was read otherwise. @throws ProblemError "unreadable" */
  async reopen(captureId: string, choices: ReadChoices): Promise<HeldCapture> {
    this.isUsed = true;
    const held = this.captures.get(captureId);
    const isAsked = (one: { readonly choices: ReadChoices }) => identityOf(one.choices) === identityOf(choices);
    if (held && isAsked(held)) return held;
    const found = held ? null : await this.engine.store?.find(captureId);
    if (found && isAsked(found.kept) && (await this.isWholeIfSmall(captureId, found.kept.size))) {
      return this.outOfStorage(captureId, found);
    }
    found?.handle.close();
    const kept = held ? null : await this.engine.store?.file(captureId);
    const file = held?.file ?? kept;
    if (!file) throw new ProblemError(held || found ? fileNotKept : notKept);
    const name = held?.body.name ?? kept?.name ?? "";
    await this.checkName(captureId, file, name);
    return this.open({ file, name, choices }, () => {});
  }

  async file(captureId: string): Promise<Blob | null> {
    return this.captures.get(captureId)?.file ?? (await this.engine.store?.file(captureId)) ?? null;
  }

  /** The same, if its bytes are what was opened. @throws ProblemError "unreadable", "damaged" */
  async wholeFile(captureId: string): Promise<Blob> {
    const file = await this.file(captureId);
    if (!file) throw new ProblemError(fileNotKept);
    await this.checkName(captureId, file, this.captures.get(captureId)?.body.name ?? "");
    return file;
  }

  /** Of the file's bytes at hand. @throws ProblemError "unreadable" without any. */
  async sha256(captureId: string): Promise<string> {
    const known = this.digests.get(captureId);
    if (known) return known;
    const file = await this.file(captureId);
    if (!file) throw new ProblemError(fileNotKept);
    const found = this.digestOf(file, this.captures.get(captureId)?.body.name ?? "");
    this.digests.set(captureId, found);
    found.catch(() => this.digests.delete(captureId));
    return found;
  }

  private digestOf(file: Blob, name: string): Promise<string> {
    const { signal } = new AbortController();
    return this.engine.nameOf({ file, source: blobSource(file, name) }, signal, Promise.resolve());
  }

  /** Where storage was full when it was asked last, or was emptied since, keeping is tried once more. */
  async kept(captureId: string, wasEmptied = false): Promise<Problem | null> {
    const held = this.captures.get(captureId);
    if (!held) return notAtHand;
    if (wasEmptied && (await held.keeping) === null && !(await this.isStored(captureId))) {
      if (!held.isInMemory) return notKept;
      held.isToKeepAgain = true;
    }
    if (held.isToKeepAgain) this.keep(held);
    const problem = await held.keeping;
    held.isToKeepAgain = problem?.code === "storage-full";
    return problem;
  }

  async forget(captureId: string): Promise<void> {
    this.drop(captureId);
    await this.engine.store?.remove(captureId);
  }

  async stored(): Promise<readonly StoredCapture[]> {
    return (await this.engine.store?.list()) ?? [];
  }

  private put(id: string, held: HeldCapture): void {
    this.captures.delete(id);
    this.captures.set(id, held);
    this.restLater();
    const { store } = this.engine;
    if (store && !this.holds.has(id)) this.holds.set(id, store.hold(id));
  }

  private use(id: string): void {
    const held = this.captures.get(id);
    if (!held || [...this.captures.keys()].at(-1) === id) return;
    this.captures.delete(id);
    this.captures.set(id, held);
    this.restLater();
  }

  private restLater(): void {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.restOthers(), atRest);
  }

  /** Lets go of samples that storage holds as well, of all but the recordings used last. */
  private async restOthers(): Promise<void> {
    const others = () => [...this.captures.values()].slice(0, -mostInMemory);
    for (const held of others()) {
      if (!held.isInMemory || (await held.keeping) !== null) continue;
      const kept = await this.engine.store?.find(held.id).catch(() => null);
      if (!kept) continue;
      const isThis = identityOf(kept.kept.choices) === identityOf(held.choices);
      if (isThis && held.isInMemory && others().includes(held)) held.page(kept);
      else kept.handle.close();
    }
  }

  private drop(id: string): void {
    this.captures.get(id)?.leave();
    this.captures.delete(id);
    this.digests.delete(id);
    void this.holds.get(id)?.then((release) => release());
    this.holds.delete(id);
  }

  private async outOfStorage(id: string, found: KeptFile): Promise<HeldCapture> {
    const file = (await this.engine.store?.file(id)) ?? null;
    const { warnings, fileSize, choices, size } = found.kept;
    const { room } = this.engine;
    const again = new HeldCapture({ id, file, fileSize, body: new KeptBody(found), choices, warnings, room });
    this.put(id, again);
    if (size > checkedFirst) again.keeping = this.checkedLater(again);
    return again;
  }

  /** Small ones are read whole before anything of them is shown. */
  private async isWholeIfSmall(id: string, size: number): Promise<boolean> {
    const { store } = this.engine;
    if (!store || size > checkedFirst || (await store.isWhole(id, new AbortController().signal))) return true;
    await store.removeColumns(id);
    return false;
  }

  private async isStored(id: string): Promise<boolean> {
    const found = await this.engine.store?.find(id).catch(() => null);
    found?.handle.close();
    return Boolean(found);
  }

  /** What is drawn from bounds before all is read is looked through meanwhile. Null: it is what was written. */
  private async checkedLater(held: HeldCapture): Promise<Problem | null> {
    const { store } = this.engine;
    await new Promise((resolve) => setTimeout(resolve, firstPicture));
    const isWhole = await store?.isWhole(held.id, held.left).catch(() => true); // given up, or it cannot be told
    if (isWhole !== false || this.captures.get(held.id) !== held) return null;
    this.drop(held.id);
    await store?.removeColumns(held.id);
    return columnsDamaged;
  }

  /** @throws ProblemError "damaged" where the bytes are not those of the name; storage lets go of them. */
  private async checkName(captureId: string, file: Blob, name: string): Promise<void> {
    if ((await this.digestOf(file, name)) === captureId) return;
    await this.engine.store?.removeFile(captureId);
    throw new ProblemError(fileDamaged(name));
  }

  private keep(held: HeldCapture): void {
    const { id, file, body, choices, warnings } = held;
    const { store } = this.engine;
    held.isToKeepAgain = false;
    if (!store) held.keeping = Promise.resolve(keepsNothing);
    if (!store || !file) return;
    const kept = settle(async () => {
      // Columns that came part by part are there.
      const isRead =
        body instanceof MemoryBody
          ? await store.keep({ id, file, body, choices, warnings }, held.left)
          : await store.keepFile(id, file, held.left);
      const found = held.isTooLarge ? await store.find(id) : null;
      if (found) held.page(found);
      return isRead ? null : fileVanished(body.name);
    });
    held.keeping = kept.then((outcome) => (outcome.ok ? outcome.value : outcome.problem));
  }
}
