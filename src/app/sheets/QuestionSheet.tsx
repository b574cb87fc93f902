// How a file is to be read, where the reader is unsure or the user knows better. Every change shows at once.

import { type Component, createMemo, createSignal, Show } from "solid-js";
import type { ReadChoices } from "../../capture/reader.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { createLatest } from "../state/latest.ts";
import type { Question } from "../state/opening.ts";
import { rememberChoices } from "../state/remembered-choices.ts";
import { useWorkbench } from "../state/workbench.ts";
import { AnswerButtons } from "./AnswerButtons.tsx";
import { type Changed, ChoiceFields, type ChoiceProps } from "./ChoiceFields.tsx";
import { PreviewTable } from "./PreviewTable.tsx";

export const QuestionSheet: Component<{ readonly question: Question; readonly onClose: () => void }> = (props) => {
  const { opening, service } = useWorkbench();
  const { file, name } = props.question;
  const [choices, setChoices] = createSignal<ReadChoices>(props.question.choices);
  const ask = createMemo(() => ({ choices: choices() }));
  const latest = createLatest(ask, (wanted) => service.preview(file, name, wanted.choices));
  const preview = latest.value;
  const change = (part: Changed) => setChoices((before) => withoutEmpty({ ...before, ...part }));
  const read = async () => {
    rememberChoices(preview()?.likeness ?? "", choices());
    props.onClose();
    await opening.open(file, name, choices());
  };
  const canRead = () => preview() !== null && preview()!.problem === null && !latest.isPending();
  return (
    <Dialog
      title={`How is ${name} to be read?`}
      onClose={props.onClose}
      foot={
        <>
          <button type="button" onClick={() => setChoices({})}>
            As first guessed
          </button>
          <button type="button" class="main" disabled={!canRead()} onClick={read}>
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
