// Lines of a pasted text that were not understood: which, why, and what would help. Nothing else was lost by them.

import { type Component, For, Show } from "solid-js";

export const Unread: Component<{ readonly lines: readonly { readonly line: number; readonly says: string }[] }> = (
  props,
) => (
  <Show when={props.lines.length > 0}>
    <ul class="caution remarks" role="status" aria-label="Not understood">
      <For each={props.lines.slice(0, 8)}>
        {({ line, says }) => (
          <li>
            Line {line}: {says}
          </li>
        )}
      </For>
      <Show when={props.lines.length > 8}>
        <li>and {props.lines.length - 8} more lines</li>
      </Show>
    </ul>
  </Show>
);
