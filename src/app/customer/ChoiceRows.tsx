// The customer's choices, each with the technician's own price as typed.

import { type Component, For, Index } from "solid-js";
import type { SheetDraft } from "../../job/record/job.ts";
import { newId } from "../../job/record/new-id.ts";

type Choices = SheetDraft["choices"];

/** To begin with; words of our own, no prices. */
const usual: readonly string[] = [
  "Cure the cause first, then test again",
  "Converter approved for this car",
  "Maker's own converter",
  "Wait, and test again at the next service",
];

export const ChoiceRows: Component<{ readonly choices: Choices; readonly onChange: (choices: Choices) => void }> = (
  props,
) => {
  const change = (at: number, part: Partial<Choices[number]>) =>
    props.onChange(props.choices.map((one, i) => (i === at ? { ...one, ...part } : one)));
  const taken = () => new Set(props.choices.map((one) => one.what));
  const add = (what: string) => props.onChange([...props.choices, { id: newId(), what, price: "" }]);
  return (
    <fieldset class="choice-rows">
      <legend>Choices and prices</legend>
      <Index each={props.choices}>
        {(choice, at) => (
          <div class="row">
            <input
              aria-label={`Choice ${at + 1}`}
              value={choice().what}
              maxLength={200}
              onInput={(event) => change(at, { what: event.currentTarget.value })}
            />
            <input
              aria-label={`Price of choice ${at + 1}`}
              placeholder="price"
              value={choice().price}
              maxLength={80}
              onInput={(event) => change(at, { price: event.currentTarget.value })}
            />
            <button
              type="button"
              class="plain"
              aria-label={`Take choice ${at + 1} out`}
              onClick={() => props.onChange(props.choices.filter((_, i) => i !== at))}
            >
              Take out
            </button>
          </div>
        )}
      </Index>
      <div class="row">
        <For each={usual.filter((words) => !taken().has(words))}>
          {(what) => (
            <button type="button" class="wraps" onClick={() => add(what)}>
              + {what}
            </button>
          )}
        </For>
        <button type="button" onClick={() => add("")}>
          + Another
        </button>
      </div>
    </fieldset>
  );
};
