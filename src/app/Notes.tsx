// What the page has to say right now: a file being read, a problem.

import { type Component, Show } from "solid-js";
import { ProblemNote } from "./parts/ProblemNote.tsx";
import { ProgressNote } from "./parts/ProgressNote.tsx";
import { useWorkbench } from "./state/workbench.ts";

export const Notes: Component = () => {
  const { captures, notices } = useWorkbench();
  return (
    <div class="notes">
      <Show when={captures.opening()}>
        {(opening) => <ProgressNote opening={opening()} onCancel={captures.cancel} />}
      </Show>
      <Show when={notices.problem()}>
        {(problem) => <ProblemNote problem={problem()} onDismiss={notices.dismiss} />}
      </Show>
    </div>
  );
};
