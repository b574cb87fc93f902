// Other causes: what the recording tells of each, and what was found by hand, by whom, when, with photos.

import { type Component, createSignal, createUniqueId, For, Show } from "solid-js";
import { type HandCause, handCauses } from "../../exhaust/terms/hand-checks.ts";
import { changeHandRow, intakeOf } from "../../job/edits/paper-edits.ts";
import { causeWords, type HandRow, handRow, ruledOutTable } from "../../job/ruled-out/ruled-out.ts";
import { useGround } from "../core/ground.ts";
import { createBlobAddress } from "../parts/blob-address.ts";
import { Options } from "../parts/Fields.tsx";
import { keepPhotoFile } from "./photos.ts";

const results: readonly (readonly [HandRow["result"], string])[] = [
  ["not-done", "not done"],
  ["in-order", "in order"],
  ["at-fault", "fault found"],
];

export const RuledOutPage: Component = () => {
  const { desk, readings } = useGround();
  const told = () => ruledOutTable(readings.whole()?.findings ?? [], []).filter(({ from }) => from === "recording");
  return (
    <>
      <p>
        Each of these looks like a worn catalyst, or wears the next one down. What is not done stays shown as not done;
        a fault found here counts in the answer at once.
      </p>
      <section aria-label="By hand">
        <h3>By hand</h3>
        <div class="table-scroll">
          <table class="paper-table ruled-out">
            <thead>
              <tr>
                <th scope="col">Cause</th>
                <th scope="col">Result</th>
                <th scope="col">Value, what was seen</th>
                <th scope="col">By, when</th>
                <th scope="col">Photos</th>
              </tr>
            </thead>
            <tbody>
              <For each={handCauses}>
                {(cause) => <HandLine cause={cause} row={handRow(desk.job().ruledOut ?? [], cause)} />}
              </For>
            </tbody>
          </table>
        </div>
      </section>
      <section aria-label="From the recording">
        <h3>From the recording</h3>
        <table class="paper-table">
          <tbody>
            <For each={told()}>
              {(row) => (
                <tr>
                  <th scope="row">{row.name}</th>
                  <td class={row.result === "at-fault" ? "bad" : row.result === "in-order" ? "good" : ""}>
                    {toldWords[row.result]}
                  </td>
                  <td>{row.value}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
    </>
  );
};

const toldWords = {
  "in-order": "points away",
  "at-fault": "points to it",
  "cannot-say": "cannot say",
  "not-done": "not recorded",
} as const;

const HandLine: Component<{ readonly cause: HandCause; readonly row: HandRow }> = (props) => {
  const ground = useGround();
  const { desk } = ground;
  const words = () => causeWords[props.cause];
  const change = (part: Partial<HandRow>) =>
    desk.change((job, at) => {
      const before = handRow(job.ruledOut ?? [], props.cause);
      // Who and when are filled in with the result, once; both can be changed.
      const begun = part.result && part.result !== "not-done" && before.result === "not-done";
      const filled = begun ? { by: before.by || intakeOf(job).technician, at: before.at || at.slice(0, 10) } : {};
      return changeHandRow(job, at, { ...before, ...filled, ...part });
    });
  const addPhoto = async (file: File | undefined) => {
    if (!file) return;
    const name = await keepPhotoFile(ground, file);
    if (name) change({ photos: [...props.row.photos, name] });
  };
  return (
    <tr>
      <th scope="row">
        {words().name}
        <span class="soft how">{words().how}</span>
      </th>
      <td>
        <ResultChoice of={words().name} value={props.row.result} onChange={(result) => change({ result })} />
      </td>
      <td>
        <textarea
          rows={2}
          aria-label={`${words().name}: value`}
          placeholder="what was seen"
          value={props.row.value}
          maxLength={5000}
          onInput={(event) => change({ value: event.currentTarget.value })}
        />
      </td>
      <td>
        <ByAndWhen of={words().name} row={props.row} onChange={change} />
      </td>
      <td>
        <div class="row photos">
          <For each={props.row.photos}>
            {(name) => (
              <Photo
                name={name}
                of={words().name}
                onDrop={() => change({ photos: props.row.photos.filter((one) => one !== name) })}
              />
            )}
          </For>
          <PhotoButton of={words().name} onFile={(file) => void addPhoto(file)} />
        </div>
      </td>
    </tr>
  );
};

const ByAndWhen: Component<{
  readonly of: string;
  readonly row: HandRow;
  readonly onChange: (part: Partial<HandRow>) => void;
}> = (props) => (
  <div class="by-and-when">
    <input
      aria-label={`${props.of}: by`}
      placeholder="by"
      value={props.row.by}
      maxLength={500}
      onInput={(event) => props.onChange({ by: event.currentTarget.value })}
    />
    <input
      type="date"
      aria-label={`${props.of}: when`}
      value={props.row.at}
      onInput={(event) => props.onChange({ at: event.currentTarget.value })}
    />
  </div>
);

const ResultChoice: Component<{
  readonly of: string;
  readonly value: HandRow["result"];
  readonly onChange: (result: HandRow["result"]) => void;
}> = (props) => (
  <select
    aria-label={`${props.of}: result`}
    onChange={(event) => props.onChange(event.currentTarget.value as HandRow["result"])}
  >
    <Options value={props.value} options={results} />
  </select>
);

const PhotoButton: Component<{ readonly of: string; readonly onFile: (file: File | undefined) => void }> = (props) => {
  const field = createUniqueId();
  return (
    <>
      <label class="button" for={field}>
        Photo
      </label>
      <input
        id={field}
        class="visually-hidden"
        type="file"
        accept="image/*"
        aria-label={`${props.of}: add a photo`}
        onChange={(event) => {
          props.onFile(event.currentTarget.files?.[0]);
          event.currentTarget.value = "";
        }}
      />
    </>
  );
};

const Photo: Component<{ readonly name: string; readonly of: string; readonly onDrop: () => void }> = (props) => {
  const { desk } = useGround();
  const address = createBlobAddress(
    () => props.name,
    (name) => desk.store.blob(desk.job().id, name),
  );
  const [isSure, setSure] = createSignal(false);
  return (
    <button
      type="button"
      class="photo"
      classList={{ danger: isSure() }}
      aria-label={isSure() ? `Take it out: photo of ${props.of}` : `Photo of ${props.of}: touch twice to take it out`}
      onClick={() => (isSure() ? props.onDrop() : setSure(true))}
      onBlur={() => setSure(false)}
    >
      <Show when={address()} fallback="photo">
        {(src) => <img src={src()} alt="" />}
      </Show>
      <Show when={isSure()}>Take out</Show>
    </button>
  );
};
