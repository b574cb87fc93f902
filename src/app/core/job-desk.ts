// The job on the desk: loaded, changed, saved by itself, and shared with other tabs that have it open.

import { type Accessor, createMemo, createSignal, onCleanup } from "solid-js";
import { type Limits, limitsInForce } from "../../exhaust/terms/limits.ts";
import { isEmpty, newJob, nextStamp, now } from "../../job/edits/make.ts";
import { mergeJobs } from "../../job/merge/merge-jobs.ts";
import { same } from "../../job/merge/same.ts";
import type { Job } from "../../job/record/job.ts";
import { newId } from "../../job/record/new-id.ts";
import { type Autosave, makeAutosave } from "../../job/storage/autosave.ts";
import type { JobLine, JobStore } from "../../job/storage/store.ts";
import { type Problem, ProblemError } from "../../problem.ts";
import { createKeeping, type Keeping, type SavedState } from "./keeping.ts";
import type { Notices } from "./notices.ts";
import { tellOnDesk } from "./on-desks.ts";

export interface JobDesk {
  readonly job: Accessor<Job>;
  /** Of the job and of its recordings. */
  readonly saveState: Accessor<SavedState>;
  /** Limits in force: those delivered, and the job's own in their place. */
  readonly limits: Accessor<Limits>;
  /** Every change goes through here: it is stamped, and saved soon after. */
  change(change: (job: Job, at: string) => Job): void;
  /**
   * What was begun while this job lay on the desk, though another may lie there by now; saved at once.
   *
   * @returns false where the job on the desk could not be saved: it is tried again by itself.
   * @throws ProblemError where the job does not lie on the desk, and cannot be changed where it lies.
   */
  changeIn(jobId: string, change: (job: Job, at: string) => Job): Promise<boolean>;
  /** Puts aside what is on the desk, saved, and starts anew. False where it stays on the desk, as all that follow. */
  start(): Promise<boolean>;
  open(jobId: string): Promise<boolean>;
  /** Takes a job from elsewhere, such as a bundle; it is merged with the same job where that is kept here. */
  take(job: Job): Promise<boolean>;
  remove(jobId: string): Promise<void>;
  list(): Promise<readonly JobLine[]>;
  /** The job that was on the desk when the page was last open. */
  restore(): Promise<boolean>;
  /** Saves now. False where that failed; it is tried again by itself. */
  flush(): Promise<boolean>;
  /** Saves now. Only where storage is full may what the change takes out go before it is saved: that makes the room. */
  flushOrMakeRoom(): Promise<"saved" | "full" | "refused">;
  /** Tells that a recording of the job is being kept: "saved" waits for it. */
  readonly keeping: Keeping;
  /** How often storage was found without the job that had been saved there; by then it is saved anew. */
  readonly emptied: Accessor<number>;
  /** Set while the person must choose: the job cannot be saved, and would be lost by what was asked for. */
  readonly leaving: Accessor<Leaving | null>;
  readonly store: JobStore;
}

export interface Leaving {
  readonly job: Job;
  /** True: its changes may be lost. */
  answer(isLost: boolean): void;
}

export function createJobDesk(store: JobStore, notices: Notices): JobDesk {
  const lying = createLying(store, notices);
  const { job, put, isStored, save, close } = lying;
  const keeping = createKeeping(job);
  const autosave = makeAutosave<void>(save, keeping.setJobState);
  const { leaving, mayLeave } = createLeaving(job, autosave);
  saveAnewWhereEmptied(store, lying.isGone, autosave);
  tellOnDesk(createMemo(() => job().id));
  stayWhileUnsaved(() => void autosave.flush(), keeping.isUnsaved);
  onCleanup(() => {
    autosave.stop();
    close();
  });
  const change = (work: (job: Job, at: string) => Job) => {
    const next = work(job(), nextStamp(job()));
    if (next === job()) return;
    put(next);
    if (!isEmpty(next) || isStored()) autosave.note();
  };
  return {
    ...comings({ store, notices, lying, autosave, mayLeave }),
    job,
    saveState: keeping.state,
    keeping,
    limits: createMemo(() => limitsInForce(job().limits)),
    leaving,
    emptied: lying.emptied,
    store,
    change,
    async changeIn(jobId, work) {
      if (jobId !== job().id) return changeStored(jobId, work, { store, tell: lying.tell });
      change(work);
      return autosave.flush();
    },
    list: () => store.list(),
    flush: () => autosave.flush(),
    async flushOrMakeRoom() {
      if (await autosave.flush()) return "saved";
      return lying.trouble()?.code === "storage-full" ? "full" : "refused";
    },
  };
}

interface Coming {
  readonly store: JobStore;
  readonly notices: Notices;
  readonly lying: ReturnType<typeof createLying>;
  readonly autosave: Autosave<void>;
  readonly mayLeave: () => Promise<boolean>;
}

