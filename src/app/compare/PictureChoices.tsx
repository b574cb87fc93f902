// How the two are drawn: behind or below, on one scale or each fitted, with the difference, with the usual band.

import { type Component, Show } from "solid-js";
import type { Sheets } from "../state/sheets.ts";
import { useWorkbench } from "../state/workbench.ts";
import { BandMembers } from "./BandMembers.tsx";

export const PictureChoices: Component<{ readonly sheets: Sheets }> = (props) => {
  const { comparing } = useWorkbench();
  const { band } = comparing;
  const settings = comparing.settings;
  const isBelow = () => settings().place === "below";
  return (
    <section aria-label="Picture">
      <h2>Picture</h2>
      <div class="row">
        <button type="button" aria-pressed={!isBelow()} onClick={() => comparing.set({ place: "behind" })}>
          Behind
        </button>
        <button type="button" aria-pressed={isBelow()} onClick={() => comparing.set({ place: "below" })}>
          In a lane below
        </button>
      </div>
      <Show when={isBelow()}>
        <div class="row">
          <button
            type="button"
            aria-pressed={settings().scale === "common"}
            onClick={() => comparing.set({ scale: "common" })}
          >
            One scale
          </button>
          <button
            type="button"
            aria-pressed={settings().scale === "each"}
            onClick={() => comparing.set({ scale: "each" })}
          >
            Each fitted
          </button>
        </div>
      </Show>
      <div class="row">
        <button
          type="button"
          aria-pressed={settings().difference}
          onClick={() => comparing.set({ difference: !settings().difference })}
        >
          Difference lane
        </button>
        <button type="button" aria-pressed={band.isShown()} onClick={() => band.show(!band.isShown())}>
          Usual band
        </button>
      </div>
      <Show when={band.isShown()}>
        <BandMembers sheets={props.sheets} />
      </Show>
    </section>
  );
};
