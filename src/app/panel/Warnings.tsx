// What is doubtful about the recording, above everything that rests on it.

import { type Component, For, Show } from "solid-js";
import { swapFrontAndRear } from "../../job/channels.ts";
import { useWorkbench } from "../state/workbench.ts";

export const Warnings: Component = () => {
  const { summary, bench } = useWorkbench();
  const warnings = () => summary()?.warnings ?? [];
  return (
    <Show when={warnings().length > 0}>
      <section aria-label="Warnings">
        <For each={warnings()}>
          {(warning) => (
            <div class="warning">
              <p>{warning.text}</p>
              <Show when={/swapped/.test(warning.text)}>
                <button
                  type="button"
                  onClick={() => bench.edit((state) => swapFrontAndRear(state, summary()?.channels ?? []))}
                >
                  Swap them
                </button>
              </Show>
            </div>
          )}
        </For>
      </section>
    </Show>
  );
};