/** Jobs that come onto the desk, and leave it. */
function comings({ store, notices, lying, autosave, mayLeave }: Coming) {
  const { job, lay } = lying;
  const note = (jobId: string) => store.setLast(jobId).catch(() => {}); // where nothing can be noted, nothing is restored either
  const showStored = async (jobId: string): Promise<boolean> => {
    const outcome = await store.load(jobId);
    if (outcome.ok) lay(outcome.value, true);
    else notices.show(outcome.problem);
    return outcome.ok;
  };
  return {
    async start() {
      if (!(await mayLeave())) return false;
      lay(fresh(), false);
      await note("");
      return true;
    },
    async open(jobId: string) {
      if (!(await mayLeave())) return false;
      if (!(await showStored(jobId))) return false;
      await note(jobId);
      return true;
    },
    async take(taken: Job) {
      const isSame = taken.id === job().id;
      if (!isSame && !(await mayLeave())) return false;
      lay(isSame ? mergeJobs(null, job(), taken) : taken, false);
      autosave.note();
      await autosave.flush();
      return true;
    },
    async remove(jobId: string) {
      if (jobId === job().id) {
        autosave.drop(); // nothing of it is wanted any more, saved or not
        await autosave.flush();
        lay(fresh(), false);
      }
      await store.remove(jobId);
    },
    async restore() {
      const id = await store.last().catch(() => null);
      if (!id) return false;
      const isShown = await showStored(id);
      if (!isShown) await note(""); // told once, not at every start
      return isShown;
    },
  };
}

/** The job that lies on the desk, and what storage and other tabs hold of it. */
function createLying(store: JobStore, notices: Notices) {
  const [job, setJob] = createSignal<Job>(fresh());
  /** What storage held when it was last read or written: the ground of a merge. */
  let base: Job | null = null;
  const trouble = createTrouble(notices);
  const [emptied, setEmptied] = createSignal(0);
  const tabs = makeTabs((id) => void meet(id));
  const isGone = async () => base?.id === job().id && !(await store.has(base.id));

  /** Saves what is on the desk at this moment: it may hold more than when the save was asked for. */
  async function save(): Promise<void> {
    const changed = job();
    try {
      const wasGone = await isGone();
      const saved = await store.save(changed, base?.id === changed.id ? base : null);
      if (job().id === changed.id) {
        setJob(job() === changed ? saved : mergeJobs(changed, job(), saved));
        base = saved;
      }
      await store.setLast(changed.id);
      tabs.tell(changed.id);
      if (wasGone) setEmptied((often) => often + 1);
      trouble.isOver();
    } catch (error) {
      if (error instanceof ProblemError) trouble.met(error.problem);
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
  const put = (next: Job) => void setJob(next);
  return {
    job,
    put,
    isStored: () => base !== null,
    lay,
    save,
    trouble: trouble.now,
    emptied,
    isGone,
    tell: tabs.tell,
    close: tabs.close,
  };
}

/** What stands against saving, said once, however often it is tried. */
function createTrouble(notices: Notices) {
  let now: Problem | null = null;
  return {
    now: () => now,
    met(problem: Problem) {
      if (now?.code !== problem.code) notices.show(problem);
      now = problem;
    },
    isOver() {
      if (now && notices.problem() === now) notices.dismiss();
      now = null;
    },
  };
}

/** A job that lies in storage alone. @throws ProblemError also where it is not there any more. */
async function changeStored(
  id: string,
  change: (job: Job, at: string) => Job,
  { store, tell }: { readonly store: JobStore; tell(jobId: string): void },
): Promise<true> {
  const stored = await store.load(id);
  if (!stored.ok) throw new ProblemError(stored.problem);
  await store.save(change(stored.value, nextStamp(stored.value)), stored.value);
  tell(id);
  return true;
}

/** The browser has done what it was asked to after so long, ms. */
const emptying = 1_000;

/** Where storage is emptied under the page, what lies on the desk is saved there again. */
function saveAnewWhereEmptied(store: JobStore, isGone: () => Promise<boolean>, autosave: Autosave<void>): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  store.onClosed(() => {
    clearTimeout(timer);
    timer = setTimeout(async () => {
      if (await isGone().catch(() => true)) autosave.note();
    }, emptying);
  });
  onCleanup(() => clearTimeout(timer));
}

const fresh = () => newJob(newId(), now());

/** Nothing leaves the desk before its save has ended well, or the person has chosen to lose it. */
function createLeaving(job: Accessor<Job>, autosave: { flush(): Promise<boolean>; drop(): void }) {
  const [leaving, setLeaving] = createSignal<Leaving | null>(null);
  async function mayLeave(): Promise<boolean> {
    leaving()?.answer(false);
    if (await autosave.flush()) return true;
    const isLost = await new Promise<boolean>((answer) => setLeaving({ job: job(), answer }));
    setLeaving(null);
    if (isLost) autosave.drop();
    return isLost;
  }
  return { leaving, mayLeave };
}

/** Saves when the page goes out of sight, and asks before it is closed while something is not saved. */
function stayWhileUnsaved(flush: () => void, isUnsaved: () => boolean): void {
  const warn = (event: BeforeUnloadEvent) => {
    flush();
    if (isUnsaved()) event.preventDefault();
  };
  addEventListener("beforeunload", warn);
  addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", flush);
  onCleanup(() => {
    removeEventListener("beforeunload", warn);
    removeEventListener("pagehide", flush);
    document.removeEventListener("visibilitychange", flush);
  });
}

/** Tabs of the same browser tell each other which job they wrote. */
function makeTabs(onWritten: (jobId: string) => void) {
  const channel = new BroadcastChannel("tracewright-jobs");
  channel.onmessage = (event: MessageEvent<string>) => onWritten(event.data);
  return { tell: (jobId: string) => channel.postMessage(jobId), close: () => channel.close() };
}
