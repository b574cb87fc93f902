// One owner of all that is stored: counts who refers to what, lets go of what nobody refers to, says what takes the room.

import { type Accessor, createSignal, onCleanup } from "solid-js";
import type { CaptureService } from "../../../workers/protocol.ts";
import { dropCapture } from "../../job/edits/make.ts";
import type { Shelf } from "../../job/shelf/shelf.ts";
import type { ShelfTrace } from "../../job/shelf/shelf-trace.ts";
import { isNamedIn, type Picture } from "../../job/storage/holdings.ts";
import { type Outcome, ProblemError, settle } from "../../problem.ts";
import { subject } from "./context.ts";
import type { JobDesk } from "./job-desk.ts";
import { isOnOtherDesk, onOtherDesk } from "./on-desks.ts";

/** Bytes. */
export interface Usage {
  /** By job: its pictures, and the recordings it names. */
  readonly jobs: ReadonlyMap<string, number>;
  readonly shelf: number;
  readonly all: number;
}

export interface Storekeeper {
  usage(): Promise<Usage>;
  /**
   * Deletes a job with all that only it refers to.
   *
   * @param letGo  called before anything of it goes.
   * @returns why it was not deleted: it lies on another tab's bench, or storage stood against it.
   */
  removeJob(jobId: string, letGo: () => void): Promise<Outcome<null>>;
  /**
   * Takes a recording out of the job on the desk. Its bytes are given back at once, before the change is saved where storage is
   * full: the room that it leaves is what the change needs. Where storage refuses for another reason, they stay.
   */
  takeOut(captureId: string): Promise<void>;
  /** Takes a trace off the shelf, and gives its bytes back. */
  takeOffShelf(trace: Pick<ShelfTrace, "id" | "captureId">): Promise<Outcome<null>>;
  /**
   * Removes what nobody refers to at two looks, `apart` ms from each other: what is just being kept has its record by then.
   * Where storage cannot be read, nothing is known to be unwanted.
   *
   * @throws what storage does.
   */
  sweep(apart: number): Promise<void>;
  /** Bytes the last sweeps gave back. */
  readonly freed: Accessor<number>;
}

export const { Context: StorekeeperContext, use: useStorekeeper } = subject<Storekeeper>("The storekeeper");

interface Kept {
  readonly service: Pick<CaptureService, "stored" | "forget" | "removeStored">;
  readonly desk: JobDesk;
  readonly shelf: Shelf;
}

interface Orphans {
  readonly recordings: readonly { readonly id: string; readonly bytes: number }[];
  readonly pictures: readonly Picture[];
}

interface Waits {
  /** Before the first sweep, ms. */
  readonly afterStart: number;
  /** Between the two looks of a sweep, and before one that failed is tried again, ms. */
  readonly apart: number;
}

const usually: Waits = { afterStart: 5_000, apart: 60_000 };
/** What storage refused so often at one start is left to the next. */
const mostSweeps = 5;

export function createStorekeeper(kept: Kept, waits = usually): Storekeeper {
  const { service, desk } = kept;
  const [freed, setFreed] = createSignal(0);
  sweepByItself(() => sweep(waits.apart), waits);
  askToStay(desk);

  /** @param gone  a job whose record in storage counts no more. */
  async function forgetUnwanted(captureIds: readonly string[], gone?: string): Promise<void> {
    const wanted = await wantedBy(kept, gone);
    for (const id of captureIds) if (!wanted.has(id)) await service.forget(id);
  }
  async function removePictures(pictures: readonly Picture[]): Promise<void> {
    for (const { jobId, name } of pictures) await desk.store.removeBlobs(jobId, [name]);
  }
  async function sweep(apart: number): Promise<void> {
    const before = await orphansOf(kept);
    if (before.recordings.length + before.pictures.length === 0) return;
    await new Promise((resolve) => setTimeout(resolve, apart));
    const now = await orphansOf(kept);
    const recordings = now.recordings.filter(({ id }) => before.recordings.some((one) => one.id === id));
    const pictures = now.pictures.filter(({ name }) => before.pictures.some((one) => one.name === name));
    for (const { id } of recordings) await service.removeStored(id);
    await removePictures(pictures);
    setFreed((bytes) => bytes + sumOf(recordings.map((one) => one.bytes)) + sumOf(pictures.map((one) => one.size)));
  }
  return {
    freed,
    sweep,
    removeJob: (jobId, letGo) =>
      settle(async () => {
        if (await isOnOtherDesk(jobId, jobId === desk.job().id)) throw new ProblemError(onOtherDesk);
        letGo();
        const { jobs } = await desk.store.holdings();
        const isGone = await isRemoved(desk, jobId);
        await forgetUnwanted(jobs.find(({ id }) => id === jobId)?.captureIds ?? [], jobId);
        if (!isGone) await desk.remove(jobId); // full storage has room for it now
        return null;
      }),
    async takeOut(captureId) {
      desk.change((job, at) => dropCapture(job, at, captureId));
      const ended = await desk.flushOrMakeRoom();
      if (ended === "refused") return; // the record in storage names it still: the next sweep takes it
      // Where storage cannot be looked through now, the next sweep takes it.
      await forgetUnwanted([captureId], ended === "full" ? desk.job().id : undefined).catch(() => {});
      if (ended === "full") await desk.flush();
    },
    async takeOffShelf({ id, captureId }) {
      const outcome = await kept.shelf.remove(id);
      if (outcome.ok) await forgetUnwanted([captureId]).catch(() => {}); // the next sweep takes it
      return outcome;
    },
    usage: () => usageOf(kept),
  };
}

