// What each recording is, what was repaired, and whether that is proved, part by part.

import { type Component, createSignal, For, Show } from "solid-js";
import { changeRepair, evidenceOf, labelCapture, noRepair } from "../../job/edits/paper-edits.ts";
import { proofInWords, proofOf } from "../../job/proof/proof.ts";
import type { CaptureRecord, Job } from "../../job/record/job.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { useOpening } from "../opening/opening.ts";
import { PickField, TextField } from "../parts/Fields.tsx";

const stages: readonly (readonly [NonNullable<CaptureRecord["stage"]> | "", string])[] = [
  ["", "not said"],
  ["before", "before the repair"],
  ["after", "after the repair"],
  ["donor", "another, sound car"],
];
const runnings: readonly (readonly [NonNullable<CaptureRecord["running"]> | "", string])[] = [
  ["", "not said"],
  ["idle", "idle"],
  ["drive", "drive"],
];

interface Stages {
  readonly before: CaptureRecord;
  readonly after: CaptureRecord;
}

function stagesOf({ captures }: Job): Stages | null {
  const of = (stage: CaptureRecord["stage"]) => captures.find((one) => one.stage === stage);
  const [before, after] = [of("before"), of("after")];
  return before && after ? { before, after } : null;
}

export const RepairPage: Component = () => {
  const { desk } = useGround();
  const comparing = useComparing();
  const repair = () => desk.job().repair ?? noRepair;
  const proof = () =>
    proofOf({
      repair: repair(),
      comparison: comparing.beforeAfter()?.comparison ?? null,
      after: evidenceOf(desk.job(), "after"),
    });
  const opening = useOpening();
  const [isBusy, setBusy] = createSignal(false);
  const compare = async ({ before, after }: Stages) => {
    setBusy(true);
    await opening.look(after.id);
    await comparing.start({ kind: "job", record: before });
    setBusy(false);
  };
  const change = (part: Partial<typeof noRepair>) => desk.change((job, at) => changeRepair(job, at, part));
  return (
    <div class="paper-columns">
      <section aria-label="Recordings">
        <h3>What each recording is</h3>
        <Show
          when={desk.job().captures.length > 0}
          fallback={<p class="soft">No recording is open in this job yet.</p>}
        >
          <For each={desk.job().captures}>{(record) => <RecordingLabels record={record} />}</For>
        </Show>
      </section>
      <section aria-label="Repair">
        <h3>The repair</h3>
        <TextField label="What was repaired" rows={2} value={repair().what} onChange={(what) => change({ what })} />
        <TextField label="When" type="date" value={repair().at} onChange={(at) => change({ at })} />
        <TextField label="By" value={repair().by} onChange={(by) => change({ by })} />
        <h3>Is it proved?</h3>
        <ProofParts proof={proof()} />
        <Show when={stagesOf(desk.job())}>
          {(both) => (
            <button type="button" class="main" disabled={isBusy()} onClick={() => void compare(both())}>
              {isBusy() ? "Comparing …" : "Compare before and after"}
            </button>
          )}
        </Show>
      </section>
    </div>
  );
};

const ProofParts: Component<{ readonly proof: ReturnType<typeof proofOf> }> = (props) => (
  <>
    <p class={`statement ${props.proof.told === "proved" ? "points-away" : "cannot-say"}`}>
      {proofInWords(props.proof)}
    </p>
    <ul class="lines">
      <For each={props.proof.parts}>
        {({ name, ok, says }) => (
          <li>
            <span class={`state ${ok ? "saved" : "open"}`}>{ok ? "there" : "missing"}</span>
            <div class="grow">
              <b>{name}</b>
              <p class="soft">{says}</p>
            </div>
          </li>
        )}
      </For>
    </ul>
  </>
);

const RecordingLabels: Component<{ readonly record: CaptureRecord }> = (props) => {
  const { desk } = useGround();
  const say = (part: Parameters<typeof labelCapture>[3]) =>
    desk.change((job, at) => labelCapture(job, at, props.record.id, part));
  return (
    <fieldset class="recording-labels">
      <legend>{props.record.fileName}</legend>
      <PickField
        label="Recorded"
        value={props.record.stage ?? ""}
        options={stages}
        onChange={(stage) => say({ stage: stage === "" ? null : stage })}
      />
      <PickField
        label="Running"
        value={props.record.running ?? ""}
        options={runnings}
        onChange={(running) => say({ running: running === "" ? null : running })}
      />
      <TextField
        label="When"
        type="datetime-local"
        value={props.record.recordedAt ?? ""}
        onChange={(recordedAt) => say({ recordedAt })}
      />
    </fieldset>
  );
};
