// A file is being read, or packed: how far, and a way out.

import { type Component, createMemo, Show } from "solid-js";
import { formatValue } from "../../signal/written/reading-text.ts";
import type { BeingRead } from "../core/captures.ts";
import type { Work } from "../core/under-way.ts";

export const ProgressNote: Component<{ readonly file: BeingRead | Work; readonly onCancel: () => void }> = (props) => {
  const share = createMemo(() => (props.file.total > 0 ? props.file.done / props.file.total : null));
  const says = () => ("says" in props.file ? props.file.says : `Reading ${props.file.name}`);
  return (
    <section class="progress-note" aria-label="Opening">
      <div>
        <p>
          {says()}
          <Show when={share() !== null}>
            <span class="soft">
              , {megabytes(props.file.done)} of {megabytes(props.file.total)}
            </span>
          </Show>
        </p>
        <Show when={share() !== null} fallback={<progress aria-label={says()} />}>
          <progress aria-label={says()} max={1} value={share() ?? 0} />
        </Show>
      </div>
      <button type="button" onClick={() => props.onCancel()}>
        Cancel
      </button>
    </section>
  );
};

const megabytes = (bytes: number) =>
  bytes < 1e6 ? formatValue(Math.ceil(bytes / 1e3), "kB") : formatValue(bytes / 1e6, "MB", 0.1);