async function usageOf(kept: Kept): Promise<Usage> {
  const { service, desk } = kept;
  const [stored, { jobs }, onShelf] = [await service.stored(), await desk.store.holdings(), await shelfIds(kept)];
  const bytes = new Map(stored.map((one) => [one.id, one.bytes] as const));
  const weigh = (ids: Iterable<string>) => sumOf([...new Set(ids)].map((id) => bytes.get(id) ?? 0));
  return {
    jobs: new Map(jobs.map(({ id, captureIds, pictures }) => [id, weigh(captureIds) + pictures])),
    shelf: weigh(onShelf),
    all: sumOf([...bytes.values()]) + sumOf(jobs.map(({ pictures }) => pictures)),
  };
}

/** False where full storage has no room to write that the job is gone. */
async function isRemoved(desk: Kept["desk"], jobId: string): Promise<boolean> {
  try {
    await desk.remove(jobId);
    return true;
  } catch (why) {
    if (why instanceof ProblemError && why.problem.code === "storage-full") return false;
    throw why;
  }
}

/** At the start, and again where storage could not be read meanwhile. */
function sweepByItself(sweep: () => Promise<void>, { afterStart, apart }: Waits): void {
  let tries = 0;
  let timer = setTimeout(start, afterStart);
  async function start(): Promise<void> {
    try {
      await sweep();
    } catch {
      if (++tries < mostSweeps) timer = setTimeout(start, apart);
    }
  }
  onCleanup(() => clearTimeout(timer));
}

const sumOf = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0);

async function shelfIds({ shelf }: Kept): Promise<readonly string[]> {
  const ids = await shelf.captureIds();
  if (ids.ok) return ids.value;
  throw new DOMException(ids.problem.what, "NotReadableError");
}

/** Recordings that a job or a trace on the shelf names; those of the job on the desk, saved or not. @throws ProblemError */
async function wantedBy(kept: Kept, gone?: string): Promise<ReadonlySet<string>> {
  const { jobs: all } = await kept.desk.store.holdings();
  const jobs = all.filter(({ id }) => id !== gone);
  const onDesk = kept.desk.job().captures.map(({ id }) => id);
  return new Set([...jobs.flatMap(({ captureIds }) => captureIds), ...(await shelfIds(kept)), ...onDesk]);
}

async function orphansOf(kept: Kept): Promise<Orphans> {
  const [stored, wanted] = [await kept.service.stored(), await wantedBy(kept)];
  const { orphans } = await kept.desk.store.holdings();
  const onDesk = JSON.stringify(kept.desk.job());
  return {
    recordings: stored.filter(({ id }) => /^[0-9a-f]{64}$/.test(id) && !wanted.has(id)),
    pictures: orphans.filter(({ name }) => !isNamedIn(onDesk, name)),
  };
}

/** Asks the browser once, when there is work to keep, not to clear this page's storage by itself. */
function askToStay(desk: JobDesk): void {
  const timer = setInterval(() => {
    if (desk.job().captures.length === 0 || desk.saveState() !== "saved") return;
    clearInterval(timer);
    void navigator.storage?.persist?.().catch(() => false);
  }, 5_000);
  onCleanup(() => clearInterval(timer));
}
