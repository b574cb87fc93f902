// A file is being read: how far, and a way out.

import { type Component, createMemo, Show } from "solid-js";
import type { Opening } from "../state/captures.ts";

export const ProgressNote: Component<{ readonly opening: Opening; readonly onCancel: () => void }> = (props) => {
  const share = createMemo(() => (props.opening.total > 0 ? props.opening.done / props.opening.total : null));
  return (
    <section class="progress-note" aria-label="Opening">
      <div>
        <p>
          Reading {props.opening.name}
          <Show when={share() !== null}>
            <span class="soft">
              , {megabytes(props.opening.done)} of {megabytes(props.opening.total)}
            </span>
          </Show>
        </p>
        <Show when={share() !== null} fallback={<progress aria-label={`Reading ${props.opening.name}`} />}>
          <progress aria-label={`Reading ${props.opening.name}`} max={1} value={share() ?? 0} />
        </Show>
      </div>
      <button type="button" onClick={() => props.onCancel()}>
        Cancel
      </button>
    </section>
  );
};

const megabytes = (bytes: number) => (bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);
