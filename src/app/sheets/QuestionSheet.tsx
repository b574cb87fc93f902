// How a file is to be read, where the reader is unsure or the user knows better.

import { type Component, createSignal, Show } from "solid-js";
import type { ReadChoices } from "../../capture/reader.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import type { Question } from "../state/opening.ts";
import { useWorkbench } from "../state/workbench.ts";

export const QuestionSheet: Component<{ readonly question: Question; readonly onClose: () => void }> = (props) => {
  const { opening } = useWorkbench();
  const [choices, setChoices] = createSignal<ReadChoices>(props.question.choices);
  const read = async () => {
    const { file, name } = props.question;
    props.onClose();
    await opening.open(file, name, choices());
  };
  const setRate = (text: string) => {
    const rate = Number(text.trim().replace(",", "."));
    const { rate: _, ...rest } = choices();
    setChoices(rate > 0 ? { ...rest, rate } : rest);
  };
  return (
    <Dialog
      title={`How is ${props.question.name} to be read?`}
      onClose={props.onClose}
      foot={
        <button type="button" class="main" onClick={read}>
          Read it like this
        </button>
      }
    >
      <Show when={props.question.problem}>{(problem) => <ProblemNote problem={problem()} />}</Show>
      <label class="field">
        <span>Samples per second</span>
        <input
          inputmode="decimal"
          value={choices().rate ?? ""}
          onInput={(event) => setRate(event.currentTarget.value)}
        />
      </label>
    </Dialog>
  );
};
