// Captures kept in the browser's own storage: the file's bytes, and its columns ready to be drawn.
//
// A capture is there when its record is. The record is written last and swapped in in one step, and names the file of
// arrays it belongs to: a tab killed in the middle of writing leaves what was there before.

import type { Capture, Remark } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import type { MemoryBody } from "../body/memory-body.ts";
import type { Bounds } from "../drawing/paged-trace.ts";
import type { StoredCapture } from "../protocol.ts";
import { type Answered, type Asked, isAnswer, readAnswer, writeAnswer } from "./answers.ts";
import {
  bytesIn,
  fileIn,
  folderOf,
  type KeptRecord,
  named,
  original,
  putRecord,
  record,
  recordIn,
  removeOthers,
  unlessMissing,
} from "./kept-folder.ts";
import { bytesOf, layOut, layoutVersion } from "./layout.ts";
import { putOriginal } from "./original-file.ts";
import { PartWriter } from "./part-writer.ts";
import {
  canMoveFiles,
  capturesFolder,
  freeRoom,
  ifFree,
  lockHeld,
  refuseDenied,
  refuseFull,
  removeQuietly,
  type SyncHandle,
  storageProblem,
  writeAt,
  writeHandle,
  written,
} from "./private-files.ts";
import { readHandle } from "./read-handle.ts";
import { summing, sumOf } from "./sum.ts";

export interface ToKeep {
  readonly id: string;
  readonly file: Blob;
  readonly body: MemoryBody;
  readonly choices: ReadChoices;
  readonly warnings: readonly Remark[];
}

/** A kept capture, open for reading. */
export interface KeptFile {
  readonly kept: KeptRecord;
  readonly handle: SyncHandle;
  /** Bounds of blocks that are in memory already, by channel. */
  readonly bounds?: ReadonlyMap<string, Bounds> | undefined;
}

/** Storage for a capture that is still being read, and has no name yet. */
export interface Begun {
  readonly writer: PartWriter;
  /** Of the file that is written; good for reading until it has its name. */
  readonly handle: SyncHandle;
  /**
   * Gives the written columns their name, and keeps them with the record.
   *
   * @throws ProblemError "storage-full" or "storage-denied"; the signal's reason
   */
  finish(capture: Capture, labels: Omit<ToKeep, "body">): Promise<KeptFile>;
  /** Leaves nothing behind. */
  discard(): Promise<void>;
}

