// The job on the desk: loaded, changed, saved by itself, and shared with other tabs that have it open.

import { type Accessor, createMemo, createSignal, onCleanup } from "solid-js";
import { type Limits, limitsInForce } from "../../exhaust/terms/limits.ts";
import { isEmpty, newJob, now } from "../../job/edits/make.ts";
import { mergeJobs } from "../../job/merge/merge-jobs.ts";
import { same } from "../../job/merge/same.ts";
import type { Job } from "../../job/record/job.ts";
import { makeAutosave, type SaveState } from "../../job/storage/autosave.ts";
import type { JobLine, JobStore } from "../../job/storage/store.ts";
import { ProblemError } from "../../problem.ts";
import type { Notices } from "./notices.ts";

export interface JobDesk {
  readonly job: Accessor<Job>;
  readonly saveState: Accessor<SaveState>;
  /** Limits in force: those delivered, and the job's own in their place. */
  readonly limits: Accessor<Limits>;
  /** Every change goes through here: it is stamped, and saved soon after. */
  change(change: (job: Job, at: string) => Job): void;
  /** Puts aside what is on the desk, saved, and starts anew. */
  start(): Promise<void>;
  open(jobId: string): Promise<boolean>;
  /** Takes a job from elsewhere, such as a bundle. */
  take(job: Job): Promise<void>;
  remove(jobId: string): Promise<void>;
  list(): Promise<readonly JobLine[]>;
  /** The job that was on the desk when the page was last open. */
  restore(): Promise<boolean>;
  flush(): Promise<void>;
  readonly store: JobStore;
}

export function createJobDesk(store: JobStore, notices: Notices): JobDesk {
  const [job, setJob] = createSignal<Job>(fresh());
  const [saveState, setSaveState] = createSignal<SaveState>("saved");
  /** What storage held when it was last read or written: the ground of a merge. */
  let base: Job | null = null;
  const tabs = makeTabs((id) => void meet(id));

  const autosave = makeAutosave<void>(save, setSaveState);
  const leave = () => void autosave.flush();
  addEventListener("pagehide", leave);
  document.addEventListener("visibilitychange", leave);
  onCleanup(() => {
    removeEventListener("pagehide", leave);
    document.removeEventListener("visibilitychange", leave);
    autosave.stop();
    tabs.close();
  });

  /** Saves what is on the desk at this moment: it may hold more than when the save was asked for. */
  async function save(): Promise<void> {
    const changed = job();
    try {
      const saved = await store.save(changed, base?.id === changed.id ? base : null);
      if (job().id === changed.id) setJob(job() === changed ? saved : mergeJobs(changed, job(), saved));
      base = saved;
      await store.setLast(changed.id);
      tabs.tell(changed.id);
    } catch (error) {
      if (error instanceof ProblemError) notices.show(error.problem);
      throw error;
    }
  }

  /** Another tab wrote this job: take over what it did. */
  async function meet(id: string): Promise<void> {
    const ground = base;
    if (id !== job().id || !ground) return;
    const theirs = await store.load(id);
    if (base !== ground) return meet(id); // written or changed for another meanwhile: what was read may be older
    if (!theirs.ok || same(theirs.value, ground)) return;
    setJob(mergeJobs(ground, job(), theirs.value));
    base = theirs.value;
    notices.say("This job is open in another tab; what is done there shows here too.");
  }

  const lay = (next: Job, stored: boolean) => {
    base = stored ? next : null;
    setJob(next);
  };
  const limits = createMemo(() => limitsInForce(job().limits));
  return {
    job,
    saveState,
    limits,
    store,
    change(change) {
      const next = change(job(), now());
      if (next === job()) return;
      setJob(next);
      if (!isEmpty(next) || base) autosave.note();
    },
    async start() {
      await autosave.flush();
      lay(fresh(), false);
      await store.setLast("");
    },
    async open(jobId) {
      await autosave.flush();
      const outcome = await store.load(jobId);
      if (!outcome.ok) {
        notices.show(outcome.problem);
        return false;
      }
      lay(outcome.value, true);
      await store.setLast(jobId);
      return true;
    },
    async take(taken) {
      await autosave.flush();
      lay(taken, false);
      autosave.note();
      await autosave.flush();
    },
    async remove(jobId) {
      if (jobId === job().id) {
        await autosave.flush();
        lay(fresh(), false);
      }
      await store.remove(jobId);
    },
    list: () => store.list(),
    async restore() {
      const id = await store.last().catch(() => null);
      if (!id) return false;
      const outcome = await store.load(id);
      if (outcome.ok) lay(outcome.value, true);
      else notices.show(outcome.problem);
      return outcome.ok;
    },
    flush: () => autosave.flush(),
  };
}

const fresh = () => newJob(crypto.randomUUID(), now());

/** Tabs of the same browser tell each other which job they wrote. */
function makeTabs(onWritten: (jobId: string) => void) {
  const channel = new BroadcastChannel("tracewright-jobs");
  channel.onmessage = (event: MessageEvent<string>) => onWritten(event.data);
  return { tell: (jobId: string) => channel.postMessage(jobId), close: () => channel.close() };
}
