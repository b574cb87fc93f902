// What each recording is, what was repaired, and whether that is proved, part by part.

import { type Component, createSignal, For, Show } from "solid-js";
import { changeRepair, labelCapture, noRepair } from "../../job/edits/paper-edits.ts";
import { type Proof, proofInWords, proofOfJob } from "../../job/proof/proof.ts";
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

type Staged = "before" | "after";

const calledBy = ({ captures }: Job, stage: Staged): readonly CaptureRecord[] =>
  captures.filter((one) => one.stage === stage);

export const RepairPage: Component = () => {
  const { desk } = useGround();
  const comparing = useComparing();
  const repair = () => desk.job().repair ?? noRepair;
  const proof = () => proofOfJob(desk.job(), comparing.beforeAfter()?.comparison ?? null, comparing.isUnderWay());
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
        <CompareBoth />
      </section>
    </div>
  );
};

/** Where several are called so, a person says which two. */
const CompareBoth: Component = () => {
  const { desk } = useGround();
  const comparing = useComparing();
  const opening = useOpening();
  const [isBusy, setBusy] = createSignal(false);
  const [taken, take] = createSignal<Readonly<Partial<Record<Staged, string>>>>({});
  const chosen = (stage: Staged) => {
    const called = calledBy(desk.job(), stage);
    return called.find(({ id }) => id === taken()[stage]) ?? (called.length === 1 ? called[0] : undefined);
  };
  const compare = async (before: CaptureRecord, after: CaptureRecord) => {
    setBusy(true);
    await opening.look(after.id);
    await comparing.start({ kind: "job", record: before });
    setBusy(false);
  };
  const both = () => {
    const [before, after] = [chosen("before"), chosen("after")];
    return before && after ? { before, after } : null;
  };
  return (
    <>
      <For each={["before", "after"] as const}>
        {(stage) => (
          <Show when={calledBy(desk.job(), stage).length > 1}>
            <PickField
              label={`Of those ${stage} the repair, compare`}
              value={chosen(stage)?.id ?? ""}
              options={[
                ["", "not chosen"],
                ...calledBy(desk.job(), stage).map(({ id, fileName }) => [id, fileName] as const),
              ]}
              onChange={(id) => take({ ...taken(), [stage]: id })}
            />
          </Show>
        )}
      </For>
      <Show when={both()}>
        {(two) => (
          <button
            type="button"
            class="main"
            disabled={isBusy() || comparing.isUnderWay()}
            onClick={() => void compare(two().before, two().after)}
          >
            {isBusy() || comparing.isUnderWay() ? "Comparing …" : "Compare before and after"}
          </button>
        )}
      </Show>
    </>
  );
};

const ProofParts: Component<{ readonly proof: Proof }> = (props) => (
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
