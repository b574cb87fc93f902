// The job: the vehicle, notes, its recordings and exhibits.

import { type Component, For, Show } from "solid-js";
import { changeJob } from "../../job/edits/make.ts";
import type { Job } from "../../job/record/job.ts";
import { useGround } from "../core/ground.ts";
import { type PaperPage, useSheets } from "../core/sheets.ts";
import { useStorekeeper } from "../core/storekeeper.ts";
import { ExhibitList } from "../exhibits/ExhibitList.tsx";
import { useExhibits } from "../exhibits/exhibits.ts";
import { useOpening } from "../opening/opening.ts";
import { SureButton } from "../parts/SureButton.tsx";
import { OnThisAxis } from "../same-run/OnThisAxis.tsx";

export const JobTab: Component = () => {
  const sheets = useSheets();
  const { desk } = useGround();
  const exhibits = useExhibits();
  return (
    <>
      <Recordings />
      <section aria-label="Exhibits">
        <h2>Exhibits</h2>
        <ExhibitList
          exhibits={desk.job().exhibits}
          loadBlob={exhibits.load}
          onRevise={(record, edits) => void exhibits.revise(record, edits)}
          onRemove={(record) => void exhibits.remove(record)}
          removed={exhibits.removed()?.headline ?? null}
          onPutBack={() => void exhibits.putBack()}
        />
        <button type="button" onClick={() => sheets.open("customer")}>
          Customer sheet
        </button>
      </section>
      <section aria-label="Job papers">
        <h2>Job papers</h2>
        <p>{inShort(desk.job())}</p>
        <div class="row">
          <For each={papers}>
            {([paper, name]) => (
              <button type="button" onClick={() => sheets.openPaper(paper)}>
                {name}
              </button>
            )}
          </For>
        </div>
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

const Recordings: Component = () => {
  const { desk, captureId, chooseCapture } = useGround();
  const opening = useOpening();
  const storekeeper = useStorekeeper();
  const drop = (id: string) => {
    if (captureId() === id) chooseCapture(null);
    void storekeeper.takeOut(id);
    const next = desk.job().captures.at(-1);
    if (captureId() === null && next) void opening.look(next.id);
  };
  return (
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
                <span>
                  {record.fileName}
                  <Show when={record.stage}>{(stage) => <span class="soft"> · {stageWords[stage()]}</span>}</Show>
                </span>
              </button>
              <Show when={record.id === captureId()} fallback={<OnThisAxis record={record} />}>
                {/* There is no way back: its bytes are given back at once, and with it goes what was set on it. */}
                <div class="row">
                  <SureButton
                    ask="Take it out of the job"
                    sure="Take it out, with all that was set on it"
                    onSure={() => drop(record.id)}
                  />
                </div>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  );
};

const papers: readonly (readonly [PaperPage, string])[] = [
  ["intake", "Complaint and car"],
  ["evidence", "Before clearing"],
  ["ruledOut", "Other causes"],
  ["repair", "Repair and proof"],
];

const stageWords = { before: "before the repair", after: "after the repair", donor: "another, sound car" } as const;

/** Car, codes and complaint in a line. */
function inShort({ vehicle, intake }: Job): string {
  const texts = [vehicle.description, vehicle.odometer, vehicle.codes, intake?.complaint ?? ""];
  return texts.filter((text) => text.trim() !== "").join(" · ") || "Nothing is noted of the car and the complaint yet.";
}
