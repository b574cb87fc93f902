// The likely answers to what only the user can know, one touch each. They stay in sight, so that an answer can be changed.

import { type Component, createMemo, For } from "solid-js";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Answer } from "../../capture/questions.ts";
import type { ChoiceProps } from "./ChoiceFields.tsx";

interface Asked {
  readonly text: string;
  readonly answers: readonly Answer[];
}

export const AnswerButtons: Component<ChoiceProps> = (props) => {
  const asked = createMemo<readonly Asked[]>((before) => {
    const now = props.preview.questions;
    const answered = before.filter(({ text, answers }) => answers.length > 0 && !now.some((one) => one.text === text));
    return [...answered, ...now];
  }, []);
  return (
    <For each={asked()}>
      {({ text, answers }) => (
        <section aria-label={text}>
          <p class="statement">{text}</p>
          <div class="choice-grid">
            <For each={answers}>
              {(answer) => (
                <button
                  type="button"
                  aria-pressed={isGiven(answer.choices, props.choices)}
                  onClick={() => props.onChange(answer.choices)}
                >
                  {answer.text}
                </button>
              )}
            </For>
          </div>
        </section>
      )}
    </For>
  );
};

const isGiven = (answer: ReadChoices, choices: ReadChoices): boolean =>
  Object.entries(answer).every(
    ([key, value]) => JSON.stringify(choices[key as keyof ReadChoices]) === JSON.stringify(value),
  );
