// How the reference lies under the suspect: on what, shifted by how much, and nudged by hand.

import { type Component, For, Show } from "solid-js";
import { formatTime, readingInWords } from "../../drawing/format.ts";
import { useWorkbench } from "../state/workbench.ts";

const nudges = [-0.1, -0.01, 0.01, 0.1] as const;

export const LiningUp: Component = () => {
  const { comparing } = useWorkbench();
  const chosen = (id: string) => {
    const way = comparing.ways().find((one) => one.id === id);
    if (way) void comparing.lineUp(way);
  };
  const current = () => comparing.ways().find(({ label }) => label === comparing.shift()?.says)?.id ?? "";
  return (
    <section aria-label="Lining up">
      <h2>Lined up</h2>
      <label class="field">
        <span>On</span>
        <select value={current()} onChange={(event) => chosen(event.currentTarget.value)}>
          <option value="" disabled>
            {comparing.shift()?.says ?? "not yet"}
          </option>
          <For each={comparing.ways()}>
            {(way) => (
              <option value={way.id} selected={way.id === current()}>
                {way.label}
              </option>
            )}
          </For>
        </select>
      </label>
      <Show when={comparing.shift()}>
        {(shift) => (
          <>
            <p class="shift">Reference shifted by {readingInWords(shift().shift)}</p>
            <Show when={shift().ambiguousBy}>
              {(other) => <p class="soft">Another {formatTime(other(), 0.01)} away fits nearly as well.</p>}
            </Show>
            <div class="row nudges">
              <For each={nudges}>
                {(by) => (
                  <button
                    type="button"
                    aria-label={`${by < 0 ? "Earlier" : "Later"} by ${Math.abs(by)} s`}
                    onClick={() => comparing.nudge(by)}
                  >
                    {by < 0 ? "−" : "+"}
                    {Math.abs(by)} s
                  </button>
                )}
              </For>
            </div>
          </>
        )}
      </Show>
    </section>
  );
};
