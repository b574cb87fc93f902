// Which jobs lie on the desk of some tab: none is deleted under another tab's hands.

import { type Accessor, createEffect, on, onCleanup } from "solid-js";
import type { Problem } from "../../problem.ts";

/** Missing where the page comes by plain http from elsewhere. */
const locks = (): LockManager | undefined => (navigator as Partial<Navigator>).locks;
const lockOf = (jobId: string) => `tracewright-desk-${jobId}`;

/** Tells all tabs that the job lies here, for as long as it does. */
export function tellOnDesk(jobId: Accessor<string>): void {
  createEffect(
    on(jobId, (id) => {
      const gone = new Promise<void>((end) => onCleanup(end));
      void locks()?.request(lockOf(id), { mode: "shared" }, () => gone);
    }),
  );
}

/** @param isHere  on this tab's own desk. */
export async function isOnOtherDesk(jobId: string, isHere: boolean): Promise<boolean> {
  const held = (await locks()?.query())?.held ?? [];
  return held.filter(({ name }) => name === lockOf(jobId)).length > (isHere ? 1 : 0);
}

export const onOtherDesk: Problem = {
  code: "storage-denied",
  what: "This job is on the bench of another tab. It was not deleted.",
  remedy: "Close that tab, or open another job there; then delete it here.",
};
