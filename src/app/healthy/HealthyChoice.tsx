// Shows where a sound catalyst's rear would have stayed, or says why it cannot be told.

import { type Component, Show } from "solid-js";
import { useHealthy } from "./healthy.ts";

export const HealthyChoice: Component = () => {
  const healthy = useHealthy();
  return (
    <Show when={healthy.study()}>
      <section class="sound-choice" aria-label="Sound catalyst on this drive">
        <button type="button" aria-pressed={healthy.isShown()} onClick={() => healthy.show(!healthy.isShown())}>
          A sound catalyst on this drive
        </button>
        <Show when={healthy.isShown()}>
          <p class="soft" role="status">
            <Show
              when={healthy.refusal()}
              fallback={
                <Show when={healthy.trace()} fallback="Driving it …">
                  {(trace) => healthy.says(trace())}
                </Show>
              }
            >
              {(why) => why()}
            </Show>
          </p>
        </Show>
      </section>
    </Show>
  );
};
