// Whether the job on the desk, and every recording of it, is kept: what the header says.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type { Job } from "../../job/record/job.ts";
import type { SaveState } from "../../job/storage/autosave.ts";
import type { Problem } from "../../problem.ts";

/** "recording": the job is saved, but a recording of it will not be here after a reload. */
export type SavedState = SaveState | "recording";

/** Said beside the job's name. */
export const saveWords: Readonly<Record<SavedState, string>> = {
  saved: "saved",
  waiting: "saving",
  saving: "saving",
  failed: "not saved",
  recording: "a recording is not kept",
};

export interface Keeping {
  readonly state: Accessor<SavedState>;
  /** Something would be lost if the page were closed now. */
  isUnsaved(): boolean;
  setJobState(state: SaveState): void;
  /**
   * Follows the keeping of a recording to its end; where storage is full, it is tried again by itself until there is room.
   *
   * @param ask  answers when it is kept, or why it is not; asked again, it tries again.
   * @returns why it is not kept at first.
   */
  follow(captureId: string, ask: () => Promise<Problem | null>): Promise<Problem | null>;
}

/** Before full storage is tried again, and at the longest, ms. */
const usual = { retry: 2_000, longestRetry: 60_000 };

export function createKeeping(job: Accessor<Job>, { retry, longestRetry } = usual): Keeping {
  const [jobState, setJobState] = createSignal<SaveState>("saved");
  /** By capture: being kept, or not kept. */
  const [recordings, setRecordings] = createSignal<ReadonlyMap<string, "keeping" | "lost">>(new Map());
  const put = (id: string, state: "keeping" | "lost" | null) =>
    setRecordings((all) => {
      const next = new Map(all);
      if (state) next.set(id, state);
      else next.delete(id);
      return next;
    });
  /** Of those that belong to this job. */
  const states = createMemo(() => job().captures.map(({ id }) => recordings().get(id)));
  const state = createMemo((): SavedState => {
    if (jobState() !== "saved") return jobState();
    if (states().includes("keeping")) return "saving";
    return states().includes("lost") ? "recording" : "saved";
  });
  return {
    state,
    setJobState,
    isUnsaved: () => jobState() !== "saved" || states().includes("keeping"),
    async follow(captureId, ask) {
      put(captureId, "keeping");
      const problem = await ask();
      put(captureId, problem ? "lost" : null);
      if (problem?.code === "storage-full") void again(captureId, ask);
      return problem;
    },
  };

  /** For as long as the job has it, and says that it is lost. */
  async function again(id: string, ask: () => Promise<Problem | null>): Promise<void> {
    for (let wait = retry; ; wait = Math.min(2 * wait, longestRetry)) {
      await new Promise((resolve) => setTimeout(resolve, wait));
      if (!job().captures.some((one) => one.id === id) || recordings().get(id) !== "lost") return;
      const problem = await ask();
      if (problem === null) put(id, null);
      if (problem?.code !== "storage-full") return;
    }
  }
}
