// How a file is to be read, where the reader is unsure or the user knows better. Every change shows at once.

import { type Component, createEffect, createMemo, createSignal, on, Show } from "solid-js";
import type { ReadChoices } from "../../capture/model/reader.ts";
import { useGround } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { AnswerButtons } from "./AnswerButtons.tsx";
import { type Changed, ChoiceFields, type ChoiceProps } from "./ChoiceFields.tsx";
import { useOpening } from "./opening.ts";
import { PreviewTable } from "./PreviewTable.tsx";
import type { Question } from "./read-file.ts";
import { rememberChoices } from "./remembered-choices.ts";

export const QuestionSheet: Component<{ readonly question: Question; readonly onClose: () => void }> = (props) => {
  const { service } = useGround();
  const opening = useOpening();
  const { file, name } = props.question;
  const [choices, setChoices] = createSignal<ReadChoices>(props.question.choices);
  const ask = createMemo(() => ({ choices: choices() }));
  const latest = createLatest(ask, (wanted) => service.preview(file, name, wanted.choices));
  const preview = latest.value;
  const change = (part: Changed) => setChoices((before) => withoutEmpty({ ...before, ...part }));
  const canRead = () => latest.isPending() || preview()?.problem === null;
  /** What was chosen last may still be tried out: it is read once it is known to be readable. */
  const [isWanted, want] = createSignal(false);
  createEffect(
    on([isWanted, latest.isPending], ([wanted, pending]) => {
      if (!wanted || pending) return;
      want(false);
      const shown = preview();
      if (shown?.problem !== null) return;
      rememberChoices(shown.likeness, choices());
      props.onClose();
      void opening.open(file, name, choices());
    }),
  );
  return (
    <Dialog
      title={`How is ${name} to be read?`}
      onClose={props.onClose}
      foot={
        <>
          <button type="button" onClick={() => setChoices({})}>
            As first guessed
          </button>
          <button type="button" class="main" disabled={!canRead()} onClick={() => want(true)}>
            Read it like this
          </button>
        </>
      }
    >
      <Show when={preview()} fallback={<p class="soft">Looking at the file …</p>}>
        {(shown) => (
          <>
            <Questions preview={shown()} choices={choices()} onChange={change} />
            <ChoiceFields preview={shown()} choices={choices()} onChange={change} />
            <PreviewTable preview={shown()} choices={choices()} onChange={change} />
          </>
        )}
      </Show>
    </Dialog>
  );
};

const Questions: Component<ChoiceProps> = (props) => (
  <>
    <AnswerButtons {...props} />
    <Show when={props.preview.questions.length === 0 && props.preview.problem}>
      {(problem) => <ProblemNote problem={problem()} />}
    </Show>
  </>
);

/** A choice that was taken back leaves no trace: the reader decides again. */
function withoutEmpty(choices: Changed): ReadChoices {
  return Object.fromEntries(Object.entries(choices).filter(([, value]) => value !== undefined)) as ReadChoices;
}
