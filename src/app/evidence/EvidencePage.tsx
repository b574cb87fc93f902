// The evidence that clearing destroys: a checklist, what the car tells of itself, and a large warning until all is saved.

import { type Component, createSignal, For, Show } from "solid-js";
import { changeEvidence, evidenceOf } from "../../job/edits/paper-edits.ts";
import { type CheckLine, checklist, lateClearing, openItems } from "../../job/evidence/checklist.ts";
import type { Evidence, EvidenceItem, Moment } from "../../job/evidence/evidence.ts";
import { statusInText } from "../../job/evidence/status-text.ts";
import { readinessMark, readinessOf } from "../../job/parameters/readiness.ts";
import { useGround } from "../core/ground.ts";
import { TextField } from "../parts/Fields.tsx";
import { MomentChoice } from "../parts/MomentChoice.tsx";
import { Unread } from "../parts/Unread.tsx";
import { valueLines } from "../units/say-values.ts";

export const EvidencePage: Component<{ readonly onGo: (item: EvidenceItem) => void }> = (props) => {
  const { desk } = useGround();
  const [moment, setMoment] = createSignal<Moment>("before");
  const evidence = () => evidenceOf(desk.job(), moment());
  const change = (part: Partial<Evidence>) => desk.change((job, at) => changeEvidence(job, at, moment(), part));
  const open = () => openItems(evidence());
  const decline = (item: EvidenceItem, isDeclined: boolean) => {
    const others = evidence().declined.filter((one) => one !== item);
    change({ declined: isDeclined ? [...others, item] : others });
  };
  return (
    <>
      <Show when={moment() === "before" && open().length > 0}>
        <ClearingWarning names={open().map(({ name }) => lower(name))} />
      </Show>
      <MomentChoice value={moment()} onChange={setMoment} />
      <div class="paper-columns">
        <section aria-label="Checklist">
          <h3>Checklist</h3>
          <ul class="lines checklist">
            <For each={checklist(evidence(), moment())}>
              {(line) => (
                <ChecklistItem
                  line={line}
                  onGo={() => props.onGo(line.item)}
                  onDecline={(isDeclined) => decline(line.item, isDeclined)}
                />
              )}
            </For>
          </ul>
        </section>
        <section aria-label="What the car tells">
          <h3>What the car tells of itself</h3>
          <TakeStatus evidence={evidence()} onChange={change} />
          <TextField
            label="Calibration ID"
            value={evidence().calibration}
            onChange={(calibration) => change({ calibration })}
          />
          <ValueList evidence={evidence()} />
          <Show when={moment() === "before" && lateClearing(evidence())}>
            {(says) => <p class="caution">{says()}</p>}
          </Show>
          <ReadinessTable evidence={evidence()} />
        </section>
      </div>
    </>
  );
};

const ClearingWarning: Component<{ readonly names: readonly string[] }> = (props) => (
  <div class="clearing-warning" role="alert">
    <strong>Do not clear codes yet.</strong>
    <p>
      Not saved yet: {props.names.join(", ")}. What clearing destroys is lost for good: save each, or say that it is not
      to be had.
    </p>
  </div>
);

const ChecklistItem: Component<{
  readonly line: CheckLine;
  readonly onGo: () => void;
  readonly onDecline: (isDeclined: boolean) => void;
}> = (props) => {
  const isDeclined = () => props.line.state === "declined";
  return (
    <li classList={{ done: props.line.state !== "open" }}>
      <span class={`state ${props.line.state}`}>{stateWords[props.line.state]}</span>
      <div class="grow">
        <b>{props.line.name}</b>
        <p class="soft">{props.line.because}</p>
      </div>
      <Show when={props.line.state === "open" && elsewhere.includes(props.line.item)}>
        <button type="button" aria-label={`Go there: ${props.line.name}`} onClick={() => props.onGo()}>
          Go there
        </button>
      </Show>
      <Show when={props.line.state !== "saved"}>
        <button
          type="button"
          class="plain"
          aria-label={`${props.line.name}: ${isDeclined() ? "wanted after all" : "not to be had"}`}
          onClick={() => props.onDecline(!isDeclined())}
        >
          {isDeclined() ? "Wanted after all" : "Not to be had"}
        </button>
      </Show>
    </li>
  );
};

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

const stateWords = { saved: "saved", declined: "not to be had", open: "open" } as const;
/** What is saved on a page of its own. */
const elsewhere: readonly EvidenceItem[] = ["codes", "pending", "permanent", "frame", "monitors"];

const TakeStatus: Component<{
  readonly evidence: Evidence;
  readonly onChange: (part: Partial<Evidence>) => void;
}> = (props) => {
  const [text, setText] = createSignal("");
  const [unread, setUnread] = createSignal<readonly { line: number; says: string }[]>([]);
  const take = () => {
    const { part, unread: left } = statusInText(text(), props.evidence);
    setUnread(left);
    if (part) props.onChange(part);
    if (left.length === 0) setText("");
  };
  return (
    <div class="take">
      <TextField
        label="Type or paste distances, warm-ups and readiness, or raw replies ($41)"
        rows={4}
        value={text()}
        placeholder={"Distance since codes cleared 812 km\nCatalyst: not complete\n41 01 82 07 65 01"}
        onChange={setText}
      />
      <button type="button" class="main" disabled={text().trim() === ""} onClick={take}>
        Take over
      </button>
      <Unread lines={unread()} />
    </div>
  );
};

const ValueList: Component<{ readonly evidence: Evidence }> = (props) => (
  <table class="value-table">
    <tbody>
      <For each={valueLines(props.evidence.status)}>
        {([, name, value]) => (
          <tr>
            <th scope="row">{name}</th>
            <td>{value}</td>
          </tr>
        )}
      </For>
    </tbody>
  </table>
);

const ReadinessTable: Component<{ readonly evidence: Evidence }> = (props) => {
  const told = () => readinessOf(props.evidence.readiness, props.evidence.readinessOf === "since-clear" ? 0x01 : 0x41);
  return (
    <Show when={told()} fallback={<NotReadable bytes={props.evidence.readiness} />}>
      {(readiness) => (
        <>
          <h3>Readiness {readFrom[props.evidence.readinessOf]}</h3>
          <Show when={readiness().lamp !== null}>
            <p>
              Lamp {readiness().lamp ? "on" : "off"}, {readiness().codes} codes.
            </p>
          </Show>
          <table class="value-table">
            <tbody>
              <For each={readiness().items.filter(({ state }) => state !== "not-fitted")}>
                {({ name, state }) => (
                  <tr>
                    <th scope="row">{name}</th>
                    <td class={state === "complete" ? "good" : "open"}>
                      {state === "complete" ? "complete" : "not complete"}
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
          <Show when={props.evidence.readinessOf !== "as-typed"}>
            <p class="soft">Here {readinessMark}.</p>
          </Show>
        </>
      )}
    </Show>
  );
};

const readFrom = {
  "since-clear": "since codes were cleared",
  "this-drive": "in this drive",
  "as-typed": "as it was typed",
} as const;

/** Bytes that are there and tell nothing: an engine whose bits mean other tests. */
const NotReadable: Component<{ readonly bytes: readonly number[] }> = (props) => (
  <Show when={props.bytes.length === 4}>
    <p class="caution">
      Readiness is saved, and not read: by these bytes the engine ignites by compression, and its bits mean other tests.
    </p>
  </Show>
);
