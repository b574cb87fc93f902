// How the two are drawn: behind or below, on one scale or each fitted, with the difference, with the usual band.

import { type Component, Show } from "solid-js";
import { BandMembers } from "./BandMembers.tsx";
import { useComparing } from "./comparing.ts";

export const PictureChoices: Component = () => {
  const comparing = useComparing();
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
        <BandMembers />
      </Show>
    </section>
  );
};
