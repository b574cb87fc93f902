// The job: the vehicle, notes, its recordings and exhibits.

import { type Component, For, Show } from "solid-js";
import { changeJob, changeVehicle, dropCapture } from "../../job/edits/make.ts";
import type { Vehicle } from "../../job/record/job.ts";
import { useGround } from "../core/ground.ts";
import { useSheets } from "../core/sheets.ts";
import { ExhibitList } from "../exhibits/ExhibitList.tsx";
import { useExhibits } from "../exhibits/exhibits.ts";
import { useOpening } from "../opening/opening.ts";
import { OnThisAxis } from "../same-run/OnThisAxis.tsx";

const fields: readonly (readonly [keyof Vehicle, string])[] = [
  ["description", "Vehicle"],
  ["codes", "Fault codes"],
  ["odometer", "Distance driven"],
  ["plate", "Number plate"],
  ["vin", "VIN"],
  ["customer", "Customer"],
];

export const JobTab: Component = () => {
  const sheets = useSheets();
  const { desk, captureId, chooseCapture } = useGround();
  const opening = useOpening();
  const exhibits = useExhibits();
  const drop = (id: string) => {
    if (captureId() === id) chooseCapture(null);
    desk.change((job, at) => dropCapture(job, at, id));
    const next = desk.job().captures.at(-1);
    if (captureId() === null && next) void opening.look(next.id);
  };
  return (
    <>
      <section aria-label="Recordings">
        <h2>Recordings of this job</h2>
        <ul class="events">
          <For each={desk.job().captures}>
            {(record) => (
              <li>
                <button
                  type="button"
                  class="event single"
                  aria-current={record.id === captureId()}
                  onClick={() => void opening.look(record.id)}
                >
                  <span>{record.fileName}</span>
                </button>
                <Show when={record.id === captureId()} fallback={<OnThisAxis record={record} />}>
                  <button type="button" class="plain" onClick={() => drop(record.id)}>
                    Take it out of the job
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </section>
      <section aria-label="Exhibits">
        <h2>Exhibits</h2>
        <ExhibitList
          exhibits={desk.job().exhibits}
          loadBlob={exhibits.load}
          onRevise={(record, edits) => void exhibits.revise(record, edits)}
          onRemove={exhibits.remove}
        />
        <button type="button" onClick={() => sheets.open("customer")}>
          Customer sheet
        </button>
      </section>
      <section aria-label="Vehicle">
        <h2>Vehicle</h2>
        <div class="channel-fields">
          <For each={fields}>
            {([name, label]) => (
              <label class="field wide">
                <span>{label}</span>
                <input
                  value={desk.job().vehicle[name]}
                  onInput={(event) => {
                    const { value } = event.currentTarget;
                    desk.change((job, at) => changeVehicle(job, at, { [name]: value }));
                  }}
                />
              </label>
            )}
          </For>
        </div>
        <p class="soft">Number plate, VIN and customer stay off every picture unless you tick them there.</p>
      </section>
      <section aria-label="Notes">
        <label class="field">
          <span>Notes</span>
          <textarea
            rows={5}
            value={desk.job().notes}
            onInput={(event) => {
              const { value } = event.currentTarget;
              desk.change((job, at) => changeJob(job, at, { notes: value }));
            }}
          />
        </label>
      </section>
    </>
  );
};
