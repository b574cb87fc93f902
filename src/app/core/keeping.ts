// Whether the job on the desk, and every recording of it, is kept: what the header says.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type { Job } from "../../job/record/job.ts";
import type { SaveState } from "../../job/storage/autosave.ts";
import type { Problem } from "../../problem.ts";

/** "recording": the job is saved, but a recording of it will not be here after a reload. */
export type SavedState = SaveState | "recording";

export interface Keeping {
  readonly state: Accessor<SavedState>;
  /** Something would be lost if the page were closed now. */
  isUnsaved(): boolean;
  setJobState(state: SaveState): void;
  /** Follows the keeping of a recording to its end. @returns why it is not kept. */
  follow(captureId: string, kept: Promise<Problem | null>): Promise<Problem | null>;
}

export function createKeeping(job: Accessor<Job>): Keeping {
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
    isUnsaved: () => jobState() === "failed" || states().includes("keeping"),
    async follow(captureId, kept) {
      put(captureId, "keeping");
      const problem = await kept;
      put(captureId, problem ? "lost" : null);
      return problem;
    },
  };
}
