// Why a reading tells no more: a line of its own below it, in a table of three columns.

import { type Component, Show } from "solid-js";

export const BecauseRow: Component<{ readonly because: string | undefined }> = (props) => (
  <Show when={props.because}>
    {(text) => (
      <tr class="because">
        <td colspan={3}>{text()}</td>
      </tr>
    )}
  </Show>
);
