// Codes: typed, pasted, or read from raw replies; what they mean, and what is cured first.

import { type Component, createSignal, For, Show } from "solid-js";
import type { CodeState, FaultCode } from "../../job/codes/code.ts";
import { codesInReplies, holdsCodeReplies } from "../../job/codes/code-replies.ts";
import { codesInText, emptyListsIn, joinCodes } from "../../job/codes/code-text.ts";
import { meaningOf } from "../../job/codes/code-words.ts";
import { type CureOrder, cureOrder } from "../../job/codes/cure-first.ts";
import { changeEvidence, evidenceOf } from "../../job/edits/paper-edits.ts";
import type { Moment } from "../../job/evidence/evidence.ts";
import type { Bus } from "../../job/replies/replies.ts";
import { useGround } from "../core/ground.ts";
import { PickField, TextField } from "../parts/Fields.tsx";
import { MomentChoice } from "../parts/MomentChoice.tsx";
import { Unread } from "../parts/Unread.tsx";

const stateNames: readonly (readonly [CodeState, string])[] = [
  ["stored", "stored"],
  ["pending", "pending"],
  ["permanent", "permanent"],
];
const buses: readonly (readonly [Bus, string])[] = [
  ["unknown", "as the text shows it"],
  ["can", "CAN"],
  ["older", "an older bus"],
];

export const CodesPage: Component = () => {
  const { desk } = useGround();
  const [moment, setMoment] = createSignal<Moment>("before");
  const evidence = () => evidenceOf(desk.job(), moment());
  const change = (codes: readonly FaultCode[], answered: readonly CodeState[] = evidence().answered) =>
    desk.change((job, at) => changeEvidence(job, at, moment(), { codes, answered }));
  return (
    <>
      <MomentChoice value={moment()} onChange={setMoment} />
      <div class="paper-columns">
        <section aria-label="Codes">
          <h3>Codes {moment() === "before" ? "as they were found" : "after the repair"}</h3>
          <TakeCodes
            onTake={(codes, answered) =>
              change(joinCodes(evidence().codes, codes), [...new Set([...evidence().answered, ...answered])])
            }
          />
          <Show when={evidence().codes.length > 0} fallback={<p class="soft">No code is noted here yet.</p>}>
            <CodeTable codes={evidence().codes} onChange={change} />
          </Show>
          <ListsRead answered={evidence().answered} onChange={(answered) => change(evidence().codes, answered)} />
        </section>
        <CureFirst order={cureOrder(evidence().codes)} />
      </div>
    </>
  );
};

/** An empty list is an answer too, but only where it was read. */
const ListsRead: Component<{
  readonly answered: readonly CodeState[];
  readonly onChange: (answered: readonly CodeState[]) => void;
}> = (props) => {
  const set = (state: CodeState, isRead: boolean) => {
    const others = props.answered.filter((one) => one !== state);
    props.onChange(isRead ? [...others, state] : others);
  };
  return (
    <fieldset class="row">
      <legend>Lists that were read, also where they were empty</legend>
      <For each={stateNames}>
        {([state, name]) => (
          <label class="check">
            <input
              type="checkbox"
              checked={props.answered.includes(state)}
              onChange={(event) => set(state, event.currentTarget.checked)}
            />
            {name}
          </label>
        )}
      </For>
    </fieldset>
  );
};

const CureFirst: Component<{ readonly order: CureOrder }> = (props) => (
  <section aria-label="Cure first">
    <h3>What must be cured first</h3>
    <Show
      when={props.order.first.length > 0}
      fallback={<p class="soft">{nothingFirst(props.order.catalyst.length)}</p>}
    >
      <ol class="cure-order">
        <For each={props.order.first}>
          {(step) => (
            <li>
              <b>{step.title}</b>: {inOneLine(step.codes)}
              <p class="soft">{step.because}</p>
            </li>
          )}
        </For>
        <Show when={props.order.catalyst.length > 0}>
          <li>
            <b>Then the catalyst</b>: {inOneLine(props.order.catalyst)}
            <p class="soft">A catalyst code set beside those above is no evidence against the catalyst yet.</p>
          </li>
        </Show>
      </ol>
    </Show>
    <Show when={props.order.apart.length > 0}>
      <h3>Of another system, set apart</h3>
      <p>{inOneLine(props.order.apart)}</p>
    </Show>
    <p class="soft">The order is common practice; the words for codes are from memory, not from the standard.</p>
  </section>
);

const inOneLine = (codes: readonly FaultCode[]): string => codes.map(({ code }) => code).join(", ");

const nothingFirst = (catalysts: number): string =>
  catalysts > 0
    ? "No code stands in the way of judging the catalyst."
    : "Nothing noted stands in the way of judging the catalyst.";

const TakeCodes: Component<{
  readonly onTake: (codes: readonly FaultCode[], answered: readonly CodeState[]) => void;
}> = (props) => {
  const [text, setText] = createSignal("");
  const [state, setState] = createSignal<CodeState>("stored");
  const [bus, setBus] = createSignal<Bus>("unknown");
  const [unread, setUnread] = createSignal<readonly { line: number; says: string }[]>([]);
  const take = () => {
    const typed = codesInText(text(), state());
    const isWords = typed.length > 0;
    const read = isWords && !holdsCodeReplies(text()) ? noReplies : codesInReplies(text(), bus());
    const answered = [...emptyListsIn(text()), ...read.answered];
    const nothing = !isWords && read.codes.length === 0 && answered.length === 0;
    const empty = nothing && read.unread.length === 0 ? [{ line: 1, says: noCodes }] : [];
    setUnread([...(isWords ? [] : read.unread), ...empty]);
    if (nothing) return;
    props.onTake(joinCodes(typed, read.codes), answered);
    if (isWords || read.unread.length === 0) setText("");
  };
  return (
    <div class="take">
      <TextField
        label="Type or paste codes, or raw replies ($43, $47, $4A)"
        rows={3}
        value={text()}
        placeholder={"P0420, P0133 pending\n7E8 06 43 02 04 20 01 33"}
        onChange={setText}
      />
      <div class="row">
        <PickField label="State where none is said" value={state()} options={stateNames} onChange={setState} />
        <PickField label="Bus of raw replies" value={bus()} options={buses} onChange={setBus} />
        <button type="button" class="main" disabled={text().trim() === ""} onClick={take}>
          Take over
        </button>
      </div>
      <Unread lines={unread()} />
    </div>
  );
};

const noReplies = { codes: [], answered: [], unread: [] } as const;
const noCodes = "No code was found. Write it as P0420, or paste the reply from its service byte on.";

const CodeTable: Component<{
  readonly codes: readonly FaultCode[];
  readonly onChange: (codes: readonly FaultCode[]) => void;
}> = (props) => (
  <ul class="lines">
    <For each={props.codes}>
      {(code) => (
        <li>
          <div class="grow">
            <b>{code.code}</b> <span class="soft">{code.states.join(", ")}</span>
            <p>{meaningOf(code.code).says}</p>
          </div>
          <button
            type="button"
            class="plain"
            aria-label={`Take ${code.code} out`}
            onClick={() => props.onChange(props.codes.filter((one) => one.code !== code.code))}
          >
            Take out
          </button>
        </li>
      )}
    </For>
  </ul>
);
