// The whole page: an empty bench until a recording is open; files are taken wherever they are dropped or pasted.

import { type Component, createMemo, createSignal, onMount, Show } from "solid-js";
import { BenchScreen } from "./bench/BenchScreen.tsx";
import { EmptyBench } from "./EmptyBench.tsx";
import { Notes } from "./Notes.tsx";
import { SheetStack } from "./sheets/SheetStack.tsx";
import { createSheets } from "./state/sheets.ts";
import { shortcutsOf, useShortcuts } from "./state/shortcuts.ts";
import { createWorkbench, type Givens, WorkbenchContext } from "./state/workbench.ts";
import { takeFiles } from "./take-files.ts";

export const App: Component<Givens> = (props) => {
  const workbench = createWorkbench(props);
  const sheets = createSheets();
  const shortcuts = shortcutsOf(workbench, sheets);
  const [isOver, setOver] = createSignal(false);
  const isEmpty = createMemo(() => workbench.bench.record() === null);
  useShortcuts(shortcuts, () => !isEmpty());
  takeFiles(workbench, setOver);
  onMount(() => void workbench.opening.restore());
  return (
    <WorkbenchContext.Provider value={workbench}>
      <Show
        when={!isEmpty()}
        fallback={
          <EmptyBench onGuide={() => sheets.open("guide")} onJobs={() => sheets.open("jobs")}>
            <Notes />
          </EmptyBench>
        }
      >
        <BenchScreen sheets={sheets} />
      </Show>
      <SheetStack sheets={sheets} shortcuts={shortcuts} />
      <Show when={isOver()}>
        <div class="drop-veil">Let go to open it</div>
      </Show>
      <p class="visually-hidden" role="status" aria-live="polite">
        {workbench.notices.said()}
      </p>
    </WorkbenchContext.Provider>
  );
};
