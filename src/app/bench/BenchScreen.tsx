// The bench: lanes and overview at the left, the panel at the right. A recording that is not at hand leaves its place.

import { type Component, Show } from "solid-js";
import { Notes } from "../Notes.tsx";
import { Panel } from "../panel/Panel.tsx";
import { OpenButton } from "../parts/OpenButton.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import type { Sheets } from "../state/sheets.ts";
import { useWorkbench } from "../state/workbench.ts";
import { Header } from "./Header.tsx";
import { Lanes } from "./Lanes.tsx";
import { Toolbar } from "./Toolbar.tsx";

export const BenchScreen: Component<{ readonly sheets: Sheets }> = (props) => {
  const { summary, opening } = useWorkbench();
  return (
    <div class="bench">
      <Header sheets={props.sheets} />
      <Notes />
      <main class="work">
        <Toolbar />
        <Show
          when={summary()}
          fallback={
            <div class="lanes">
              <Show when={opening.missing()}>
                {(problem) => (
                  <div class="absent">
                    <ProblemNote problem={problem()}>
                      <OpenButton>Open its file</OpenButton>
                    </ProblemNote>
                  </div>
                )}
              </Show>
            </div>
          }
        >
          {(capture) => <Lanes summary={capture()} />}
        </Show>
      </main>
      <Panel summary={summary()} sheets={props.sheets} />
    </div>
  );
};
