// The bench: lanes and overview at the left, the panel at the right. A recording that is not at hand leaves its place.

import { type Component, Show } from "solid-js";
import { VerdictAhead } from "../answer/VerdictAhead.tsx";
import { useGround } from "../core/ground.ts";
import { OpenButton } from "../opening/OpenButton.tsx";
import { useOpening } from "../opening/opening.ts";
import { Panel } from "../panel/Panel.tsx";
import { FaultBoundary } from "../parts/FaultBoundary.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { Header } from "./Header.tsx";
import { Lanes } from "./Lanes.tsx";
import { Notes } from "./Notes.tsx";
import { createStacked } from "./narrow.ts";
import { Toolbar } from "./Toolbar.tsx";

export const BenchScreen: Component = () => {
  const { summary } = useGround();
  const opening = useOpening();
  const isStacked = createStacked();
  return (
    <div class="bench">
      <Header />
      <Notes />
      <Show when={isStacked() && summary()}>
        <VerdictAhead />
      </Show>
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
          {(capture) => (
            <FaultBoundary name="the lanes">
              <Lanes summary={capture()} />
            </FaultBoundary>
          )}
        </Show>
      </main>
      <Panel summary={summary()} />
    </div>
  );
};