export const captureStore = {
  /**
   * Keeps a capture and its file's bytes. Other work goes on between two pieces.
   *
   * @returns false where the file could not be read any more: its columns are kept alone.
   * @throws ProblemError "storage-full" or "storage-denied"; nothing half-written is left.
   */
  async keep({ id, file, warnings, ...rest }: ToKeep, signal: AbortSignal): Promise<boolean> {
    const capture = await rest.body.capture();
    const arrays = `arrays-${crypto.randomUUID()}`;
    return navigator.locks.request(lockOf(id), async () => {
      const folder = await folderOf(id, true);
      try {
        const labels = { choices: rest.choices, arrays, fileSize: file.size };
        const { kept, pieces } = layOut(capture, rest.body, labels);
        let sum = "";
        await written(folder, arrays, async (handle) => {
          const summed = await summing(handle);
          for (const { place, array } of pieces) await writeAt(summed.handle, bytesOf(array), place.at, signal);
          sum = summed.sum();
        });
        const isRead = await putOriginal(folder, file, signal);
        await putRecord(folder, { ...kept, sum, warnings });
        await removeOthers(folder, [record, original, arrays]);
        return isRead;
      } catch (error) {
        await removeQuietly(folder, arrays);
        if ((await recordIn(folder)) === null) await removeQuietly(await capturesFolder(), id);
        throw storageProblem(error);
      }
    });
  },

  /**
   * Begins a capture that comes part by part. A tab killed before it has its name leaves a folder without a record.
   *
   * @param bytes  of its columns, about.
   * @throws ProblemError "storage-full" or "storage-denied"
   */
  async begin(bytes: number, signal: AbortSignal): Promise<Begun> {
    const name = `reading-${crypto.randomUUID()}`;
    const arrays = `arrays-${crypto.randomUUID()}`;
    if (!canMoveFiles()) refuseDenied();
    // Stamps that turn out even take a part of it that is not needed.
    if ((await freeRoom()) < 0.6 * bytes) refuseFull();
    const release = await lockHeld(lockOf(name));
    let handle: SyncHandle | null = null;
    const discard = async () => {
      handle?.close();
      await removeQuietly(await capturesFolder(), name);
      release();
    };
    try {
      const folder = await folderOf(name, true);
      handle = await writeHandle(folder, arrays);
      const summed = await summing(handle);
      const writer = new PartWriter(summed.handle, signal);
      return {
        writer,
        handle,
        discard,
        async finish(capture, { id, file, choices, warnings }) {
          const { kept, bounds } = await writer.finish(capture, { choices, arrays, fileSize: file.size });
          const sum = summed.sum();
          handle!.flush();
          handle!.close();
          handle = null;
          await navigator.locks.request(lockOf(id), () => named(folder, id, { ...kept, sum, warnings }));
          await discard();
          return { ...(await captureStore.find(id))!, bounds };
        },
      };
    } catch (error) {
      await discard().catch(() => {});
      throw storageProblem(error);
    }
  },

  /** Keeps the bytes of a file whose columns are kept, where there is room for both. @returns as `keep` */
  async keepFile(id: string, file: Blob, signal: AbortSignal): Promise<boolean> {
    return navigator.locks.request(lockOf(id), async () => {
      const folder = await folderOf(id, false);
      return folder === null || (await putOriginal(folder, file, signal));
    });
  },

  /** Null when it is not kept, or kept by a version that laid it out otherwise, or not all of it is there any more. */
  async find(id: string): Promise<KeptFile | null> {
    const folder = await folderOf(id, false);
    const kept = folder && (await recordIn(folder));
    if (!folder || kept?.version !== layoutVersion) return null;
    const handle = await readHandle(folder, kept.arrays).catch(unlessMissing);
    // The last array may end before the next multiple of 8.
    if (handle && Math.ceil(handle.getSize() / 8) * 8 === kept.size) return { kept, handle };
    handle?.close();
    return null;
  },

  /** Whether the columns are what was written, every byte of them: reads them all. @throws the signal's reason */
  async isWhole(id: string, signal: AbortSignal): Promise<boolean> {
    const found = await captureStore.find(id);
    if (!found) return false;
    try {
      return (await sumOf(found.handle, signal)) === found.kept.sum;
    } finally {
      found.handle.close();
    }
  },

  /** The bytes that were opened, under the name they had; null when they are not kept. Whoever needs them whole names them. */
  async file(id: string): Promise<File | null> {
    const folder = await folderOf(id, false);
    const kept = folder && (await recordIn(folder));
    if (!folder || !kept) return null;
    const file = await fileIn(folder, original);
    // It is written after its record, when the columns came in parts: then it may not be there.
    if (!file || file.size !== kept.fileSize) return null;
    return new File([file], kept.name ?? "");
  },

  /** What was measured of a kept capture when this was asked last; null where it is not kept, or was spoiled. */
  async answer(id: string, asked: Asked): Promise<Answered | null> {
    const folder = await folderOf(id, false);
    return folder && readAnswer(folder, asked);
  },

  /** Keeps what was measured, where the capture is kept. @throws ProblemError "storage-full" or "storage-denied" */
  async keepAnswer(id: string, asked: Asked, answered: Answered): Promise<void> {
    await navigator.locks.request(lockOf(id), async () => {
      const folder = await folderOf(id, false);
      if (!folder || (await recordIn(folder)) === null || !canMoveFiles()) return;
      await writeAnswer(folder, asked, answered).catch((error: unknown) => {
        throw storageProblem(error);
      });
    });
  },

  /** Lets go of what was read of it; the bytes that were opened stay. */
  async removeColumns(id: string): Promise<void> {
    const folder = await folderOf(id, false);
    const kept = folder && (await recordIn(folder));
    if (!folder || !kept) return;
    await putRecord(folder, { ...kept, version: 0 as never });
    await removeOthers(folder, [record, original]);
  },

  /** Lets go of bytes that are not what was opened. */
  async removeFile(id: string): Promise<void> {
    const folder = await folderOf(id, false);
    if (folder) await removeQuietly(folder, original);
  },

  /** Until it is let go of, no tab takes this capture for one that nobody uses. */
  hold(id: string): Promise<() => void> {
    return lockHeld(atHand(id), "shared");
  },

  /** Removes a capture, unless a tab has it at hand. */
  async remove(id: string): Promise<boolean> {
    const captures = await capturesFolder();
    return ifFree(atHand(id), () => removeQuietly(captures, id));
  },

  /** What is kept, and how much room it takes. */
  async list(): Promise<readonly StoredCapture[]> {
    const stored: StoredCapture[] = [];
    for await (const [id, folder] of (await capturesFolder()).entries()) {
      if (folder.kind !== "directory") continue;
      const kept = await recordIn(folder).catch(() => null);
      const bytes = await bytesIn(folder);
      if (bytes !== null) stored.push({ id, name: kept?.name ?? "", bytes });
    }
    return stored;
  },

  /** Removes what a tab left behind that was killed while it wrote. One folder that cannot be swept stops no other. */
  async sweep(): Promise<void> {
    const captures = await capturesFolder();
    for await (const [id, folder] of captures.entries()) {
      if (folder.kind !== "directory") continue;
      const swept = ifFree(lockOf(id), async () => {
        const kept = await recordIn(folder);
        if (kept === null) await removeQuietly(captures, id);
        else await removeOthers(folder, [record, original, kept.arrays], isAnswer);
      });
      await swept.catch(() => false);
    }
  },
};
export type CaptureStore = typeof captureStore;

const lockOf = (id: string) => `keeping-${id}`;
const atHand = (id: string) => `at-hand-${id}`;
