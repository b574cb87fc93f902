// Where the panel stands below the lanes: the verdict in one line above them, and the way to the answer.

import { type Component, Show } from "solid-js";
import { useGround } from "../core/ground.ts";
import { verdictText } from "../words.ts";

export const VerdictAhead: Component = () => {
  const { readings } = useGround();
  const isFirst = () => readings.whole() === null;
  const finding = () =>
    (readings.whole() ?? readings.early()?.said)?.findings.find(({ id }) => id === "catalyst") ?? null;
  return (
    <Show when={finding()}>
      {(catalyst) => (
        <button
          type="button"
          class="verdict-ahead"
          onClick={() => document.querySelector(".panel")?.scrollIntoView({ block: "start" })}
        >
          <span class={`verdict ${catalyst().verdict}`} classList={{ early: isFirst() }}>
            {verdictText(catalyst())}
          </span>
          <span class="soft">{isFirst() ? "checking …" : "Why"}</span>
        </button>
      )}
    </Show>
  );
};
