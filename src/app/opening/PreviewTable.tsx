// The first rows as understood; above each column what it is taken for.

import { type Component, For, Show } from "solid-js";
import { type Role, roles } from "../../capture/model/capture.ts";
import type { Preview } from "../../capture/preview.ts";
import { formatNumber } from "../../signal/written/digits.ts";
import { roleWords } from "../words.ts";
import type { ChoiceProps } from "./ChoiceFields.tsx";

export const PreviewTable: Component<ChoiceProps> = (props) => {
  const channels = () => props.preview.columns.filter((column) => column.use === "channel");
  const leftOut = () =>
    props.preview.columns.filter((column) => column.use === "left-out").map((column) => column.name);
  return (
    <Show when={channels().length > 0}>
      <section class="preview-table" aria-label="First rows as understood">
        <table>
          <thead>
            <tr>
              <th>Time</th>
              <For each={channels()}>{(column) => <th>{column.name}</th>}</For>
            </tr>
            <tr>
              <th class="soft">s</th>
              <For each={channels()}>
                {(column) => (
                  <th>
                    <TakenFor {...props} column={column} />
                  </th>
                )}
              </For>
            </tr>
          </thead>
          <tbody>
            <For each={props.preview.rows.slice(0, 8)}>
              {(row) => (
                <tr>
                  <For each={row}>{(value) => <td>{value === null ? "–" : shown(value)}</td>}</For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
      <Show when={leftOut().length > 0}>
        <p class="soft">Left out, as they hold no numbers: {leftOut().join(", ")}</p>
      </Show>
    </Show>
  );
};

/** What a column is taken for, and its unit: both can be said otherwise. */
const TakenFor: Component<ChoiceProps & { readonly column: Preview["columns"][number] }> = (props) => (
  <>
    <select
      aria-label={`What ${props.column.name} is`}
      value={props.column.role}
      onChange={(event) =>
        props.onChange({ roles: { ...props.choices.roles, [props.column.name]: event.currentTarget.value as Role } })
      }
    >
      <For each={roles}>{(role) => <option value={role}>{roleWords[role]}</option>}</For>
    </select>
    <input
      aria-label={`Unit of ${props.column.name}`}
      value={props.column.unit}
      placeholder="unit"
      onChange={(event) =>
        props.onChange({ units: { ...props.choices.units, [props.column.name]: event.currentTarget.value.trim() } })
      }
    />
    <Show when={props.column.rowsUnit !== props.column.unit}>
      <span class="soft">shown in {props.column.rowsUnit}</span>
    </Show>
  </>
);

const shown = (value: number) => formatNumber(value, Number.isInteger(value) ? 0 : 4);
