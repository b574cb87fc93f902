// A number with its name and unit; what is not a number is left as it was.

import { type Component, createUniqueId } from "solid-js";

export const NumberField: Component<{
  readonly name: string;
  readonly value: number;
  readonly onInput: (value: number) => void;
}> = (props) => {
  const id = createUniqueId();
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      <input
        id={id}
        type="number"
        step="any"
        value={Number(props.value.toPrecision(6))}
        onChange={(event) => {
          const value = event.currentTarget.valueAsNumber;
          if (Number.isFinite(value)) props.onInput(value);
          else event.currentTarget.value = String(props.value);
        }}
      />
    </div>
  );
};
