// What is doubtful about the recording, above everything that rests on it.

import { type Component, For, Show } from "solid-js";
import type { Role } from "../../capture/model/capture.ts";
import { remarkText } from "../../capture/model/remarks.ts";
import { swapFrontAndRear } from "../../job/edits/channels.ts";
import { useGround } from "../core/ground.ts";
import { useOpening } from "../opening/opening.ts";
import { meansText } from "../words.ts";

const sensors: readonly Role[] = ["front-o2", "rear-o2", "front-lambda"];

export const Warnings: Component = () => {
  const { summary, bench, readings, warnings } = useGround();
  const opening = useOpening();
  const means = () => readings.whole()?.means;
  const isBlind = () => summary()?.channels.every(({ role }) => !sensors.includes(role)) ?? false;
  return (
    <Show when={warnings().length > 0 || isBlind() || means()}>
      <section aria-label="Warnings">
        <Show when={isBlind()}>
          <div class="warning">
            <p>No channel of this recording is known as an oxygen sensor, so nothing can be judged yet.</p>
            <button type="button" onClick={() => void opening.readDifferently()}>
              Say which is which
            </button>
          </div>
        </Show>
        <Show when={means()}>
          {(means) => (
            <div class="warning">
              <p>{meansText(means())}</p>
            </div>
          )}
        </Show>
        <For each={warnings()}>
          {(warning) => (
            <div class="warning">
              <p>{remarkText(warning)}</p>
              <Show when={warning.code === "looks-swapped"}>
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
