// All keys of the bench.

import { type Component, For } from "solid-js";
import { Dialog } from "../parts/Dialog.tsx";
import type { Shortcut } from "./shortcuts.ts";

export const KeyboardSheet: Component<{ readonly shortcuts: readonly Shortcut[]; readonly onClose: () => void }> = (
  props,
) => (
  <Dialog title="Keyboard" narrow onClose={props.onClose}>
    <table class="key-table">
      <tbody>
        <For each={props.shortcuts}>
          {(shortcut) => (
            <tr>
              <td>
                <kbd>{shortcut.keys}</kbd>
              </td>
              <td>{shortcut.says}</td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  </Dialog>
);
