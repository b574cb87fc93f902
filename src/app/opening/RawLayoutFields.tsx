// How raw numbers lie in a file, as a small form; it is kept in plain words. The first values show below it as they would be read.

import { type Component, createSignal, Show } from "solid-js";
import { isInRange, type LayoutNumber, saidIn } from "../../capture/model/layout.ts";
import { type LayoutKey, layoutInWords, numberKinds, type Said } from "../../capture/model/layout-words.ts";
import { PickField, TextField } from "../parts/Fields.tsx";
import { NumberField } from "../parts/NumberField.tsx";

export interface RawLayoutProps {
  /** In words; "" while nothing is said. */
  readonly layout: string;
  /** The file says all but its scale and unit, as a WAV does. */
  readonly isScaleOnly: boolean;
  readonly onChange: (layout: string) => void;
}

const kinds = [["", "Choose …"], ...numberKinds.map(([words, type]) => [type, words] as const)] as const;
const orders = [
  ["le", "low byte first"],
  ["be", "high byte first"],
] as const;

/** Said of a number that no layout has. */
export const wanted: Readonly<Record<LayoutNumber, string>> = {
  channels: "A whole number from 1 to 256 is wanted. It was not taken.",
  rate: "More than 0 is wanted. It was not taken.",
  skip: "A whole number, 0 or more, is wanted. It was not taken.",
  scale: "A smaller number is wanted. It was not taken.",
  offset: "A smaller number is wanted. It was not taken.",
};

/** Nothing where the words are not understood. */
function saidSafely(layout: string): Said {
  try {
    return saidIn(layout);
  } catch {
    return new Map();
  }
}

export const RawLayoutFields: Component<RawLayoutProps> = (props) => {
  const said = () => saidSafely(props.layout);
  const change = (key: LayoutKey, value: string | null) => {
    const next = new Map(said());
    if (value === null || value === "") next.delete(key);
    else next.set(key, value);
    props.onChange(layoutInWords(next));
  };
  /** A unit that would be read as other words of the layout. */
  const [refused, refuse] = createSignal<string | null>(null);
  const takeUnit = (unit: string) => {
    const isWord = !/[,;=\n]/.test(unit);
    refuse(isWord ? null : unit);
    change("unit", isWord ? unit.trim() : null);
  };
  const OneNumber: Component<{ readonly name: string; readonly of: LayoutNumber }> = (field) => (
    <NumberField
      name={field.name}
      value={said().has(field.of) ? Number(said().get(field.of)) : null}
      isLive
      mayBeEmpty
      isRight={(value) => (isInRange(field.of, value) ? null : wanted[field.of])}
      onNumber={(value) => change(field.of, value === null ? null : String(value))}
    />
  );
  return (
    <>
      <Show when={!props.isScaleOnly}>
        <PickField
          label="Kind of number"
          value={said().get("type") ?? ""}
          options={kinds}
          onChange={(type) => change("type", type)}
        />
        <PickField
          label="Order of bytes"
          value={said().get("order") ?? "le"}
          options={orders}
          onChange={(order) => change("order", order)}
        />
        <OneNumber name="Channels" of="channels" />
        <OneNumber name="Samples per second" of="rate" />
        <OneNumber name="Bytes to skip at the beginning" of="skip" />
      </Show>
      <OneNumber name={props.isScaleOnly ? "Full scale" : "Each number times"} of="scale" />
      <OneNumber name="Plus" of="offset" />
      <TextField
        label="Unit"
        value={refused() ?? said().get("unit") ?? ""}
        hint={refused() === null ? undefined : "A unit holds no comma, semicolon or equals sign. It was not taken."}
        hintIsBad
        onChange={takeUnit}
      />
    </>
  );
};
