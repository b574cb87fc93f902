// What of the vehicle may be named on paper; nothing to begin with.

import { type Component, For } from "solid-js";
import type { Vehicle } from "../../job/record/job.ts";
import type { Ticks } from "../../report/exhibit/edits.ts";

const names: readonly (readonly [keyof Ticks, string])[] = [
  ["plate", "Number plate"],
  ["vin", "VIN"],
  ["customer", "Customer"],
];

export const TickBoxes: Component<{
  readonly ticks: Ticks;
  readonly vehicle: Vehicle;
  readonly onChange: (ticks: Ticks) => void;
}> = (props) => (
  <fieldset class="choice-row">
    <legend>Name on the sheet</legend>
    <For each={names}>
      {([key, name]) => (
        <label class="check">
          <input
            type="checkbox"
            checked={props.ticks[key]}
            disabled={props.vehicle[key].trim() === ""}
            onChange={(event) => props.onChange({ ...props.ticks, [key]: event.currentTarget.checked })}
          />
          {name}
        </label>
      )}
    </For>
  </fieldset>
);
