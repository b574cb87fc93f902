// Which of the two: what the car told before codes were cleared, or after the repair.

import { type Component, For } from "solid-js";
import type { Moment } from "../../job/evidence/evidence.ts";

const names: readonly (readonly [Moment, string])[] = [
  ["before", "Before clearing"],
  ["after", "After the repair"],
];

export const MomentChoice: Component<{ readonly value: Moment; readonly onChange: (moment: Moment) => void }> = (
  props,
) => (
  <fieldset class="row moment">
    <legend class="visually-hidden">When it was read</legend>
    <For each={names}>
      {([moment, name]) => (
        <button type="button" aria-pressed={props.value === moment} onClick={() => props.onChange(moment)}>
          {name}
        </button>
      )}
    </For>
  </fieldset>
);
