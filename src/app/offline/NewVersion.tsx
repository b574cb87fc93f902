// The offer of a newer version of the program.

import { type Component, Show } from "solid-js";
import { useOffline } from "./offline.ts";

export const NewVersion: Component = () => {
  const offline = useOffline();
  return (
    <Show when={offline.newer() !== "none"}>
      <section class="same-run-note" aria-label="Newer version">
        <p>
          {offline.newer() === "waits"
            ? "A newer version of Tracewright is ready."
            : "Tracewright is open in other tabs too: close them, then change to the newer version."}
        </p>
        <button type="button" onClick={() => void offline.takeNewer()}>
          Save and change to it
        </button>
        <button type="button" class="plain" onClick={offline.later}>
          Later
        </button>
      </section>
    </Show>
  );
};
